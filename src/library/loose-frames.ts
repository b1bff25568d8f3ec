/** Frames that come in while nothing that is kept is in hand: an example that nobody has changed yet, or no plan at all. They
 * lie in a shoot of their day, until the plan that they were shot on is kept. */
import { noteFrames } from "./facts.ts";
import type { Db } from "./sqlite.ts";

/** In `about`: when the newest of them had come as the last kept work was put out of hand. */
const BEFORE = "loose frames until";
/** Those that nobody has given another title. */
const LOOSE = "SELECT id FROM shoots WHERE title = 'Frames of ' || date AND is_put_away = 0";

export function looseTitle(day: string): string {
  return `Frames of ${day}`;
}

/** Null where there is none yet. */
export function looseShoot(db: Db, day: string): string | null {
  const row = db.prepare(`${LOOSE} AND date = ?`).get(day);
  return row === undefined ? null : String(row.id);
}

/** What comes from now on is shot on a plan that is not kept yet. */
export function beginLoose(db: Db): void {
  db.prepare(
    `INSERT OR REPLACE INTO about (name, value)
       VALUES (?, (SELECT coalesce(max(arrived_at), '') FROM frames WHERE shoot IN (${LOOSE})))`,
  ).run(BEFORE);
}

/** A plan that is kept for the first time takes the frames that came since it lay on the table unkept. Whether there were any. */
export function adoptLoose(db: Db, key: string): boolean {
  const own = db
    .prepare("SELECT s.id, s.created_at FROM works w JOIN shoots s ON s.id = w.shoot WHERE w.key = ?")
    .get(key) as { id: string; created_at: string };
  const frames = db
    .prepare(
      `SELECT id, shoot FROM frames WHERE shoot IN (${LOOSE}) AND key IS NULL AND arrived_at <= ?
         AND arrived_at > coalesce((SELECT value FROM about WHERE name = ?), '')`,
    )
    .all(own.created_at, BEFORE) as { id: string; shoot: string }[];
  const move = db.prepare("UPDATE frames SET shoot = ?, key = ? WHERE id = ?");
  for (const { id } of frames) move.run(own.id, key, id);
  const left = new Set(frames.map(({ shoot }) => shoot));
  for (const shoot of [own.id, ...left]) noteFrames(db, shoot);
  const putAway = db.prepare(
    `UPDATE shoots SET is_put_away = 1 WHERE id = ?1 AND NOT EXISTS (SELECT 1 FROM frames WHERE shoot = ?1)
       AND NOT EXISTS (SELECT 1 FROM works WHERE shoot = ?1)`,
  );
  for (const shoot of left) putAway.run(shoot);
  return frames.length > 0;
}
