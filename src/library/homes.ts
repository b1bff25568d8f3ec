/** Every kept work lies in exactly one shoot: one that has none yet gets one of its own. */
import type { Db } from "./sqlite.ts";

export interface Around {
  readonly now: () => Date;
  /** never given before */
  readonly newId: () => string;
}

/** A shoot for one work, with the work's title, on the day of `at`. */
export function ownShoot(db: Db, id: string, title: string, at: Date): void {
  const stamp = at.toISOString();
  db.prepare("INSERT INTO shoots (id, title, date, created_at, changed_at) VALUES (?, ?, ?, ?, ?)").run(
    id,
    title,
    dayOf(at),
    stamp,
    stamp,
  );
}

export function hasHomeless(db: Db): boolean {
  return db.prepare("SELECT 1 FROM works WHERE shoot IS NULL LIMIT 1").get() !== undefined;
}

/** Works of libraries that knew no shoots. */
export function houseWorks(db: Db, newId: () => string): void {
  const homeless = db.prepare("SELECT key, title, saved_at FROM works WHERE shoot IS NULL").all() as {
    key: string;
    title: string;
    saved_at: string;
  }[];
  for (const { key, title, saved_at } of homeless) {
    const id = newId();
    ownShoot(db, id, title, new Date(saved_at));
    db.prepare("UPDATE works SET shoot = ? WHERE key = ?").run(id, key);
  }
}

/** A plan as it is kept, unchecked; null where a disk has spoilt its text: that hides nothing else. */
export function keptPlan(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** "2026-11-26", where the photographer is. */
export function dayOf(date: Date): string {
  const two = (number: number) => String(number).padStart(2, "0");
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}
