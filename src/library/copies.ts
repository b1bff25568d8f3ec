/** Copies of the whole library: one file each, verified by opening it before it counts. */
import { randomBytes } from "node:crypto";
import fs from "node:fs";
import { basename, dirname, join } from "node:path";
import { fileError, syncFolder, WorkError, type WorkOptions } from "../workbench/index.ts";
import { isSameFile } from "./archive-file.ts";
import { type Counts, countsOf, demandSound } from "./copies-sound.ts";
import { libraryProblem } from "./problems.ts";
import { atOneMoment, backup } from "./sqlite.ts";

export interface CopyMade extends Counts {
  readonly path: string;
  readonly bytes: number;
}

export interface CopyOptions extends WorkOptions {
  /** what lies at the target stays, and it is an error that it does */
  readonly never?: "over";
}

/** How many pages at a time: some 20 ms for whoever shares the process. */
const PAGES = 200;

/** Copies the library at `path`, as it is at this moment, while others go on writing. The copy is there under its name once it
 * has been opened and found sound and whole; where anything fails nothing of it stays, and what lay there is untouched.
 * Errors  WorkError with the cure */
export async function copyLibrary(
  path: string,
  target: string,
  options: CopyOptions = {},
): Promise<CopyMade> {
  for (const end of ["", "-wal", "-shm"])
    if (isSameFile(target, `${path}${end}`))
      throw new WorkError(`${target} is the library itself`, "name another file for the copy");
  const there = fs.statSync(target, { throwIfNoEntry: false });
  if (there && (options.never === "over" || there.isDirectory()))
    throw new WorkError(`${target} is there already`, "name another file for the copy");
  if (!fs.existsSync(path))
    throw new WorkError(`there is no library at ${path}`, "name the one that you mean with --library");
  const temporary = join(dirname(target), `.${basename(target)}.${randomBytes(4).toString("hex")}.tmp`);
  try {
    const counts = await copyPages(path, temporary, options);
    stopped(options);
    const found = demandSound(temporary, `the copy at ${target}`);
    if (JSON.stringify(found) !== JSON.stringify(counts))
      throw new WorkError(`the copy at ${target} is not whole`, "make another one; the library is untouched");
    stopped(options);
    syncFile(temporary);
    fs.renameSync(temporary, target);
    syncFolder(fs, dirname(target));
    return { path: target, bytes: fs.statSync(target).size, ...counts };
  } catch (error) {
    const told = libraryProblem(error, path);
    throw told instanceof WorkError ? told : fileError(`could not write the copy ${target}`, error);
  } finally {
    for (const end of ["", "-journal", "-wal", "-shm"]) fs.rmSync(`${temporary}${end}`, { force: true });
  }
}

function copyPages(path: string, temporary: string, options: CopyOptions): Promise<Counts> {
  return atOneMoment(path, async (source) => {
    const counts = countsOf(source);
    try {
      await backup(source, temporary, {
        rate: PAGES,
        progress: ({ totalPages, remainingPages }) =>
          options.onProgress?.({ done: 1 - remainingPages / Math.max(1, totalPages), what: "copying" }),
      });
    } catch (error) {
      throw copyProblem(error, temporary);
    }
    return counts;
  });
}

/** What SQLite says of the copy must not be taken for the library's own state. */
function copyProblem(error: unknown, temporary: string): unknown {
  const told = libraryProblem(error, join(dirname(temporary), "the copy"));
  if (told instanceof WorkError)
    return new WorkError(told.problem, "the library is untouched; free some space, or name another folder");
  return error;
}

function stopped({ signal }: CopyOptions): void {
  if (signal?.aborted) throw new WorkError("stopped", "no copy was made");
}

function syncFile(path: string): void {
  const file = fs.openSync(path, "r+");
  try {
    fs.fsyncSync(file);
  } finally {
    fs.closeSync(file);
  }
}
