/** Opens the library: one SQLite file, brought to today's form, or refused with what to do. */
import fs from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { fileError, syncFolder, WorkError } from "../workbench/index.ts";
import { type Around, hasHomeless, houseWorks } from "./homes.ts";
import { APPLICATION_ID, MIGRATIONS } from "./migrations.ts";
import { damaged, journalAlone, libraryProblem, movedAway, newerLibrary, noLibrary } from "./problems.ts";
import { closeFile, type Db, keepSafely, openFile, transaction } from "./sqlite.ts";

export interface Library {
  readonly path: string;
  /** for statements that are prepared once; run inside `read` or `write`, which put what goes wrong in words */
  readonly db: Db;
  read<T>(act: (db: Db) => T): T;
  /** All of it or nothing, and on the disk when it comes back.
   * Errors  WorkError: no room, read-only, another copy writes, damaged, moved away; then all is as it was */
  write<T>(act: (db: Db) => T): T;
  close(): void;
}

/** Where the library lies: what was asked for, TAPEMARK_LIBRARY, or "library.tapemark" in the folder of the user's data. */
export function libraryPath(asked: string | null, env: NodeJS.ProcessEnv, dataFolder: string): string {
  return resolve(asked ?? (env.TAPEMARK_LIBRARY || join(dataFolder, "library.tapemark")));
}

/** Errors  WorkError where it is no library, a newer one, damaged, or its place cannot be used; then nothing was changed */
export function openLibrary(path: string, around: Around): Library {
  if (stats(path) === null) begin(path, around);
  let db: Db | null = null;
  try {
    demandOurs(path);
    db = openFile(path);
    keepSafely(db);
    bringForward(db, around);
    return library(path, db);
  } catch (error) {
    if (db !== null) closeFile(db);
    throw libraryProblem(error, path);
  }
}

function library(path: string, db: Db): Library {
  const opened = stats(path);
  const inWords = <T>(act: () => T): T => {
    try {
      return act();
    } catch (error) {
      throw libraryProblem(error, path);
    }
  };
  const demandThere = () => {
    const there = stats(path);
    if (there !== null && there.ino === opened?.ino && there.dev === opened.dev) return;
    // what is still in the journal belongs to the file wherever it is now
    inWords(() => db.exec("PRAGMA wal_checkpoint(TRUNCATE)"));
    throw movedAway(path);
  };
  return {
    path,
    db,
    read: (act) => inWords(() => act(db)),
    write(act) {
      demandThere();
      return inWords(() =>
        transaction(db, () => {
          // a newer program may have brought it forward meanwhile
          demandKnown(formOf(db), path);
          return act(db);
        }),
      );
    },
    close: () => closeFile(db),
  };
}

/** A new library is made beside its place and put there whole: a file that stands there is never half made. */
function begin(path: string, around: Around): void {
  if (stats(`${path}-wal`) !== null) throw journalAlone(path);
  const temporary = join(dirname(path), `.${basename(path)}.${around.newId()}.new`);
  try {
    fs.mkdirSync(dirname(path), { recursive: true });
    const db = openFile(temporary);
    try {
      keepSafely(db);
      // without a prepared statement, which would keep the file open
      transaction(db, () => takeSteps(db, 0));
    } finally {
      closeFile(db);
    }
    // another copy that began at the same moment has put its own there: that one is it
    if (stats(path) === null) fs.renameSync(temporary, path);
    syncFolder(fs, dirname(path));
  } catch (error) {
    const told = libraryProblem(error, path);
    throw told === error && !(error instanceof WorkError)
      ? fileError(`could not make the library ${path}`, error)
      : told;
  } finally {
    for (const end of ["", "-wal", "-shm"]) fs.rmSync(`${temporary}${end}`, { force: true });
  }
}

/** Told by the file's own first bytes (sqlite.org/fileformat2.html, 1.3), before SQLite touches it. */
function demandOurs(path: string): void {
  if (stats(path)?.isDirectory()) throw noLibrary(path, "it is a folder");
  const head = firstBytes(path, 100);
  if (head.length === 0) throw noLibrary(path, "it is empty");
  if (!head.subarray(0, 16).equals(Buffer.from("SQLite format 3\0")))
    throw noLibrary(path, "it is another kind of file");
  if (head.length < 100) throw damaged(path);
  if (head.readUInt32BE(68) !== APPLICATION_ID) throw noLibrary(path, "another program made it");
  demandKnown(head.readUInt32BE(60), path);
  // what a program that was killed left in the journal counts too; looked at without bringing it into the file
  if ((stats(`${path}-wal`)?.size ?? 0) === 0) return;
  const db = openFile(path, { readOnly: true });
  try {
    demandKnown(formOf(db), path);
  } finally {
    db.close();
  }
}

function demandKnown(form: number, path: string): void {
  if (form > MIGRATIONS.length) throw newerLibrary(path, form, MIGRATIONS.length);
}

function firstBytes(path: string, count: number): Buffer {
  try {
    const file = fs.openSync(path, "r");
    try {
      const bytes = Buffer.alloc(count);
      return bytes.subarray(0, fs.readSync(file, bytes, 0, count, 0));
    } finally {
      fs.closeSync(file);
    }
  } catch (error) {
    throw fileError(`could not read the library ${path}`, error);
  }
}

function formOf(db: Db): number {
  return (db.prepare("PRAGMA user_version").get() as { user_version: number }).user_version;
}

/** All steps that are missing, and a shoot for works that have none, as one. Where nothing is missing, nothing waits for another
 * copy that is writing. */
function bringForward(db: Db, { newId }: Around): void {
  if (formOf(db) === MIGRATIONS.length && !hasHomeless(db)) return;
  transaction(db, () => {
    const form = formOf(db);
    if (form < MIGRATIONS.length) takeSteps(db, form);
    houseWorks(db, newId);
  });
}

function takeSteps(db: Db, form: number): void {
  for (const step of MIGRATIONS.slice(form)) db.exec(step);
  db.exec(`PRAGMA application_id = ${APPLICATION_ID}; PRAGMA user_version = ${MIGRATIONS.length}`);
}

function stats(path: string): fs.Stats | null {
  return fs.statSync(path, { throwIfNoEntry: false }) ?? null;
}
