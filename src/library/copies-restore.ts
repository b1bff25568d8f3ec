/** Going back to a copy: the present library is set aside under another name, and the copy put in its place. */
import { randomBytes } from "node:crypto";
import fs from "node:fs";
import { basename, dirname, join } from "node:path";
import { fileError, syncFolder, WorkError } from "../workbench/index.ts";
import { isSameFile } from "./archive-file.ts";
import { type Counts, demandSound } from "./copies-sound.ts";
import { freeName } from "./folder-names.ts";
import { libraryProblem } from "./problems.ts";
import { backup, codeOf, openFile } from "./sqlite.ts";

export interface Restored extends Counts {
  /** where the library lies that was there until now; null where none was */
  readonly aside: string | null;
}

const BUSY = 5;
/** of SQLite: the file is damaged, or no database any more */
const BROKEN = new Set([11, 26]);

/** Errors  WorkError: the copy is none or not sound, another Tapemark has the library open, or it cannot be written; the
 * present library stays where it is then */
export async function restoreCopy(
  path: string,
  copy: string,
  { now }: { readonly now: () => Date },
): Promise<Restored> {
  if (!fs.statSync(copy, { throwIfNoEntry: false })?.isFile())
    throw new WorkError(
      `there is no copy ${copy}`,
      "name a file of the folder that `tapemark library` tells",
    );
  if (isSameFile(copy, path)) throw new WorkError(`${copy} is the library itself`, "name a copy of it");
  const temporary = join(dirname(path), `.${basename(path)}.${randomBytes(4).toString("hex")}.tmp`);
  try {
    fs.mkdirSync(dirname(path), { recursive: true });
    await takeCopy(copy, temporary);
    const counts = demandSound(temporary, copy);
    const aside = fs.existsSync(path) ? setAside(path, temporary, now()) : null;
    if (aside === null) fs.renameSync(temporary, path);
    syncFolder(fs, dirname(path));
    return { ...counts, aside };
  } catch (error) {
    const told = libraryProblem(error, path);
    throw told instanceof WorkError
      ? told
      : fileError(`could not put ${copy} in the place of ${path}`, error);
  } finally {
    for (const end of ["", "-journal", "-wal", "-shm"]) fs.rmSync(`${temporary}${end}`, { force: true });
  }
}

async function takeCopy(copy: string, temporary: string): Promise<void> {
  const source = openFile(copy, { readOnly: true });
  try {
    await backup(source, temporary);
  } catch (error) {
    const told = libraryProblem(error, copy);
    throw told instanceof WorkError ? new WorkError(told.problem, "choose another copy") : error;
  } finally {
    source.close();
  }
}

/** Puts `next` in the place of the library at `path`, which lies under the name that is answered from then on. At no moment
 * is there no library, where the disk knows two names of one file. */
function setAside(path: string, next: string, now: Date): string {
  demandAlone(path);
  const aside = join(
    dirname(path),
    freeName(dirname(path), `${basename(path).replace(/\.tapemark$/, "")} set aside`, now),
  );
  let isLinked = true;
  try {
    fs.linkSync(path, aside);
  } catch {
    isLinked = false;
    fs.renameSync(path, aside);
  }
  try {
    // a library that is damaged keeps its journal
    if (fs.existsSync(`${path}-wal`)) fs.renameSync(`${path}-wal`, `${aside}-wal`);
    fs.rmSync(`${path}-shm`, { force: true });
    fs.renameSync(next, path);
  } catch (error) {
    if (!isLinked) fs.renameSync(aside, path);
    else fs.rmSync(aside, { force: true });
    if (fs.existsSync(`${aside}-wal`)) fs.renameSync(`${aside}-wal`, `${path}-wal`);
    throw error;
  }
  return aside;
}

/** Nobody else has it open, and all that was committed is in the one file. */
function demandAlone(path: string): void {
  const db = openFile(path);
  try {
    // SQLite gives up the journal only to the last one that has the file open
    db.exec("PRAGMA journal_mode = DELETE");
  } catch (error) {
    const code = codeOf(error);
    if (code === BUSY)
      throw new WorkError(
        `${path} is open in another Tapemark`,
        "end that one (Ctrl-C where it was started), then go back to the copy",
      );
    if (code === null || !BROKEN.has(code & 0xff)) throw error;
  } finally {
    db.close();
  }
}
