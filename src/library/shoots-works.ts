/** Works and the shoots that they lie in: every kept work in exactly one. */
import { factsOfPlan, type PlanInShoot } from "../shoots/index.ts";
import { type NewsDesk, WorkError } from "../workbench/index.ts";
import { moveFacts, noteFields, noteWork, titleThen } from "./facts.ts";
import { keptPlan } from "./homes.ts";
import type { Library } from "./open.ts";
import { demandShoot, writeShoot } from "./shoot-rows.ts";
import type { Db } from "./sqlite.ts";
import { versionsOf } from "./versions.ts";
import type { WorkParts } from "./works.ts";

export interface WorkRow {
  readonly key: string;
  readonly shoot: string;
  readonly plan: string;
  readonly saved_at: string;
}

/** Errors  WorkError where no such work is kept */
export function demandWork(db: Db, key: string): WorkRow {
  const row = db.prepare("SELECT key, shoot, plan, saved_at FROM works WHERE key = ?").get(key);
  if (row === undefined)
    throw new WorkError(`no work "${key}" is kept here`, "save its plan first, or open another one");
  return row as unknown as WorkRow;
}

/** Null where no such work is kept. */
export function shootOfWork(db: Db, key: string): string | null {
  const row = db.prepare("SELECT shoot FROM works WHERE key = ?").get(key) as
    | { shoot: string | null }
    | undefined;
  return row?.shoot ?? null;
}

const TITLES = new Intl.Collator("en", { numeric: true });

/** By title. */
export function plansOf(db: Db, shoot: string): PlanInShoot[] {
  const rows = db.prepare("SELECT key, plan, saved_at FROM works WHERE shoot = ? ORDER BY key").all(shoot);
  return (rows as unknown as WorkRow[])
    .map(({ key, plan, saved_at }) => {
      const { title, readings, isCalibrated } = factsOfPlan(keptPlan(plan));
      return { key, title, savedAt: saved_at, readings, isCalibrated, versions: versionsOf(db, key) };
    })
    .sort((a, b) => TITLES.compare(a.title, b.title));
}

/** To be called alongside each save, within its transaction: what is searched by is kept in step, and a shoot that nobody has
 * given another title goes by that of its only plan. News of it is told once the transaction is over. */
export function savedWorkNoter(
  { db }: Library,
  { now, news }: { readonly now: () => Date; readonly news: Pick<NewsDesk, "tell"> },
) {
  return ({ key, shoot, plan }: SavedInShoot): void => {
    const facts = factsOfPlan(plan);
    const isRetitled = retitle(db, shoot, key, facts.title, now());
    if (noteWork(db, shoot, key, facts) || isRetitled)
      queueMicrotask(() => news.tell({ kind: "shoots", shoot }));
  };
}

type SavedInShoot = Parameters<NonNullable<WorkParts["alongside"]>>[0];

function retitle(db: Db, id: string, key: string, title: string, now: Date): boolean {
  const before = titleThen(db, id, key);
  if (before === null || before === title) return false;
  const shoot = demandShoot(db, id);
  if (shoot.title !== before || worksIn(db, id) > 1) return false;
  writeShoot(db, shoot, { title }, now);
  noteFields(db, id);
  return true;
}

/** Puts a work into another shoot; the test frames that were shot on its plan go with it. What it leaves behind is put away
 * where nothing else lies in it and nobody wrote anything into it. The shoot it came from; null where it was there already.
 * Errors  WorkError where either is not there */
export function moveWork(db: Db, key: string, to: string, now: Date): string | null {
  const { shoot: from, plan } = demandWork(db, key);
  demandShoot(db, to);
  if (from === to) return null;
  db.prepare("UPDATE works SET shoot = ? WHERE key = ?").run(to, key);
  db.prepare("UPDATE frames SET shoot = ? WHERE shoot = ? AND key = ?").run(to, from, key);
  moveFacts(db, key, from, to);
  const left = demandShoot(db, from);
  const isBare = left.place === "" && left.client === "" && left.notes === "";
  const isItsOwn = left.title === factsOfPlan(keptPlan(plan)).title;
  if (isBare && isItsOwn && worksIn(db, from) === 0 && framesIn(db, from) === 0)
    writeShoot(db, left, { isPutAway: true }, now);
  return from;
}

function worksIn(db: Db, shoot: string): number {
  return count(db, "SELECT count(*) AS n FROM works WHERE shoot = ?", shoot);
}

export function framesIn(db: Db, shoot: string): number {
  return count(db, "SELECT count(*) AS n FROM frames WHERE shoot = ?", shoot);
}

function count(db: Db, sql: string, shoot: string): number {
  return (db.prepare(sql).get(shoot) as { n: number }).n;
}
