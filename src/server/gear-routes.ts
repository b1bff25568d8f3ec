/** The gear book over HTTP: read whole, kept whole. */
import type { Hono } from "hono";
import { type GearStore, readGearBook } from "../workbench/index.ts";

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
