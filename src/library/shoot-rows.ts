/** Shoots between the table and the words of the port, and what people may write into them. */
import type { Shoot, ShootFields } from "../shoots/index.ts";
import { WorkError } from "../workbench/index.ts";
import type { Db } from "./sqlite.ts";

export interface ShootTableRow {
  readonly id: string;
  readonly title: string;
  readonly date: string | null;
  readonly place: string;
  readonly client: string;
  readonly notes: string;
  readonly is_put_away: number;
  readonly created_at: string;
  readonly changed_at: string;
  readonly revision: number;
}

export function shootOfRow(row: ShootTableRow): Shoot {
  const { id, title, date, place, client, notes, revision } = row;
  const isPutAway = row.is_put_away === 1;
  return {
    ...{ id, title, date, place, client, notes, isPutAway, revision },
    createdAt: row.created_at,
    changedAt: row.changed_at,
  };
}

/** Errors  WorkError where there is none of that id */
export function demandShoot(db: Db, id: string): Shoot {
  const row = db.prepare("SELECT * FROM shoots WHERE id = ?").get(id) as ShootTableRow | undefined;
  if (row === undefined)
    throw new WorkError(`there is no shoot "${id}"`, "choose one from the list of shoots");
  return shootOfRow(row);
}

export function insertShoot(db: Db, shoot: Shoot): void {
  const { id, title, date, place, client, notes, createdAt, changedAt, revision } = shoot;
  db.prepare(
    `INSERT INTO shoots (id, title, date, place, client, notes, is_put_away, created_at, changed_at, revision)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  ).run(id, title, date, place, client, notes, Number(shoot.isPutAway), createdAt, changedAt, revision);
}

/** The next revision of it, written. */
export function writeShoot(db: Db, shoot: Shoot, fields: Partial<ShootFields>, now: Date): Shoot {
  const next = { ...shoot, ...fields, changedAt: now.toISOString(), revision: shoot.revision + 1 };
  const { title, date, place, client, notes, changedAt, revision, id } = next;
  db.prepare(
    `UPDATE shoots SET title = ?, date = ?, place = ?, client = ?, notes = ?, is_put_away = ?, changed_at = ?, revision = ?
       WHERE id = ?`,
  ).run(title, date, place, client, notes, Number(next.isPutAway), changedAt, revision, id);
  return next;
}

/** A shoot of which nothing is said yet but its title. */
export function newShoot(id: string, title: string, now: Date): Shoot {
  const at = now.toISOString();
  return {
    ...{ id, title, date: null, place: "", client: "", notes: "", isPutAway: false },
    ...{ createdAt: at, changedAt: at, revision: 1 },
  };
}

const MOST: Readonly<Record<"title" | "place" | "client" | "notes", number>> = {
  title: 200,
  place: 200,
  client: 200,
  notes: 20_000,
};

/** What was sent, as it is kept: trimmed, and nothing else in it.
 * Errors  WorkError naming the field, what was sent and what may be */
export function readFields(sent: Partial<ShootFields>): Partial<ShootFields> {
  const fields: { -readonly [K in keyof ShootFields]?: ShootFields[K] } = {};
  for (const name of ["title", "place", "client", "notes"] as const) {
    const value: unknown = sent[name];
    if (value === undefined) continue;
    if (typeof value !== "string")
      throw new WorkError(`the ${name} is no text`, "write some words, or nothing");
    const text = value.trim();
    if (text.length > MOST[name])
      throw new WorkError(
        `the ${name} has ${text.length} characters; at most ${MOST[name]} are kept`,
        "write less, or put it into the notes",
      );
    fields[name] = text;
  }
  if (fields.title === "") throw new WorkError("a shoot without a title is not found again", "give it one");
  const { date, isPutAway } = sent;
  if (date !== undefined) fields.date = readDate(date);
  if (isPutAway !== undefined) fields.isPutAway = isPutAway === true;
  return fields;
}

function readDate(date: unknown): string | null {
  if (date === null || date === "") return null;
  if (typeof date === "string" && isDay(date)) return date;
  throw new WorkError(`"${String(date)}" is no day`, "write it as 2026-11-26, or leave it empty");
}

/** "2026-11-26", and such a day exists. */
export function isDay(text: string): boolean {
  const at = new Date(`${text}T00:00:00Z`);
  return /^\d{4}-\d\d-\d\d$/.test(text) && !Number.isNaN(at.getTime()) && at.toISOString().startsWith(text);
}
