/** How much is needed: outward by doubling until the wish is passed, then by halving; in whole parts of the finest that
 * can be done, so that what is found is round. */

/** How far from what is asked after so many parts, signed; null where it cannot be made or read. */
export type Miss = (parts: number) => number | null;

/** A way that brings the wish no nearer than this by its first step leads elsewhere, stops. */
const LEADS = 0.01;

/** The smallest amount at which the miss is nearest to none; null where neither way leads there.
 * Shape   parts of either sign; `now` is the miss as it stands, `first` how many are tried first, `most` at most
 * Domain  the miss changes its sign once between nothing and `most`; where it turns back before, nothing is found */
export function nearestToWish(miss: Miss, now: number, first: number, most: number): number | null {
  const start = Math.max(1, Math.min(first, most));
  const leading = [1, -1]
    .map((sign) => ({ sign, at: nextTo(miss, sign, start) }))
    .filter(({ at }) => at !== null && hasPassed(now, at.miss, LEADS))
    .sort((a, b) => Math.abs(a.at?.miss ?? 0) - Math.abs(b.at?.miss ?? 0));
  for (const { sign } of leading) {
    const found = outward((parts) => miss(sign * parts), now, start, most);
    if (found !== null) return sign * found;
  }
  return null;
}

/** Nearer to the wish, or past it. */
function hasPassed(now: number, there: number, by: number): boolean {
  return Math.sign(there) !== Math.sign(now) || Math.abs(there) < Math.abs(now) - by;
}

/** The first step, or as much of it as can be made. */
function nextTo(miss: Miss, sign: number, start: number): { parts: number; miss: number } | null {
  for (let parts = start; parts >= 1; parts = Math.floor(parts / 2)) {
    const there = miss(sign * parts);
    if (there !== null) return { parts, miss: there };
  }
  return null;
}

function outward(miss: Miss, now: number, start: number, most: number): number | null {
  let [near, atNear] = [0, now];
  let blocked = most + 1;
  let parts = start;
  for (;;) {
    const there = miss(parts);
    if (there === null) blocked = parts;
    else if (Math.sign(there) !== Math.sign(now)) return between(miss, near, atNear, parts, there);
    else if (Math.abs(there) > Math.abs(atNear) + LEADS) return near > 0 ? near : null;
    else [near, atNear] = [parts, there];
    const wanted = blocked > most ? Math.min(most, 2 * parts) : Math.floor((near + blocked) / 2);
    if (wanted <= near) return near > 0 ? near : null;
    parts = wanted;
  }
}

function between(miss: Miss, low: number, atLow: number, high: number, atHigh: number): number {
  let [near, nearMiss, far, farMiss] = [low, atLow, high, atHigh];
  for (let turn = 0; far - near > 1; turn++) {
    // a straight line between the two first, and every other time the middle, so that it ends
    const line = near + ((far - near) * nearMiss) / (nearMiss - farMiss);
    const guess = turn % 2 === 0 ? Math.round(line) : (near + far) >> 1;
    const middle = Math.min(far - 1, Math.max(near + 1, guess));
    const there = miss(middle);
    if (there === null) break;
    if (Math.sign(there) === Math.sign(atLow)) [near, nearMiss] = [middle, there];
    else [far, farMiss] = [middle, there];
  }
  return near > 0 && Math.abs(nearMiss) <= Math.abs(farMiss) ? near : far;
}

/** The smallest amount of either sign at which it is so: outward by strides, then by halving the stride in which it
 * becomes so. Null where it never is, or cannot be made any farther. */
export function nearestSo(
  isSo: (parts: number) => boolean | null,
  stride: number,
  most: number,
): number | null {
  const open = new Set([1, -1]);
  for (let outer = stride; open.size > 0; outer = Math.min(most, outer + stride)) {
    const found: number[] = [];
    for (const sign of [...open]) {
      const there = isSo(sign * outer);
      if (there === null) open.delete(sign);
      if (there !== true) continue;
      let [no, yes] = [Math.max(0, outer - stride), outer];
      while (yes - no > 1) {
        const middle = (no + yes) >> 1;
        if (isSo(sign * middle) === true) yes = middle;
        else no = middle;
      }
      found.push(sign * yes);
    }
    if (found.length > 0) return found.sort((a, b) => Math.abs(a) - Math.abs(b))[0];
    if (outer >= most) return null;
  }
  return null;
}
