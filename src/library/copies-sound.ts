/** Whether a library is sound: by SQLite's own checks, and by what has to be there. */
import { existsSync } from "node:fs";
import { WorkError } from "../workbench/index.ts";
import { APPLICATION_ID, MIGRATIONS } from "./migrations.ts";
import { damaged, newerLibrary, noLibrary } from "./problems.ts";
import { codeOf, type Db, openFile } from "./sqlite.ts";

export interface Counts {
  readonly shoots: number;
  readonly plans: number;
  readonly versions: number;
  readonly frames: number;
  readonly thumbnails: number;
}

export function countsOf(db: Db): Counts {
  const count = (sql: string) => (db.prepare(sql).get() as { n: number }).n;
  return {
    shoots: count("SELECT count(*) AS n FROM shoots"),
    plans: count("SELECT count(*) AS n FROM works"),
    versions: count("SELECT count(*) AS n FROM versions"),
    frames: count("SELECT count(*) AS n FROM frames"),
    thumbnails: count("SELECT count(*) AS n FROM frame_parts"),
  };
}

/** Opens a file that nobody else has open, and checks all of it. It is one file afterwards, without a journal beside it.
 * Errors  WorkError: it is none of ours, newer, or damaged; `called` names it */
export function demandSound(path: string, called: string): Counts {
  const db = openFile(path);
  try {
    const number = (sql: string) => Object.values(db.prepare(sql).get() as Record<string, number>)[0];
    if (number("PRAGMA application_id") !== APPLICATION_ID)
      throw noLibrary(called, "another program made it");
    const form = number("PRAGMA user_version");
    if (form > MIGRATIONS.length) throw newerLibrary(called, form, MIGRATIONS.length);
    db.exec("PRAGMA journal_mode = DELETE");
    if (faultsOf(db).length > 0) throw damaged(called);
    return countsOf(db);
  } catch (error) {
    if (error instanceof WorkError) throw error;
    throw codeOf(error) === NO_DATABASE ? noLibrary(called, "it is another kind of file") : damaged(called);
  } finally {
    db.close();
  }
}

export interface Checked extends Counts {
  /** what is wrong, in SQLite's words; nothing where all is well */
  readonly faults: readonly string[];
  /** photographs that are not where they were */
  readonly movedAway: readonly { readonly name: string; readonly path: string }[];
}

/** The whole library, which others may have open meanwhile. */
export function checkWhole(db: Db): Checked {
  const rows = db.prepare("SELECT name, path FROM frames WHERE path IS NOT NULL ORDER BY path").all();
  const frames = (rows as { name: string; path: string }[]).map(({ name, path }) => ({ name, path }));
  return {
    ...countsOf(db),
    faults: faultsOf(db),
    movedAway: frames.filter(({ path }) => !existsSync(path)),
  };
}

const NO_DATABASE = 26;
const MOST_FAULTS = 20;

/** What SQLite finds wrong, in its words; nothing where all is well. */
export function faultsOf(db: Db): string[] {
  const lines = db.prepare(`PRAGMA integrity_check(${MOST_FAULTS})`).all() as { integrity_check: string }[];
  const faults = lines.map((line) => line.integrity_check).filter((line) => line !== "ok");
  const loose = db.prepare("PRAGMA foreign_key_check").all() as { table: string; parent: string }[];
  return [
    ...faults,
    ...loose
      .slice(0, MOST_FAULTS)
      .map(({ table, parent }) => `a line of ${table} belongs to none of ${parent}`),
  ];
}
