/** Libraries as earlier versions left them: the first steps of their form, and rows that never change. */
import { readFileSync } from "node:fs";
import { APPLICATION_ID, MIGRATIONS } from "../migrations.ts";
import { closeFile, type Db, keepSafely, openFile, transaction } from "../sqlite.ts";

/** The forms that rows are kept of, one for each that there was before today's. */
export const OLD_FORMS = MIGRATIONS.slice(0, -1).map((_, i) => i + 1);

export function makeOldLibrary(path: string, form: number, more: (db: Db) => void = () => {}): void {
  const db = openFile(path);
  keepSafely(db);
  transaction(db, () => {
    for (const step of MIGRATIONS.slice(0, form)) db.exec(step);
    db.exec(readFileSync(new URL(`./form-${form}.sql`, import.meta.url), "utf8"));
    db.exec(`PRAGMA application_id = ${APPLICATION_ID}; PRAGMA user_version = ${form}`);
    more(db);
  });
  closeFile(db);
}

/** All rows of all tables that hold what is the user's own, by table. */
export function rowsOf(
  db: Db,
  columns: Readonly<Record<string, readonly string[]>>,
): Record<string, unknown[]> {
  return Object.fromEntries(
    Object.entries(columns).map(([table, names]) => [
      table,
      db.prepare(`SELECT ${names.join(", ")} FROM ${table} ORDER BY 1, 2`).all(),
    ]),
  );
}

/** Tables and their columns, without those that SQLite and the search keep for themselves. */
export function columnsOf(db: Db): Record<string, readonly string[]> {
  const tables = db
    .prepare(
      "SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND name NOT LIKE 'sqlite%'",
    )
    .all() as { name: string }[];
  return Object.fromEntries(
    tables.map(({ name }) => {
      const columns = db.prepare("SELECT name FROM pragma_table_info(?)").all(name) as { name: string }[];
      return [name, columns.map((column) => column.name)];
    }),
  );
}

/** Empty where the file is sound. */
export function faultsOf(db: Db): unknown[] {
  return [
    ...db.prepare("PRAGMA integrity_check").all(),
    ...db.prepare("PRAGMA foreign_key_check").all(),
  ].filter((row) => row.integrity_check !== "ok");
}
