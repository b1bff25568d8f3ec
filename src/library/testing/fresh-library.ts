import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Around } from "../homes.ts";
import { type Library, openLibrary } from "../open.ts";

export const newFolder = (): string => mkdtempSync(join(tmpdir(), "tapemark-library-"));

/** A clock that stands still unless it is told otherwise, and ids that count. */
export function plainAround(at = "2026-11-26T10:00:00.000Z"): Around & { set(at: string): void } {
  let now = new Date(at);
  let ids = 0;
  return {
    now: () => now,
    newId: () => `id-${++ids}`,
    set(next) {
      now = new Date(next);
    },
  };
}

/** An empty library in a folder of its own. */
export function freshLibrary(around: Around = plainAround()): Library {
  return openLibrary(join(newFolder(), "library.tapemark"), around);
}
