/** Plans as they were: kept under a name, never changed. */
import type { PlanVersion } from "../shoots/index.ts";
import { WorkError } from "../workbench/index.ts";
import { demandWork } from "./shoots-works.ts";
import type { Db } from "./sqlite.ts";

interface VersionRow {
  readonly id: string;
  readonly key: string;
  readonly number: number;
  readonly name: string;
  readonly made_at: string;
  readonly is_automatic: number;
}

const FIELDS = "id, key, number, name, made_at, is_automatic";
const MOST_NAME = 200;

/** Oldest first. */
export function versionsOf(db: Db, key: string): PlanVersion[] {
  const rows = db.prepare(`SELECT ${FIELDS} FROM versions WHERE key = ? ORDER BY number`).all(key);
  return (rows as unknown as VersionRow[]).map(versionOfRow);
}

export interface NewVersion {
  readonly id: string;
  /** empty: "version 3" */
  readonly name: string;
  readonly madeAt: string;
  readonly isAutomatic: boolean;
}

/** Keeps the plan as it is saved now.
 * Errors  WorkError where there is no such work */
export function keepVersion(db: Db, key: string, version: NewVersion): PlanVersion {
  const { plan } = demandWork(db, key);
  const last = db.prepare("SELECT max(number) AS number FROM versions WHERE key = ?").get(key) as {
    number: number | null;
  };
  const number = (last.number ?? 0) + 1;
  const name = readName(version.name) || `version ${number}`;
  const { id, madeAt, isAutomatic } = version;
  db.prepare(
    "INSERT INTO versions (id, key, number, name, plan, made_at, is_automatic) VALUES (?, ?, ?, ?, ?, ?, ?)",
  ).run(id, key, number, name, plan, madeAt, Number(isAutomatic));
  return { id, key, number, name, madeAt, isAutomatic };
}

/** The version that the plan of a work is as it is saved now; one is kept where it has changed since the last. */
export function versionOfNow(db: Db, key: string, version: NewVersion): string {
  const { plan } = demandWork(db, key);
  const last = db
    .prepare("SELECT id, plan FROM versions WHERE key = ? ORDER BY number DESC LIMIT 1")
    .get(key);
  const { id, plan: then } = (last ?? {}) as { id?: string; plan?: string };
  return id !== undefined && then === plan ? id : keepVersion(db, key, version).id;
}

/** Only its name: what it holds never changes.
 * Errors  WorkError where there is none, or the name is empty */
export function renameVersion(db: Db, id: string, asked: string): PlanVersion {
  const name = readName(asked);
  if (name === "") throw new WorkError("a version without a name is not found again", "give it one");
  db.prepare("UPDATE versions SET name = ? WHERE id = ?").run(name, id);
  const row = db.prepare(`SELECT ${FIELDS} FROM versions WHERE id = ?`).get(id) as VersionRow | undefined;
  if (row === undefined) throw noVersion(id);
  return versionOfRow(row);
}

/** Unchecked. */
export function versionPlan(db: Db, id: string): unknown {
  const row = db.prepare("SELECT plan FROM versions WHERE id = ?").get(id) as { plan: string } | undefined;
  if (row === undefined) throw noVersion(id);
  return JSON.parse(row.plan);
}

function versionOfRow({ id, key, number, name, made_at, is_automatic }: VersionRow): PlanVersion {
  return { id, key, number, name, madeAt: made_at, isAutomatic: is_automatic === 1 };
}

function readName(asked: string): string {
  const name = asked.trim();
  if (name.length > MOST_NAME)
    throw new WorkError(
      `the name has ${name.length} characters; at most ${MOST_NAME} are kept`,
      "write a shorter one",
    );
  return name;
}

function noVersion(id: string): WorkError {
  return new WorkError(`there is no version "${id}"`, "choose one from the shoot");
}
