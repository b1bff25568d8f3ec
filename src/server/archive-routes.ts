/** Archives and copies over HTTP: a shoot as one file to take away, one that is brought, the library's state. */
import fs from "node:fs";
import { join } from "node:path";
import type { Hono } from "hono";
import {
  type Around,
  beginArriving,
  countsOf,
  type DailyCopies,
  importArchive,
  type Library,
  libraryBytes,
  newestCopy,
} from "../library/index.ts";
import { fileError, type NewsDesk, WorkError } from "../workbench/index.ts";
import { addPackedRoutes } from "./packed-routes.ts";

export interface ArchiveRouteParts extends Around {
  readonly library: Library;
  readonly copies: DailyCopies;
  readonly news: Pick<NewsDesk, "tell">;
}

/** A shoot of some thousand photographs of medium format. */
const MOST_BYTES = 64 * 2 ** 30;

/** To be added before the limit for what is sent as text: an archive has one of its own. */
export function addArchiveRoutes(app: Hono, parts: ArchiveRouteParts, most_bytes = MOST_BYTES): void {
  const { library, copies, news } = parts;
  addPackedRoutes(app, parts);
  app.post("/api/archives", async (c) => {
    const scratch = beginArriving(library);
    try {
      const path = join(scratch.folder, "archive.zip");
      await receive(c.req.raw.body, path, most_bytes);
      const { shoots, photographs, gear, shelf } = await importArchive(library, path, parts);
      if (shoots.some(({ how }) => how !== "there")) news.tell({ kind: "shoots", shoot: null });
      if (gear > 0) news.tell({ kind: "gear" });
      if (shelf > 0) news.tell({ kind: "shelf" });
      return c.json({
        shoots: shoots.map(({ id }) => id),
        photographs,
        how: shoots.map(({ id, title, how }) => ({ id, title, how })),
      });
    } catch (error) {
      // where it was put meanwhile says nothing to whoever sent it
      if (!(error instanceof WorkError)) throw error;
      const said = error.problem.replaceAll(join(scratch.folder, "archive.zip"), "that was sent");
      throw new WorkError(said, error.cure);
    } finally {
      scratch.clear();
    }
  });
  app.get("/api/library", (c) => {
    const { shoots, frames } = library.read(countsOf);
    return c.json({
      ...{ path: library.path, shoots, frames, bytes: libraryBytes(library.path) },
      lastCopy: newestCopy(library.path),
      problem: copies.trouble(),
    });
  });
  app.post("/api/library/copies", async (c) => {
    await copies.now();
    return c.json({ lastCopy: newestCopy(library.path) });
  });
}

/** Puts what is sent into a file, piece by piece. */
async function receive(body: ReadableStream<Uint8Array> | null, path: string, most: number): Promise<void> {
  let bytes = 0;
  try {
    const file = fs.openSync(path, "wx");
    try {
      for await (const piece of body ?? []) {
        bytes += piece.length;
        if (bytes > most)
          throw new WorkError(
            "that is larger than any archive of a shoot",
            "take it in with `tapemark shoots import`",
          );
        for (let at = 0; at < piece.length; ) at += fs.writeSync(file, piece, at);
      }
    } finally {
      fs.closeSync(file);
    }
  } catch (error) {
    throw error instanceof WorkError ? error : fileError("could not take what was sent", error);
  }
}
