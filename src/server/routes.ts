/** What the server answers. Every answer passes the guard first and carries the safe headers. */
import { Hono } from "hono";
import { bodyLimit } from "hono/body-limit";
import {
  type GearStore,
  type PlanStore,
  SaveConflict,
  type SavedWork,
  WorkError,
} from "../workbench/index.ts";
import { KEY_PATTERN } from "./file-store.ts";
import { readServed } from "./files.ts";
import { addGearRoutes } from "./gear-routes.ts";
import { refusalOf, SAFE_HEADERS } from "./guard.ts";
import { addPhotoRoutes, type PhotoDesk } from "./photo-routes.ts";

export interface RouteParts {
  readonly port: () => number;
  readonly files: ReadonlyMap<string, string>;
  readonly store: PlanStore;
  readonly desk: PhotoDesk;
  readonly gear: GearStore;
  /** the plan that was named on the command line; null for the last work */
  readonly opened: { readonly key: string; readonly text: string } | null;
  /** a plan's text and what was asked for -> a PDF; throws WorkError with the problems */
  readonly sheet: (text: string, options: SheetRequest) => Promise<Uint8Array>;
}

export interface SheetRequest {
  readonly paper: "a4" | "letter";
  readonly units: "metric" | "feet";
}

/** A plan with its undo history is far smaller; more is not a plan. */
const MOST_BYTES = 32 * 1024 * 1024;

export function createRoutes(parts: RouteParts): Hono {
  const app = new Hono();
  app.use("*", async (c, next) => {
    const refusal = refusalOf({ get: (name) => c.req.header(name) ?? null }, parts.port());
    if (refusal) return c.json(refusal, 403, { ...SAFE_HEADERS });
    await next();
    for (const [name, value] of Object.entries(SAFE_HEADERS)) c.res.headers.set(name, value);
    return undefined;
  });
  // before the limit for plans: photographs have one of their own
  addPhotoRoutes(app, parts.desk);
  app.use(
    "/api/*",
    bodyLimit({
      maxSize: MOST_BYTES,
      onError: (c) => c.json({ problem: "that is larger than any plan", cure: "check the file" }, 413),
    }),
  );
  app.get("/api/open", (c) => c.json(parts.opened));
  app.get("/api/works", async (c) => c.json(await parts.store.list()));
  app.get("/api/work/:key", async (c) => {
    const key = c.req.param("key");
    if (!KEY_PATTERN.test(key)) return c.json({ problem: "no such work", cure: "check its name" }, 404);
    return c.json(await parts.store.load(key));
  });
  app.put("/api/work/:key", async (c) => {
    const work: unknown = await c.req.json().catch(() => null);
    if (!isWork(work)) return c.json({ problem: "that is not a kept work", cure: "reload the page" }, 400);
    await parts.store.save(c.req.param("key"), work);
    return c.json({ revision: work.revision });
  });
  addGearRoutes(app, parts.gear);
  app.post("/api/sheet", async (c) => {
    const request: SheetRequest = {
      paper: c.req.query("paper") === "letter" ? "letter" : "a4",
      units: c.req.query("units") === "feet" ? "feet" : "metric",
    };
    const pdf = await parts.sheet(await c.req.text(), request);
    return c.body(Buffer.from(pdf), 200, { "content-type": "application/pdf" });
  });
  app.get("*", (c) => {
    const file = readServed(parts.files, new URL(c.req.url).pathname);
    if (!file) return c.json({ problem: "there is nothing at this address", cure: "open / instead" }, 404);
    return c.body(new Uint8Array(file.bytes), 200, {
      "content-type": file.type,
      "cache-control": file.hashed ? "public, max-age=31536000, immutable" : "no-cache",
    });
  });
  app.onError((error, c) => {
    if (error instanceof SaveConflict) return c.json(refusalBody(error), 409);
    if (error instanceof WorkError) return c.json(refusalBody(error), 422);
    console.error(`tapemark: a request failed: ${error.message}`);
    return c.json(
      { problem: "the server failed at this", cure: "try again; if it stays, start Tapemark anew" },
      500,
    );
  });
  return app;
}

function refusalBody(error: WorkError): { problem: string; cure: string } {
  return { problem: error.problem, cure: error.cure };
}

function isWork(value: unknown): value is SavedWork {
  if (typeof value !== "object" || value === null) return false;
  const work = value as Record<string, unknown>;
  return (
    Number.isInteger(work.revision) && (work.revision as number) > 0 && "plan" in work && "history" in work
  );
}
