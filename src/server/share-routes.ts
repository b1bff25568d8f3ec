/** The switch for sharing, as the workbench has it: on this machine only. */
import type { Hono } from "hono";
import type { Sharing } from "../workbench/index.ts";

export function addShareRoutes(app: Hono, sharing: Sharing): void {
  app.get("/api/share", async (c) => c.json(await sharing.state()));
  app.put("/api/share", async (c) => {
    const asked = (await c.req.json<unknown>().catch(() => null)) as { on?: unknown } | null;
    if (typeof asked?.on !== "boolean")
      return c.json({ problem: "that says neither on nor off", cure: "reload the page" }, 400);
    return c.json(await sharing.turn(asked.on));
  });
  app.post("/api/share/code", async (c) => c.json(await sharing.newCode()));
  app.delete("/api/share/devices/:id", async (c) => c.json(await sharing.revoke(c.req.param("id"))));
  app.get("/api/share/qr", async (c) => {
    const picture = await sharing.qr(c.req.query("address") ?? "");
    if (picture === null)
      return c.json({ problem: "this address is not shared", cure: "switch sharing on" }, 404);
    return c.body(picture, 200, { "content-type": "image/svg+xml", "cache-control": "no-store" });
  });
}
