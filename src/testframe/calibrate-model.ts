/** What a meter would read as a function of what is not known: each light's stops, its beam, the room's bounce. Made of a few
 * traced readings; weighing them again traces nothing. */

/** Where the unknowns stand in a list of them. */
export interface Unknowns {
  /** how many there are */
  readonly count: number;
  /** per head: index of its stops, and of its beam where that is looked for, else -1 */
  readonly stops: readonly number[];
  readonly beam: readonly number[];
  /** of the room's bounce, -1 where there is none */
  readonly bounce: number;
}

/** What one head gives at one place, lx.s as its output says, and how that goes with the unknowns. */
export interface HeadTerm {
  readonly head: number;
  readonly direct: number;
  /** log2 of direct over what is written, for beam stops p: p x `axis` + (2^p - 1) x `aside`. A lobe of exponent m gives
   * log2((m + 1) cos^m) = log2(m + 1) + m log2 cos, and 2^p is (m + 1) over what is written: exact for a point */
  readonly axis: number;
  readonly aside: number;
  readonly bounced: number;
  /** log2 of bounced over what is written: `once` x b + `twice` x b^2 + `spread` x p */
  readonly once: number;
  readonly twice: number;
  readonly spread: number;
}

export interface Exposure {
  readonly terms: readonly HeadTerm[];
  readonly ambient: number;
}

/** An exposure, or one against another, as it was read. */
export interface Observation {
  readonly over: Exposure;
  readonly under: Exposure | null;
  /** log2 of lx.s, or of the ratio */
  readonly stops: number;
  /** standard deviation of one such reading */
  readonly uncertaintyStops: number;
}

type Predicted = Pick<Observation, "over" | "under">;

/** log2 of what would be read.
 * Domain  something arrives by each exposure */
export function predict(seen: Predicted, unknowns: Unknowns, at: ArrayLike<number>): number {
  const over = Math.log2(exposureOf(seen.over, unknowns, at));
  return seen.under === null ? over : over - Math.log2(exposureOf(seen.under, unknowns, at));
}

/** Its derivative by each unknown: for a head's stops the share that it gives. */
export function gradient(seen: Predicted, unknowns: Unknowns, at: ArrayLike<number>): number[] {
  const out = new Array<number>(unknowns.count).fill(0);
  addGradient(seen.over, unknowns, at, 1, out);
  if (seen.under !== null) addGradient(seen.under, unknowns, at, -1, out);
  return out;
}

function directOf(term: HeadTerm, unknowns: Unknowns, at: ArrayLike<number>): number {
  const p = valueAt(unknowns.beam[term.head], at);
  return (
    term.direct * 2 ** (valueAt(unknowns.stops[term.head], at) + p * term.axis + (2 ** p - 1) * term.aside)
  );
}

function bouncedOf(term: HeadTerm, unknowns: Unknowns, at: ArrayLike<number>): number {
  const p = valueAt(unknowns.beam[term.head], at);
  const b = valueAt(unknowns.bounce, at);
  const stops = valueAt(unknowns.stops[term.head], at) + b * (term.once + b * term.twice) + p * term.spread;
  return term.bounced * 2 ** stops;
}

export function exposureOf({ terms, ambient }: Exposure, unknowns: Unknowns, at: ArrayLike<number>): number {
  let sum = ambient;
  for (const term of terms) sum += directOf(term, unknowns, at) + bouncedOf(term, unknowns, at);
  return sum;
}

function addGradient(
  exposure: Exposure,
  unknowns: Unknowns,
  at: ArrayLike<number>,
  sign: number,
  out: number[],
) {
  const all = exposureOf(exposure, unknowns, at);
  const b = valueAt(unknowns.bounce, at);
  for (const term of exposure.terms) {
    const direct = (sign * directOf(term, unknowns, at)) / all;
    const bounced = (sign * bouncedOf(term, unknowns, at)) / all;
    out[unknowns.stops[term.head]] += direct + bounced;
    const beam = unknowns.beam[term.head];
    if (beam >= 0)
      out[beam] += direct * (term.axis + Math.LN2 * 2 ** at[beam] * term.aside) + bounced * term.spread;
    if (unknowns.bounce >= 0) out[unknowns.bounce] += bounced * (term.once + 2 * b * term.twice);
  }
}

function valueAt(index: number, at: ArrayLike<number>): number {
  return index < 0 ? 0 : at[index];
}
