/** How far one may go before a limit is met: outward in steps, then nearer and nearer to where it is met. */
import type { HoldLimit } from "./types.ts";

export interface Way {
  /** tried so far apart; a limit that comes and goes within one step is missed */
  readonly step: number;
  /** how finely the limit is then found */
  readonly finest: number;
  /** how far it is looked for */
  readonly most: number;
}

/** What is found at a place. */
export interface Judged {
  /** what is not as asked, null where all is */
  readonly limit: HoldLimit | null;
  /** what changes evenly, in stops: under 0 as far inside its limit, over 0 past it; the rest is not here */
  readonly excess: Readonly<Partial<Record<HoldLimit["by"], number>>>;
}

export interface Reach {
  /** the farthest that holds */
  readonly amount: number;
  readonly limit: HoldLimit;
}

interface Tried {
  readonly amount: number;
  readonly judged: Judged;
}

/** `start` is what is found where nothing is changed yet. */
export function reachOf(at: (amount: number) => Judged, start: Judged, { step, finest, most }: Way): Reach {
  if (start.limit !== null) return { amount: 0, limit: start.limit };
  let inner: Tried = { amount: 0, judged: start };
  for (let k = 1; inner.amount < most; k++) {
    const amount = Math.min(most, k * step);
    const outer = { amount, judged: at(amount) };
    if (outer.judged.limit !== null) return between(at, inner, outer, finest);
    inner = outer;
  }
  return { amount: most, limit: { by: "reach" } };
}

/** What changes evenly is met where a straight line says, or a hair before or behind; the rest by halves. */
const GUESSES = 4;

function between(at: (amount: number) => Judged, from: Tried, to: Tried, finest: number): Reach {
  let [inner, outer] = [from, to];
  for (let turn = 0; outer.amount - inner.amount > finest; turn++) {
    const amount = turn < GUESSES ? guess(inner, outer, finest, turn % 2 === 0 ? -1 : 1) : null;
    const middle = amount ?? (inner.amount + outer.amount) / 2;
    const there = { amount: middle, judged: at(middle) };
    if (there.judged.limit === null) inner = there;
    else outer = there;
  }
  return { amount: inner.amount, limit: outer.judged.limit as HoldLimit };
}

/** Less than half of the finest off, so that two guesses have it between them. */
const HAIR = 0.45;

/** Null where no straight line can be drawn. */
function guess(inner: Tried, outer: Tried, finest: number, side: 1 | -1): number | null {
  const by = outer.judged.limit?.by;
  const before = by && inner.judged.excess[by];
  const behind = by && outer.judged.excess[by];
  if (before === undefined || behind === undefined || !(behind > before) || !Number.isFinite(behind))
    return null;
  const wide = outer.amount - inner.amount;
  const met = inner.amount - (wide * before) / (behind - before);
  const least = inner.amount + HAIR * finest;
  return Math.max(least, Math.min(outer.amount - HAIR * finest, met + side * HAIR * finest));
}

/** What ends two neighbours is told apart by its kind, which way it goes, and its name. */
export function isSameLimit(a: HoldLimit, b: HoldLimit): boolean {
  return limitKey(a) === limitKey(b);
}

function limitKey(limit: HoldLimit): string {
  if (limit.by === "pattern") return limit.pattern;
  if (limit.by === "wall" || limit.by === "thing") return limit.name;
  if (limit.by === "exposure" || limit.by === "ratio") return `${limit.by} ${Math.sign(limit.stops)}`;
  return limit.by;
}
