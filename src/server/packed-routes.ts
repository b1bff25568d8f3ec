/** A shoot as one archive to take away: packed first, which is told as it goes and can be stopped, then fetched as a file. */
import fs from "node:fs";
import { join } from "node:path";
import { Readable } from "node:stream";
import type { Hono } from "hono";
import { type Around, archiveName, beginArriving, exportShoots, type Library } from "../library/index.ts";
import type { Shoot } from "../shoots/index.ts";
import { fileError, WorkError } from "../workbench/index.ts";
import { tellFault } from "./fault.ts";

export interface PackedParts extends Pick<Around, "newId"> {
  readonly library: Library;
}

interface Packed {
  readonly name: string;
  readonly path: string;
  readonly bytes: number;
  /** nobody else fetches it, and its time is up no more */
  readonly take: () => void;
  readonly clear: () => void;
}

/** What is packed and not fetched within this is cleared. */
const WAITS_MS = 10 * 60_000;
/** Told each time so much more is done. */
const STEP = 0.01;
const FAILED = { problem: "the server failed at this", cure: "try again; if it stays, start Tapemark anew" };

export function addPackedRoutes(app: Hono, parts: PackedParts): void {
  const { library } = parts;
  const waiting = new Map<string, Packed>();
  // answered line by line: { done, what } as it goes, then { packed, name, bytes }, or { problem, cure }
  app.post("/api/shoots/:id/archive", (c) => {
    const id = c.req.param("id");
    const name = nameOf(library, id);
    return c.body(
      told(async (tell, signal) => {
        const { bytes, clear, path } = await pack(library, id, { signal, tell });
        const packed = parts.newId();
        const timer = setTimeout(() => {
          waiting.delete(packed);
          clear();
        }, WAITS_MS).unref();
        const take = () => {
          clearTimeout(timer);
          waiting.delete(packed);
        };
        waiting.set(packed, { name, path, bytes, take, clear });
        return { packed, name, bytes };
      }),
      200,
      { "content-type": "application/x-ndjson", "cache-control": "no-store" },
    );
  });
  app.get("/api/archives/:packed", (c) => {
    const packed = waiting.get(c.req.param("packed"));
    if (packed === undefined)
      throw new WorkError("that archive is not there any more", "save it as one archive again");
    const headers = {
      "content-type": "application/zip",
      "content-length": String(packed.bytes),
      "content-disposition": `attachment; filename*=UTF-8''${encodeURIComponent(packed.name)}`,
      "cache-control": "no-store",
    };
    // whoever asks for the head alone reads nothing
    if (c.req.method === "HEAD") return c.body(null, 200, headers);
    packed.take();
    const file = fs.createReadStream(packed.path);
    file.once("close", packed.clear);
    return c.body(Readable.toWeb(file) as ReadableStream, 200, headers);
  });
}

type Tell = (line: object) => void;

interface PackOptions {
  readonly signal: AbortSignal;
  readonly tell: Tell;
}

async function pack(library: Library, shoot: string, { signal, tell }: PackOptions) {
  const scratch = roomFor(library);
  try {
    const path = join(scratch.folder, "archive.zip");
    let said = 0;
    const { bytes } = await exportShoots(library, { shoot }, path, {
      signal,
      onProgress: ({ done, what }) => {
        if (done < said + STEP) return;
        said = done;
        tell({ done, what });
      },
    });
    return { bytes, path, clear: () => scratch.clear() };
  } catch (error) {
    scratch.clear();
    throw error;
  }
}

/** Where there is room for photographs there is room for this; what a crash leaves there is cleared. */
function roomFor(library: Library) {
  try {
    return beginArriving(library);
  } catch (error) {
    throw fileError("no archive can be packed beside the library", error);
  }
}

/** An answer in lines, told while it is worked on; the last is what came of it. Whoever goes away stops it. */
function told(act: (tell: Tell, signal: AbortSignal) => Promise<object>): ReadableStream<Uint8Array> {
  const text = new TextEncoder();
  const stop = new AbortController();
  return new ReadableStream<Uint8Array>({
    start(controller) {
      const tell: Tell = (line) => {
        if (!stop.signal.aborted) controller.enqueue(text.encode(`${JSON.stringify(line)}\n`));
      };
      void act(tell, stop.signal)
        .catch((error: unknown) => {
          if (error instanceof WorkError) return { problem: error.problem, cure: error.cure };
          if (!stop.signal.aborted) tellFault("POST /api/shoots/:id/archive", error);
          return FAILED;
        })
        .then((end) => {
          tell(end);
          if (!stop.signal.aborted) controller.close();
        });
    },
    cancel: () => stop.abort(),
  });
}

/** Errors  WorkError where there is no such shoot */
function nameOf(library: Library, id: string): string {
  const row = library.read((db) => db.prepare("SELECT title, date FROM shoots WHERE id = ?").get(id));
  if (row === undefined) throw new WorkError("there is no such shoot any more", "look at the list of shoots");
  const { title, date } = row as unknown as Pick<Shoot, "title" | "date">;
  return archiveName(title, date);
}
