/** Which copies of a library stay: all of the last seven days that there are copies of, the last one each of four weeks and of
 * twelve months. */

/** "library 2026-11-26.tapemark"; with a time where it was asked for by hand. */
const NAME = /^library (\d{4})-(\d\d)-(\d\d)(?: (\d\d)(\d\d)(?: \d+)?)?\.tapemark$/;

const DAYS = 7;
const WEEKS = 4;
const MONTHS = 12;
const DAY_MS = 86_400_000;

export interface Kept {
  readonly keep: readonly string[];
  readonly drop: readonly string[];
  /** dated later than today: the clock is wrong, or was; they stay until their day has passed */
  readonly ahead: readonly string[];
}

/** Goes by the days that copies were made on, not by how long ago that is: a clock that is set forward makes no copy old, one
 * that is set back none new.
 * Shape   names of files, in any order; what is none of ours is in none of the lists. `today` as "2026-11-26" */
export function copiesToKeep(names: readonly string[], today: string): Kept {
  // the daily one of a day was there before those that were made by hand
  const ours = names.filter(isCopyName).sort((a, b) => orderOf(b).localeCompare(orderOf(a)));
  const ahead = ours.filter((name) => dayOfCopy(name) > today);
  const past = ours.filter((name) => dayOfCopy(name) <= today);
  const days = [...new Set(past.map(dayOfCopy))].slice(0, DAYS);
  const kept = new Set(past.filter((name) => days.includes(dayOfCopy(name))));
  for (const [most, spanOf] of SPANS) {
    const spans = new Set<string>();
    for (const name of past) {
      const span = spanOf(dayOfCopy(name));
      if (spans.has(span) || spans.size >= most) continue;
      spans.add(span);
      kept.add(name);
    }
  }
  return {
    keep: past.filter((name) => kept.has(name)),
    drop: past.filter((name) => !kept.has(name)),
    ahead,
  };
}

const SPANS: readonly (readonly [most: number, spanOf: (day: string) => string])[] = [
  [WEEKS, weekOf],
  [MONTHS, (day) => day.slice(0, 7)],
];

function orderOf(name: string): string {
  return name.replace(/\.tapemark$/, "");
}

/** The Monday that begins it. */
function weekOf(day: string): string {
  const at = Date.parse(`${day}T00:00:00Z`);
  const sinceMonday = (new Date(at).getUTCDay() + 6) % 7;
  return new Date(at - sinceMonday * DAY_MS).toISOString().slice(0, 10);
}

export function isCopyName(name: string): boolean {
  const [, year, month, day] = NAME.exec(name) ?? [];
  if (year === undefined) return false;
  const at = Date.parse(`${year}-${month}-${day}T00:00:00Z`);
  return !Number.isNaN(at) && new Date(at).toISOString().startsWith(`${year}-${month}-${day}`);
}

/** "2026-11-26" */
function dayOfCopy(name: string): string {
  return name.slice("library ".length, "library 2026-11-26".length);
}

/** The name of the copy of a day. */
export function copyName(day: string): string {
  return `library ${day}.tapemark`;
}
