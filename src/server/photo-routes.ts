/** Photographs over the wire. Names that come from a browser are only names: nothing is looked for under them. */
import type { Hono } from "hono";
import { bodyLimit } from "hono/body-limit";
import { type Desk, LARGEST_FILE } from "../files/index.ts";

export type PhotoDesk = Omit<Desk, "stop">;

export function addPhotoRoutes(app: Hono, desk: PhotoDesk) {
  app.post(
    "/api/frames",
    bodyLimit({
      maxSize: LARGEST_FILE,
      onError: (c) =>
        c.json(
          {
            problem: `that is larger than ${LARGEST_FILE / 2 ** 20} MB`,
            cure: "hand over the camera's JPEG instead",
          },
          413,
        ),
    }),
    async (c) => {
      const name = onlyName(c.req.query("name") ?? "");
      return c.json(await desk.read(name, new Uint8Array(await c.req.arrayBuffer())));
    },
  );
  app.get("/api/frames", async (c) => c.json(await desk.state(Number(c.req.query("after") ?? 0))));
  app.put("/api/frames/watch", async (c) => {
    const asked: unknown = await c.req.json().catch(() => null);
    const folder = (asked as { folder?: unknown } | null)?.folder;
    if (typeof folder !== "string" || folder === "")
      return c.json({ problem: "that names no folder", cure: "write the whole path of the folder" }, 400);
    await desk.watch(folder);
    return c.body(null, 204);
  });
  app.delete("/api/frames/watch", async (c) => {
    await desk.watch(null);
    return c.body(null, 204);
  });
  app.delete("/api/frames/:id", async (c) => {
    await desk.forget(c.req.param("id"));
    return c.body(null, 204);
  });
  app.get("/api/frames/:id/picture", async (c) => {
    const picture = await desk.picture(c.req.param("id"));
    if (picture === null) return c.json({ problem: "there is no such frame", cure: "reload the page" }, 404);
    return c.body(new Uint8Array(picture.jpeg), 200, {
      "content-type": "image/jpeg",
      // named by its content; a small one stands in until the file is found again
      "cache-control": picture.isThumbnail ? "no-store" : "private, max-age=86400, immutable",
    });
  });
}

/** The last part, of either system's paths, without what no screen shows. */
function onlyName(text: string): string {
  const last = text.split(/[/\\]/).at(-1) ?? "";
  return last.replace(/\p{C}/gu, "").slice(0, 200) || "photograph";
}
