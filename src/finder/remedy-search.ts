/** How much of each kind of change reaches a wish, by the quick reading. */
import type { Plan } from "../plan/index.ts";
import { type KeepGoing, type TryReading, tryReadingOf } from "../reading/index.ts";
import { step } from "../reading/progress.ts";
import { nearestSo, nearestToWish } from "./remedy-amount.ts";
import type { Read } from "./remedy-costs.ts";
import { areGlassesClear } from "./remedy-glasses.ts";
import type { Reader, Tryable } from "./remedy-tries.ts";
import { keepsFace, missOf, WITHIN_STOPS, withinOf } from "./remedy-wish.ts";
import type { Ask } from "./types.ts";

export interface Found {
  readonly tryable: Tryable;
  /** how many of the finest, either sign */
  readonly parts: number;
  /** the plan after it, and what the quick reading has of it */
  readonly after: Plan;
  readonly reading: TryReading;
  /** what is left to do after a whole reading says otherwise: other parts, null where none are known */
  readonly corrected: (parts: number, before: Read, after: Read) => number | null;
}

export interface Search {
  readonly plan: Plan;
  readonly person: number;
  readonly read: Reader;
  /** lights that lie on the glasses, by place in the plan */
  readonly offending: readonly number[];
}

/** At most one amount of each kind.
 * Errors  Stopped where `keepGoing` returns false */
export function amountsFor(
  ask: Ask,
  tries: readonly Tryable[],
  search: Search,
  keepGoing: KeepGoing,
): Found[] {
  const look = (find: (tryable: Tryable) => Found | null) =>
    tries.flatMap((tryable, i) => {
      step(keepGoing, i / tries.length);
      return find(tryable) ?? [];
    });
  if (ask.ask === "glasses") {
    const preferred = look((tryable) => clearedBy(tryable, search, PREFERRED[tryable.unit]));
    return preferred.length > 0 ? preferred : look((tryable) => clearedBy(tryable, search, tryable.reach));
  }
  if (ask.ask === "pattern") return look((tryable) => shownBy(tryable, ask.pattern, search));
  return look((tryable) => broughtBy(tryable, ask, search));
}

/** Each amount is made and read once. */
function probing({ at, finest }: Tryable, read: Reader) {
  const known = new Map<number, { plan: Plan; reading: TryReading } | null>();
  return (parts: number) => {
    let there = known.get(parts);
    if (there === undefined) {
      const { made } = at(parts * finest);
      there = made.ok ? { plan: made.after, reading: read(made.after) } : null;
      known.set(parts, there);
    }
    return there;
  };
}

function broughtBy(tryable: Tryable, ask: Ask, { plan, person, read }: Search): Found | null {
  const before = read(plan);
  const miss = missOf(ask, plan, before);
  const now = miss?.(plan, before) ?? null;
  if (miss === null || now === null) return null;
  const probe = probing(tryable, read);
  const missAt = (parts: number) => {
    const there = probe(parts);
    return there === null ? null : miss(there.plan, there.reading);
  };
  const { step: first, reach, finest } = tryable;
  const parts = nearestToWish(missAt, now, Math.round(first / finest), Math.round(reach / finest));
  const there = parts === null ? null : probe(parts);
  const left = parts === null ? null : missAt(parts);
  if (parts === null || there === null || left === null) return null;
  // what the quick reading is off by may still be made good by a part or two
  if (Math.abs(left) > 2 * WITHIN_STOPS || !keepsFace(ask, plan, before, there.plan, there.reading))
    return null;
  const each = (left - now) / parts;
  return {
    tryable,
    parts,
    after: there.plan,
    reading: there.reading,
    corrected: (tried, was, is) => {
      const whole = missOf(ask, plan, tryReadingOf(was.reading, person));
      const off = whole?.(is.plan, tryReadingOf(is.reading, person)) ?? null;
      if (off === null || Math.abs(off) <= withinOf(ask)) return null;
      const by = Math.round(off / each);
      return tried - (by === 0 ? Math.sign(off / each) : by);
    },
  };
}

/** Parts between two tries of what is so or is not: no narrower window is looked for. */
const STRIDES = { degrees: 4, metres: 0.12, stops: 0.5 } as const;
/** Beyond the border, so that it is not taken back by a breath: parts. */
const CLEAR_OF_BORDER = { degrees: 1, metres: 2, stops: 1 } as const;

function shownBy(tryable: Tryable, pattern: TryReading["pattern"], { read }: Search): Found | null {
  const probe = probing(tryable, read);
  const isSo = (parts: number) => {
    const there = probe(parts);
    return there === null ? null : there.reading.pattern === pattern;
  };
  const parts = soBy(tryable, isSo, STRIDES[tryable.unit], tryable.reach);
  const there = parts === null ? null : probe(parts);
  if (parts === null || there === null) return null;
  return { tryable, parts, after: there.plan, reading: there.reading, corrected: farther };
}

/** What is small beside a stand and a head: 5 degrees, 30 cm (trade: smallest fix for glasses). */
const PREFERRED = { degrees: 5, metres: 0.3, stops: 0 } as const;
const FINE_STRIDES = { degrees: 1, metres: 0.05, stops: 1 } as const;

function clearedBy(tryable: Tryable, { person, read, offending }: Search, reach: number): Found | null {
  const isSo = (parts: number) => {
    const { made } = tryable.at(parts * tryable.finest);
    return made.ok ? areGlassesClear(made.after, person, offending) : null;
  };
  const parts = soBy(tryable, isSo, FINE_STRIDES[tryable.unit], reach);
  const there = parts === null ? null : tryable.at(parts * tryable.finest).made;
  if (parts === null || there === null || !there.ok) return null;
  return { tryable, parts, after: there.after, reading: read(there.after), corrected: farther };
}

function soBy(
  { unit, finest }: Tryable,
  isSo: (parts: number) => boolean | null,
  stride: number,
  reach: number,
): number | null {
  const most = Math.round(reach / finest);
  const parts = nearestSo(isSo, Math.max(1, Math.round(stride / finest)), most);
  if (parts === null) return null;
  const clear = parts + Math.sign(parts) * CLEAR_OF_BORDER[unit];
  return Math.abs(clear) <= most && isSo(clear) === true ? clear : parts;
}

function farther(parts: number): number {
  return parts + Math.sign(parts);
}
