/** The gear book and the shelf over HTTP: read whole, kept whole. */
import type { Hono } from "hono";
import { readShelf } from "../gear/index.ts";
import { type GearStore, readGearBook, type ShelfStore } from "../workbench/index.ts";

export function addGearRoutes(app: Hono, gear: GearStore): void {
  app.get("/api/gear", async (c) => c.json(await gear.load()));
  app.put("/api/gear", async (c) => {
    const sent: unknown = await c.req.json().catch(() => null);
    const book = readGearBook(typeof sent === "object" ? { ...FORM, ...sent } : null);
    if (book === null) return c.json({ problem: "that is no gear book", cure: "reload the page" }, 400);
    return c.json(await gear.save(book));
  });
}

/** What the file has and the page does not need to know. */
const FORM = { format: "tapemark/gear", version: 1 };

export function addShelfRoutes(app: Hono, store: ShelfStore): void {
  app.get("/api/shelf", async (c) => c.json(await store.load()));
  app.put("/api/shelf", async (c) => {
    const sent: unknown = await c.req.json().catch(() => null);
    const { revision, shelf } = typeof sent === "object" && sent !== null ? (sent as Sent) : {};
    const read = readShelf(shelf);
    if (!read.ok) {
      const [{ path, what }] = read.problems;
      return c.json(
        { problem: `that is no gear shelf: ${path}: ${what}`, cure: "correct it, or reload the page" },
        400,
      );
    }
    return c.json(
      await store.save(read.shelf, Number.isSafeInteger(revision) ? Number(revision) : undefined),
    );
  });
}

interface Sent {
  readonly shelf?: unknown;
  readonly revision?: unknown;
}
