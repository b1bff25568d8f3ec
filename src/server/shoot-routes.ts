/** Shoots over the wire. What is sent is checked here for its kind and by the library for its sense. */
import type { Context, Hono } from "hono";
import type { ShootFields, ShootQuery, Stars } from "../shoots/index.ts";
import { type ShootLibrary, WorkError } from "../workbench/index.ts";

export interface ShootRouteParts {
  readonly shoots: ShootLibrary;
  /** JPEG, at most 320 pixels on its longer side; null where there is none */
  readonly thumbnail: (frame: string) => Uint8Array | null;
}

const MOST_ROWS = 50;
/** Who places something at the workbench's own page. */
const HERE = "workbench";

export function addShootRoutes(app: Hono, { shoots, thumbnail }: ShootRouteParts): void {
  app.get("/api/shoots", async (c) => c.json(await shoots.find(queryOf(c))));
  app.get("/api/shoots/choices", async (c) => c.json(await shoots.choices()));
  app.post("/api/shoots", async (c) => c.json(await shoots.create((await sent(c)) as Partial<ShootFields>)));
  app.get("/api/shoots/:id", async (c) => c.json(await shoots.whole(c.req.param("id"))));
  app.patch("/api/shoots/:id", async (c) => {
    const { revision, fields } = await sent(c);
    if (!Number.isInteger(revision) || !isGroup(fields))
      throw new WorkError("that does not say which revision is changed to what", "reload the page");
    return c.json(await shoots.change(c.req.param("id"), Number(revision), fields as Partial<ShootFields>));
  });
  app.get("/api/shoots/:id/frames", async (c) => {
    const { offset, limit } = pageOf(c);
    return c.json(await shoots.frames(c.req.param("id"), offset, limit));
  });
  app.post("/api/shoots/:id/sidecars", async (c) => c.json(await shoots.writeSidecars(c.req.param("id"))));
  addWorkRoutes(app, shoots);
  app.patch("/api/versions/:id", async (c) =>
    c.json(await shoots.renameVersion(c.req.param("id"), textOf(await sent(c), "name"))),
  );
  app.get("/api/versions/:id", async (c) => c.json(await shoots.versionPlan(c.req.param("id"))));
  app.patch("/api/frames/:id", async (c) => {
    const { stars, isSelect } = await sent(c);
    if (isSelect !== undefined && typeof isSelect !== "boolean")
      throw new WorkError("a frame is a select or it is none", "reload the page");
    const pick = {
      ...(stars === undefined ? {} : { stars: stars as Stars }),
      ...(isSelect === undefined ? {} : { isSelect }),
    };
    return c.json(await shoots.pick(c.req.param("id"), pick));
  });
  app.get("/api/frames/:id", async (c) => c.json(await shoots.frame(c.req.param("id"))));
  app.get("/api/frames/:id/thumbnail", (c) => {
    const picture = thumbnail(c.req.param("id"));
    if (picture === null) return c.json({ problem: "there is no such frame", cure: "reload the page" }, 404);
    // named by its content
    return c.body(new Uint8Array(picture), 200, {
      "content-type": "image/jpeg",
      "cache-control": "private, max-age=86400, immutable",
    });
  });
}

function addWorkRoutes(app: Hono, shoots: ShootLibrary): void {
  app.get("/api/work/:key/shoot", async (c) => c.json({ shoot: await shoots.shootOf(c.req.param("key")) }));
  app.put("/api/work/:key/shoot", async (c) => {
    await shoots.move(c.req.param("key"), textOf(await sent(c), "shoot"));
    return c.body(null, 204);
  });
  app.post("/api/work/:key/versions", async (c) =>
    c.json(await shoots.keepVersion(c.req.param("key"), textOf(await sent(c), "name"))),
  );
  app.put("/api/work/:key/read", async (c) => {
    const { pattern } = await sent(c);
    await shoots.noteRead(c.req.param("key"), { pattern: pattern === null ? null : String(pattern) });
    return c.body(null, 204);
  });
  app.get("/api/work/:key/placed", async (c) => c.json(await shoots.placed(c.req.param("key"))));
  app.put("/api/work/:key/placed", async (c) => {
    const body = await sent(c);
    if (typeof body.isPlaced !== "boolean")
      throw new WorkError("that does not say whether it is placed", "reload the page");
    await shoots.place(c.req.param("key"), textOf(body, "thing"), body.isPlaced, HERE);
    return c.body(null, 204);
  });
}

/** Errors  WorkError where the body is no group of fields */
async function sent(c: Context): Promise<Readonly<Record<string, unknown>>> {
  const body: unknown = await c.req.json().catch(() => null);
  if (!isGroup(body)) throw new WorkError("that is not what was asked for here", "reload the page");
  return body;
}

function isGroup(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function textOf(body: Readonly<Record<string, unknown>>, name: string): string {
  const value = body[name];
  if (typeof value === "string") return value;
  throw new WorkError(`the ${name} is missing`, "reload the page");
}

function queryOf(c: Context): ShootQuery {
  const { text, pattern, light, room, from, to, stars, putAway } = c.req.query();
  return {
    ...Object.fromEntries(
      Object.entries({ text, pattern, light, room, from, to }).filter(([, value]) => value !== undefined),
    ),
    ...(stars === undefined ? {} : { stars: numberOf(stars, "stars") }),
    putAway: putAway === "true",
    ...pageOf(c),
  };
}

function pageOf(c: Context): { offset: number; limit: number } {
  const { offset, limit } = c.req.query();
  return {
    offset: offset === undefined ? 0 : numberOf(offset, "offset"),
    limit: limit === undefined ? MOST_ROWS : numberOf(limit, "limit"),
  };
}

function numberOf(text: string, name: string): number {
  const value = Number(text);
  if (/^\d{1,9}$/.test(text)) return value;
  throw new WorkError(`"${text}" is no number for ${name}`, "write a whole number from 0 up");
}
