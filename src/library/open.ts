/** Opens the library: one SQLite file, brought to today's form, or refused with what to do. */
import { mkdirSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { WorkError } from "../workbench/index.ts";
import { APPLICATION_ID, MIGRATIONS } from "./migrations.ts";
import { type Db, openFile, transaction } from "./sqlite.ts";

export interface Library {
  readonly path: string;
  readonly db: Db;
  close(): void;
}

/** Where the library lies: what was asked for, TAPEMARK_LIBRARY, or "library.tapemark" in the folder of the user's data. */
export function libraryPath(asked: string | null, env: NodeJS.ProcessEnv, dataFolder: string): string {
  return resolve(asked ?? (env.TAPEMARK_LIBRARY || join(dataFolder, "library.tapemark")));
}

export function openLibrary(path: string): Library {
  mkdirSync(dirname(path), { recursive: true });
  const db = openFile(path);
  migrate(db, path);
  return { path, db, close: () => db.close() };
}

function migrate(db: Db, path: string): void {
  transaction(db, () => {
    const version = (db.prepare("PRAGMA user_version").get() as { user_version: number }).user_version;
    if (version > MIGRATIONS.length) {
      throw new WorkError(
        `${path} was made by a newer Tapemark (form ${version}; this one knows up to ${MIGRATIONS.length})`,
        "open it with that one, or name another library with --library",
      );
    }
    for (const step of MIGRATIONS.slice(version)) db.exec(step);
    db.exec(`PRAGMA application_id = ${APPLICATION_ID}; PRAGMA user_version = ${MIGRATIONS.length}`);
  });
}
