/** The one place that knows which SQLite it is (docs/decisions/0013). The interface is Node's own `node:sqlite`. */
import { backup, DatabaseSync } from "@photostructure/sqlite";

export type Db = InstanceType<typeof DatabaseSync>;
export { backup };

/** Another copy that writes is done long before. */
const BUSY_MS = 2000;

/** Opens a file as it is.
 * Errors  those of SQLite, see `codeOf`; `problems.ts` puts them in words */
export function openFile(path: string, options: { readonly readOnly?: boolean } = {}): Db {
  return new DatabaseSync(path, { readOnly: options.readOnly ?? false, timeout: BUSY_MS });
}

/** Every commit waits for the disk; readers and one writer get on side by side. */
export function keepSafely(db: Db): void {
  db.exec("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON");
}

/** SQLite itself closes a file only once all its statements are collected as garbage: what is in the journal is brought into the
 * file before. Where that cannot be, the journal has it, and the next one who opens the file takes it from there. */
export function closeFile(db: Db): void {
  if (!db.isOpen) return;
  try {
    db.exec("PRAGMA wal_checkpoint(TRUNCATE)");
  } catch {
    // see above
  }
  db.close();
}

/** One state of the file for as long as it takes: others may write meanwhile. */
export async function atOneMoment<T>(path: string, act: (db: Db) => Promise<T>): Promise<T> {
  const db = openFile(path, { readOnly: true });
  try {
    db.exec("BEGIN");
    return await act(db);
  } finally {
    // closing alone lets go of that state only once its statements are collected as garbage, and until then the journal
    // cannot be brought into the file
    if (db.isTransaction) db.exec("ROLLBACK");
    db.close();
  }
}

/** All of it or nothing. */
export function transaction<T>(db: Db, act: () => T): T {
  db.exec("BEGIN IMMEDIATE");
  try {
    const result = act();
    db.exec("COMMIT");
    return result;
  } catch (error) {
    // SQLite takes some failures back by itself
    if (db.isTransaction) db.exec("ROLLBACK");
    throw error;
  }
}

/** What `all()` and `iterate()` say, which have no number (sqlite.org/rescode.html); a name may follow. */
const SAID = new Map([
  ["database is locked", 5],
  ["database table is locked", 6],
  ["attempt to write a readonly database", 8],
  ["disk I/O error", 10],
  ["database disk image is malformed", 11],
  ["database or disk is full", 13],
  ["unable to open database file", 14],
  ["file is not a database", 26],
]);

/** SQLite's own number for what went wrong; null for any other error. */
export function codeOf(error: unknown): number | null {
  const { code, errcode, message } = (error ?? {}) as {
    code?: unknown;
    errcode?: unknown;
    message?: unknown;
  };
  if (typeof errcode === "number") return errcode;
  if (code !== "ERR_SQLITE_ERROR") return null;
  return SAID.get(String(message).split(":")[0]) ?? null;
}
