/** Photographs that were moved: looked for by name and size in a folder that is watched from now on. */
import { readdirSync, statSync } from "node:fs";
import { basename, join } from "node:path";
import type { ShelfFrame } from "./desk-shelf.ts";
import { DEPTH } from "./watch.ts";

export interface MovedFile {
  readonly path: string;
  /** where it was */
  readonly before: string;
}

/** Whether it is the very same is told once it has been read. */
export function findMoved(folder: string, lost: readonly ShelfFrame[]): MovedFile[] {
  if (lost.length === 0) return [];
  const there = new Map<string, string[]>();
  for (const path of filesIn(folder, DEPTH))
    there.set(basename(path), [...(there.get(basename(path)) ?? []), path]);
  return lost.flatMap(({ frame, path: before, bytes }) => {
    const path = there.get(frame.name)?.find((one) => sizeOf(one) === bytes);
    return path === undefined || before === null ? [] : [{ path, before }];
  });
}

function filesIn(folder: string, depth: number): string[] {
  try {
    return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
      const path = join(folder, entry.name);
      if (entry.isDirectory())
        return depth > 0 && !entry.name.startsWith(".") ? filesIn(path, depth - 1) : [];
      return entry.isFile() ? [path] : [];
    });
  } catch {
    return []; // one that may not be read holds nothing for us
  }
}

function sizeOf(path: string): number | null {
  return statSync(path, { throwIfNoEntry: false })?.size ?? null;
}
