/** What of a plan stands already, and who said so. */
import { checkPlan } from "../plan/index.ts";
import type { Placed } from "../shoots/index.ts";
import { setUpsOf, WorkError } from "../workbench/index.ts";
import { keptPlan } from "./homes.ts";
import { demandWork, shootOfWork } from "./shoots-works.ts";
import type { Db } from "./sqlite.ts";

/** Only what is still in the plan as it is saved now; nothing of a work that was never kept: a page may ask before its first
 * save has come. */
export function placedOf(db: Db, key: string): Placed[] {
  if (shootOfWork(db, key) === null) return [];
  const things = setUpsIn(db, key);
  const rows = db
    .prepare("SELECT thing, by, at, set_up AS setUp FROM placed WHERE key = ? ORDER BY at, thing")
    .all(key) as unknown as Placed[];
  return rows.filter(({ thing }) => things.has(thing)).map((row) => ({ ...row }));
}

export interface Placing {
  readonly thing: string;
  readonly isPlaced: boolean;
  readonly by: string;
  readonly at: string;
}

/** Whether that is news. Who placed it first stays, until the plan changes it and it is placed anew.
 * Errors  WorkError where there is no such work, or no such thing in its plan */
export function place(db: Db, key: string, { thing, isPlaced, by, at }: Placing): boolean {
  const setUp = setUpsIn(db, key).get(thing);
  if (setUp === undefined)
    throw new WorkError(`there is no "${thing}" in that plan`, "look at the plan again: it may have changed");
  const done = isPlaced
    ? db
        .prepare(
          `INSERT INTO placed (key, thing, by, at, set_up) VALUES (?, ?, ?, ?, ?)
             ON CONFLICT (key, thing) DO UPDATE SET by = excluded.by, at = excluded.at, set_up = excluded.set_up
             WHERE set_up <> excluded.set_up`,
        )
        .run(key, thing, by.slice(0, 80), at, setUp)
    : db.prepare("DELETE FROM placed WHERE key = ? AND thing = ?").run(key, thing);
  return Number(done.changes) > 0;
}

/** Nothing where the plan that is kept cannot be opened. */
function setUpsIn(db: Db, key: string): ReadonlyMap<string, string> {
  const checked = checkPlan(keptPlan(demandWork(db, key).plan));
  return checked.ok ? setUpsOf(checked.plan) : new Map();
}
