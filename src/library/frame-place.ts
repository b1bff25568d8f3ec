/** Which shoot a new frame belongs to, and which version of which plan it was shot on. */
import { noteFields } from "./facts.ts";
import { handOf } from "./hand.ts";
import { type Around, dayOf, ownShoot } from "./homes.ts";
import { looseShoot, looseTitle } from "./loose-frames.ts";
import { demandShoot, isDay, writeShoot } from "./shoot-rows.ts";
import { framesIn, shootOfWork } from "./shoots-works.ts";
import type { Db } from "./sqlite.ts";
import { versionOfNow } from "./versions.ts";

export interface FramePlace {
  readonly shoot: string;
  readonly key: string | null;
  readonly version: string | null;
}

interface Coming {
  /** of the file */
  readonly id: string;
  readonly name: string;
  readonly takenAt: string | null;
  /** files that it stands for */
  readonly before: readonly string[];
}

/** Where a frame that it stands for lies; else the shoot of the work in hand, of whose plan a version is kept where it has
 * changed since the last one; else one for frames of that day on no plan. */
export function placeOfFrame(db: Db, coming: Coming, { now, newId }: Around): FramePlace {
  const { name, takenAt } = coming;
  for (const path of coming.before) {
    const sql = "SELECT shoot, key, version FROM frames WHERE path = ? ORDER BY arrived_at DESC LIMIT 1";
    const there = db.prepare(sql).get(path) as FramePlace | undefined;
    if (there !== undefined) return there;
  }
  const at = now();
  const day = takenAt?.slice(0, 10) ?? dayOf(at);
  const { key, shoot } = inHand(db, at);
  if (key === null) return { shoot: shoot ?? newLooseShoot(db, at, newId), key, version: null };
  // read again: it was shot on the plan that it came under first
  const again = db
    .prepare("SELECT shoot, key, version FROM frames WHERE id IN (?, ?) AND shoot = ?")
    .get(coming.id, idElsewhere(coming.id, shoot), shoot) as FramePlace | undefined;
  if (again !== undefined) return again;
  settleDay(db, shoot, day, at);
  const madeAt = at.toISOString();
  const version = versionOfNow(db, key, { id: newId(), name: `for ${name}`, madeAt, isAutomatic: true });
  return { shoot, key, version };
}

/** Of a file that lies in another shoot already: it is another frame in this one. */
export function idElsewhere(id: string, shoot: string): string {
  return `${id}-${shoot}`;
}

/** A plan is made the evening before: its shoot, written down on that day, is on the day of its first frame. */
function settleDay(db: Db, id: string, day: string, at: Date): void {
  const shoot = demandShoot(db, id);
  const isOpen = shoot.date === null || shoot.date === dayOf(new Date(shoot.createdAt));
  if (!isOpen || !isDay(day) || shoot.date === day || day < (shoot.date ?? "") || framesIn(db, id) > 0)
    return;
  writeShoot(db, shoot, { date: day }, at);
}

/** The shoot of the work in hand; while none that is kept is in hand that for frames of the day on no plan, where there is
 * one. */
export function inHand(
  db: Db,
  at: Date,
): { readonly key: string; readonly shoot: string } | { readonly key: null; readonly shoot: string | null } {
  const key = handOf(db);
  const shoot = key === null ? null : shootOfWork(db, key);
  return key === null || shoot === null ? { key: null, shoot: looseShoot(db, dayOf(at)) } : { key, shoot };
}

function newLooseShoot(db: Db, at: Date, newId: () => string): string {
  const id = newId();
  ownShoot(db, id, looseTitle(dayOf(at)), at);
  noteFields(db, id);
  return id;
}
