/** What the server answers. Every answer passes the guard first and carries the safe headers. */
import { type Context, Hono } from "hono";
import { matchedRoutes } from "hono/route";
import {
  type GearStore,
  SaveConflict,
  type Sharing,
  type ShelfStore,
  WorkError,
} from "../workbench/index.ts";
import { type ArchiveRouteParts, addArchiveRoutes } from "./archive-routes.ts";
import { tellFault } from "./fault.ts";
import { readServed } from "./files.ts";
import { addGearRoutes, addShelfRoutes } from "./gear-routes.ts";
import { refusalOf, SAFE_HEADERS } from "./guard.ts";
import { limitTexts, methodsAt } from "./limits.ts";
import { addNewsRoutes, type NewsParts } from "./news-routes.ts";
import { addPhotoRoutes, type PhotoDesk } from "./photo-routes.ts";
import { addPrintRoutes, type PrintRouteParts, sheetRequest } from "./print-routes.ts";
import { addShareRoutes } from "./share-routes.ts";
import { addShootRoutes, type ShootRouteParts } from "./shoot-routes.ts";
import { addWorkRoutes, type WorkRouteParts } from "./work-routes.ts";

export interface RouteParts extends WorkRouteParts, NewsParts, ShootRouteParts {
  readonly port: () => number;
  readonly files: ReadonlyMap<string, string>;
  readonly desk: PhotoDesk;
  readonly gear: GearStore;
  readonly shelf: ShelfStore;
  readonly archives: ArchiveRouteParts;
  /** record and contact sheets; left out where none are made */
  readonly prints?: PrintRouteParts | undefined;
  /** left out where nothing is shared */
  readonly sharing?: Sharing | undefined;
  /** a plan's text and what was asked for -> a PDF; throws WorkError with the problems */
  readonly sheet: (text: string, options: SheetRequest) => Promise<Uint8Array>;
}

export interface SheetRequest {
  readonly paper: "a4" | "letter";
  readonly units: "metric" | "feet";
}

export function createRoutes(parts: RouteParts): Hono {
  const app = new Hono();
  app.use("*", async (c, next) => {
    const refusal = refusalOf({ get: (name) => c.req.header(name) ?? null }, parts.port());
    if (refusal) return c.json(refusal, 403, { ...SAFE_HEADERS });
    await next();
    for (const [name, value] of Object.entries(SAFE_HEADERS)) c.res.headers.set(name, value);
    return undefined;
  });
  // those that take files come before the limit of what is sent as text
  addPhotoRoutes(app, parts.desk);
  addArchiveRoutes(app, parts.archives);
  limitTexts(app);
  addNewsRoutes(app, parts);
  addWorkRoutes(app, parts);
  addShootRoutes(app, parts);
  addGearRoutes(app, parts.gear);
  if (parts.prints) addPrintRoutes(app, parts.prints);
  addShelfRoutes(app, parts.shelf);
  if (parts.sharing) addShareRoutes(app, parts.sharing);
  app.post("/api/sheet", async (c) => {
    const pdf = await parts.sheet(await c.req.text(), sheetRequest(c));
    return c.body(Buffer.from(pdf), 200, { "content-type": "application/pdf" });
  });
  app.all("*", (c) => {
    const methods = c.req.path.startsWith("/api/") ? methodsAt(app, c.req.path) : ["GET", "HEAD"];
    const { method } = c.req;
    if (methods.length > 0 && !methods.includes(method)) {
      const problem = `${method} is not known at this address`;
      return c.json({ problem, cure: `it knows ${methods.join(", ")}` }, 405, { allow: methods.join(", ") });
    }
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
    // the limit makes its own answer of it
    if (error.name === "BodyLimitError") return c.body(null, 413);
    // whoever asked went away in the middle of it, and hears nothing any more
    if (c.req.raw.signal.aborted) return c.body(null, 400);
    tellFault(`${c.req.method} ${patternOf(c)}`, error);
    return c.json(
      { problem: "the server failed at this", cure: "try again; if it stays, start Tapemark anew" },
      500,
    );
  });
  return app;
}

/** The address without what was named in it. */
function patternOf(c: Context): string {
  return matchedRoutes(c).findLast(({ path }) => !path.includes("*"))?.path ?? "the page";
}

function refusalBody(error: WorkError): { problem: string; cure: string } {
  return { problem: error.problem, cure: error.cure };
}
