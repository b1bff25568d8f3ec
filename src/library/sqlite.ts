/** The one place that knows which SQLite it is (docs/decisions/0013). The interface is Node's own `node:sqlite`. */
import { backup, DatabaseSync } from "@photostructure/sqlite";

export type Db = InstanceType<typeof DatabaseSync>;
export { backup };

/** Opens the file, made where it is not there. Every commit waits for the disk; readers and one writer get on side by side.
 * Errors  those of SQLite, with `errcode`; `problems.ts` puts them in words */
export function openFile(path: string, options: { readonly readOnly?: boolean } = {}): Db {
  const db = new DatabaseSync(path, { readOnly: options.readOnly ?? false, timeout: BUSY_MS });
  if (options.readOnly !== true) {
    db.exec("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;");
  }
  return db;
}

/** Another copy that writes is done long before. */
const BUSY_MS = 2000;

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
