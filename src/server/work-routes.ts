/** Works over the wire: the plan of the command line, the list, one work with its undo history. */
import type { Hono } from "hono";
import { KEY_PATTERN } from "../library/index.ts";
import type { SavedWork, WorkStore } from "../workbench/index.ts";

export interface WorkRouteParts {
  readonly store: WorkStore;
  /** the plan that was named on the command line; null for the last work */
  readonly opened: { readonly key: string; readonly text: string } | null;
}

export function addWorkRoutes(app: Hono, { store, opened }: WorkRouteParts): void {
  app.get("/api/open", (c) => c.json(opened));
  app.get("/api/works", async (c) => c.json(await store.list()));
  const noSuch = { problem: "no such work", cure: "check its name" };
  app.get("/api/work/:key", async (c) => {
    const key = c.req.param("key");
    return KEY_PATTERN.test(key) ? c.json(await store.load(key)) : c.json(noSuch, 404);
  });
  app.get("/api/work/:key/glance", async (c) => {
    const key = c.req.param("key");
    return KEY_PATTERN.test(key) ? c.json(await store.glance(key)) : c.json(noSuch, 404);
  });
  app.put("/api/work/:key", async (c) => {
    const work: unknown = await c.req.json().catch(() => null);
    if (!isWork(work)) return c.json({ problem: "that is not a kept work", cure: "reload the page" }, 400);
    await store.save(c.req.param("key"), work);
    return c.json({ revision: work.revision });
  });
}

function isWork(value: unknown): value is SavedWork {
  if (typeof value !== "object" || value === null) return false;
  const { revision, by, ...work } = value as Record<string, unknown>;
  const isNumbered = Number.isSafeInteger(revision) && (revision as number) > 0;
  return isNumbered && (by === undefined || typeof by === "string") && "plan" in work && "history" in work;
}
