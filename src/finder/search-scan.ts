/** Spots all round the front of the head, spread evenly, and small steps from the best of them. */
import type { Span, Want } from "../plan/index.ts";
import { type KeepGoing, step } from "../reading/progress.ts";
import { JUDGED, type Judged, missOf } from "./search-judge.ts";
import type { Spot } from "./search-place.ts";
import type { SetUpTrier, Tried } from "./search-try.ts";

/** From and to, of the size of the azimuth; both sides are looked at unless one is asked for. */
interface Region {
  readonly azimuth: readonly [number, number];
  readonly elevation: readonly [number, number];
}

/** Where lights that draw a pattern stand, degrees, with much to spare: only where the search begins. */
const REGIONS: Readonly<Record<NonNullable<Want["pattern"]> | "any" | "anywhere", Region>> = {
  anywhere: { azimuth: [0, 180], elevation: [-60, 75] },
  any: { azimuth: [0, 95], elevation: [-15, 70] },
  flat: { azimuth: [0, 50], elevation: [-30, 45] },
  butterfly: { azimuth: [0, 30], elevation: [5, 75] },
  loop: { azimuth: [5, 70], elevation: [-10, 70] },
  rembrandt: { azimuth: [15, 85], elevation: [-15, 75] },
  split: { azimuth: [45, 125], elevation: [-40, 75] },
  rim: { azimuth: [80, 180], elevation: [-30, 80] },
  under: { azimuth: [0, 90], elevation: [-85, 5] },
};

/** Inverse powers of the root of x^5 = x + 1: four coordinates that fill a box evenly.
 * Source  Roberts 2018, as R2 */
const R4 = [1, 2, 3, 4].map((k) => 1.1673039782614187 ** -k);

export interface ScanSize {
  readonly spots: number;
  /** how many are refined, and in how many tries each */
  readonly refined: number;
  readonly tries: number;
  readonly farthestAside_m: number;
  readonly nearest_m: number;
  readonly farthest_m: number;
}

/** The best spots, best first, and those that would be best were one wish left out. */
export function scan(trier: SetUpTrier, size: ScanSize, seed: number, keepGoing: KeepGoing): Tried[] {
  const { want } = trier.search;
  const found: Tried[] = [];
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < size.spots; i++) {
    if (i % ASK_EVERY === 0) step(keepGoing, (0.5 * i) / size.spots);
    const spot = spotAt(want, i + seed * size.spots, size, found.length === 0 && i > size.spots / 2);
    const tried = trier.at(spot, least + HOPELESS);
    if (tried === null) continue;
    found.push(tried);
    least = Math.min(least, tried.rank);
  }
  const starts = starters(found, size.refined);
  const best = starts.map((start, i) => {
    step(keepGoing, 0.5 + (0.5 * i) / starts.length);
    return refine(trier, start, size.tries, size.farthestAside_m > 0);
  });
  return keepers(best, want);
}

const ASK_EVERY = 16;
/** So much worse than the best so far is not looked at further. */
const HOPELESS = 6;

/** Bounce pulls what arrives away from where the light stands by so much. */
const PULLED_DEG = 8;

/** Where a light is looked for whose direction is asked; null where that is open to a side. */
function aimedAt(span: Span | null): readonly [number, number] | null {
  if (span === null || span.from === null || span.to === null) return null;
  return [span.from - PULLED_DEG, span.to + PULLED_DEG];
}

/** Anywhere where nothing can stand as the pattern asks: the nearest miss is told too. */
function spotAt(want: Want, i: number, size: ScanSize, isAnywhere: boolean): Spot {
  const { farthestAside_m, nearest_m, farthest_m } = size;
  const region = REGIONS[isAnywhere ? "anywhere" : (want.pattern ?? "any")];
  const azimuth = isAnywhere ? null : aimedAt(want.azimuth);
  const elevation = (isAnywhere ? null : aimedAt(want.elevation)) ?? region.elevation;
  const [u, v, w, x] = R4.map((r) => (0.5 + i * r) % 1);
  // both sides in turn
  const sign = want.litSide === "left" ? 1 : want.litSide === "right" ? -1 : i % 2 === 0 ? 1 : -1;
  return {
    azimuth_deg:
      azimuth === null
        ? sign * (region.azimuth[0] + u * (region.azimuth[1] - region.azimuth[0]))
        : azimuth[0] + u * (azimuth[1] - azimuth[0]),
    elevation_deg: elevation[0] + v * (elevation[1] - elevation[0]),
    distance_m: nearest_m * (farthest_m / nearest_m) ** w,
    past_m: farthestAside_m * (2 * x - 1),
  };
}

/** The best of each side and each doubling of distance in turn: what is refined begins in different places. */
function starters(found: readonly Tried[], count: number): Tried[] {
  const bins = new Map<string, Tried[]>();
  for (const tried of [...found].sort((a, b) => a.rank - b.rank)) {
    const key = binOf(tried);
    const bin = bins.get(key);
    if (bin === undefined) bins.set(key, [tried]);
    else bin.push(tried);
  }
  const out: Tried[] = [];
  for (let round = 0; out.length < count; round++) {
    const row = [...bins.values()].flatMap((bin) => bin.slice(round, round + 1));
    if (row.length === 0) break;
    out.push(...row.sort((a, b) => a.rank - b.rank).slice(0, count - out.length));
  }
  return out;
}

/** Set-ups of one bin are much alike: the same side, and within a doubling of distance. */
export function binOf({ spot }: Tried): string {
  return `${spot.azimuth_deg >= 0} ${Math.floor(Math.log2(spot.distance_m))}`;
}

const FIRST_DEG = 8;
const FIRST_FAR = 0.3;
const FIRST_ASIDE_M = 0.2;
/** Steps this small change nothing that is told. */
const SMALLEST = 1 / 16;

/** Steps along each way there is, halved where none helps. */
export function refine(trier: SetUpTrier, from: Tried, tries: number, feathers: boolean): Tried {
  let best = from;
  let scale = 1;
  for (let left = tries; left > 0 && scale >= SMALLEST; ) {
    let improved = false;
    for (const spot of stepsFrom(best.spot, scale, feathers)) {
      left--;
      const tried = trier.at(spot, best.rank);
      if (tried !== null && tried.rank < best.rank - 1e-9) {
        best = tried;
        improved = true;
      }
    }
    if (!improved) scale /= 2;
  }
  return best;
}

function stepsFrom(spot: Spot, scale: number, feathers: boolean): Spot[] {
  const out: Spot[] = [];
  for (const sign of [1, -1]) {
    const by = sign * scale;
    out.push({ ...spot, azimuth_deg: spot.azimuth_deg + by * FIRST_DEG });
    out.push({ ...spot, elevation_deg: Math.max(-89, Math.min(89, spot.elevation_deg + by * FIRST_DEG)) });
    out.push({ ...spot, distance_m: Math.max(0.25, spot.distance_m * 2 ** (by * FIRST_FAR)) });
    if (feathers) out.push({ ...spot, past_m: spot.past_m + by * FIRST_ASIDE_M });
  }
  return out;
}

const KEPT = 4;

/** The best of each bin, and for every wish that is missed the best that misses no other. */
function keepers(best: readonly Tried[], want: Want): Tried[] {
  const sorted = [...best].sort((a, b) => a.rank - b.rank);
  const out: Tried[] = [];
  const bins = new Set<string>();
  for (const tried of sorted) {
    if (out.length >= KEPT || bins.has(binOf(tried))) continue;
    bins.add(binOf(tried));
    out.push(tried);
  }
  for (const wish of JUDGED) {
    const least = leastWithout(sorted, want, wish);
    if (least !== null && !out.includes(least)) out.push(least);
  }
  return out;
}

/** The cheapest where one wish is left out; null where nothing misses it. */
export function leastWithout<T extends Pick<Tried, "seen" | "cost">>(
  list: readonly T[],
  want: Want,
  wish: Judged,
): T | null {
  let best: T | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const tried of list) {
    const miss = missOf(wish, want, tried.seen) ?? 0;
    if (miss > 0 && tried.cost - miss < least) [best, least] = [tried, tried.cost - miss];
  }
  return best;
}
