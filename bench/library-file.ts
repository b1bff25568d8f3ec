/** A library as large as a long career's as a file of its own, for whoever opens it in the workbench. */
import { randomUUID } from "node:crypto";
import { readingOf } from "../src/files/testing/plain-reader.ts";
import { openLibrary } from "../src/library/index.ts";
import { fillLibrary, type Size } from "./library-made.ts";

export function makeLibraryFile(path: string, demo: Readonly<Record<string, unknown>>, size: Size): void {
  const library = openLibrary(path, { now: () => new Date(), newId: randomUUID });
  fillLibrary(library, demo, readingOf("IMG_1.jpg", null), size);
  library.close();
}
