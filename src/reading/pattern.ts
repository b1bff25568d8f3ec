/** The pattern that light draws on a face, from the connected lit and shadowed regions of the face itself.
 * The rule in words and drawings: docs/patterns.md; how its sizes were settled: docs/decisions/0005. */
import { type FaceMarks, type FaceParts, faceParts, meanOver, PART } from "./face-parts.ts";
import type { FaceSamples } from "./face-samples.ts";
import type { Pattern } from "./types.ts";

export interface PatternReading {
  readonly pattern: Pattern;
  /** the other name, where a quarter of a stop in the limit changes it */
  readonly between: Pattern | null;
  readonly litSide: "left" | "right" | "even";
  readonly litCheek: number;
  readonly shadowCheek: number;
  readonly ratioStops: number | null;
}

/** Under this nothing is read, lx.s (plan-format: accuracy floor). */
export const DARK = 0.001;
/** Cheeks closer than this are even, stops (plan-format). */
const EVEN_STOPS = 0.15;
/** The floor of the face is its 5th percentile, but not more than 6 stops under the lit cheek. */
const FLOOR_SHARE = 0.05;
const DEEPEST_STOPS = 6;
/** Halvings of those stops: to a ten-thousandth. */
const FLOOR_ROUNDS = 16;
/** Less than a stop from floor to lit cheek: nothing to draw a pattern with. */
const FLAT_RATIO = 2;
/** A name that changes when the limit moves by so much, stops, lies between two. */
const BETWEEN_STOPS = 0.25;
/** A lit patch smaller than this is not one a person sees on a cheek, m2 (0.6 cm2: 8 mm square). */
const VISIBLE_PATCH = 0.6e-4;
/** Nor is a shadow under the nose smaller than this, seen from straight ahead (1.5 cm2: half a centimetre high over
 * the width of a nose). */
const VISIBLE_SHADOW = 1.5e-4;
/** Skin of the nearer half that looks straight ahead and gets less than this share of what a receptor turned to the
 * light gets, three stops, lies in shadow: the light stands behind the face. */
const BEHIND_SHARE = 1 / 8;
/** Skin that looks down gets this much more than skin that looks up: a level light gives both the same, within what
 * brow and lip take away from either. */
const UNDER_SHARE = 1.25;
/** A nose's shadow that is twice as large on one side as on the other goes aside; a more even one lies under it. */
const ASIDE = 2;

/** Shape   exposure: one number a sample, lx.s; marks: of the same head
 * Units   lx.s; `arriving` the length of the light vector at the bridge of the nose, the person taken away;
 *   `shiftStops` moves the limit between lit and shadow, to see how firm a name is
 * Errors  none; nothing there reads as dark
 * Source  published-checks section 9, in the words of docs/patterns.md */
export function readPattern(
  s: FaceSamples,
  exposure: Float64Array,
  marks: FaceMarks,
  arriving: number,
  shiftStops = 0,
): PatternReading {
  const parts = faceParts(s, marks);
  const left = meanOver(s, exposure, parts.leftCheek);
  const right = meanOver(s, exposure, parts.rightCheek);
  const cheeks = readCheeks(left, right);
  const { litCheek, shadowCheek } = cheeks;
  const floor = floorOf(s, exposure, parts.totalArea, litCheek);
  const face: Face = { s, parts, exposure, litCheek, shadowCheek, floor, near: left >= right ? 0 : 1 };
  const pattern = nameAt(face, arriving, shiftStops);
  return {
    pattern,
    between: otherName(face, arriving, shiftStops, pattern),
    ...cheeks,
  };
}

/** Of the means over the own left and the own right cheek, lx.s. */
export function readCheeks(left: number, right: number): Omit<PatternReading, "pattern" | "between"> {
  const litCheek = Math.max(left, right);
  const shadowCheek = Math.min(left, right);
  const ratioStops = shadowCheek < DARK ? null : Math.log2(litCheek / shadowCheek);
  const even = litCheek < DARK || (ratioStops !== null && ratioStops < EVEN_STOPS);
  return { litSide: even ? "even" : left > right ? "left" : "right", litCheek, shadowCheek, ratioStops };
}

interface Face {
  readonly s: FaceSamples;
  readonly parts: FaceParts;
  readonly exposure: Float64Array;
  readonly litCheek: number;
  readonly shadowCheek: number;
  readonly floor: number;
  /** 0 where the own left is the brighter side, else 1 */
  readonly near: 0 | 1;
}

/** Found by halving, so that nothing is sorted. */
function floorOf(s: FaceSamples, exposure: Float64Array, totalArea: number, litCheek: number): number {
  let low = -DEEPEST_STOPS;
  let high = 0;
  for (let round = 0; round < FLOOR_ROUNDS; round++) {
    const middle = (low + high) / 2;
    const level = litCheek * 2 ** middle;
    let under = 0;
    for (let i = 0; i < s.count; i++) if (exposure[i] <= level) under += s.area[i];
    if (under >= FLOOR_SHARE * totalArea) high = middle;
    else low = middle;
  }
  return litCheek * 2 ** low;
}

function nameAt(face: Face, arriving: number, shiftStops: number): Pattern {
  const { s, exposure, parts, litCheek, floor, near } = face;
  const shift = 2 ** shiftStops;
  if (litCheek < DARK) return "dark";
  if (meanOver(s, exposure, parts.ahead[near]) < BEHIND_SHARE * shift * arriving) return "rim";
  if (litCheek / floor < FLAT_RATIO) return "flat";
  if (meanOver(s, exposure, parts.looksDown) > UNDER_SHARE * meanOver(s, exposure, parts.looksUp))
    return "under";
  return ofTheShadows(face, Math.sqrt(litCheek * floor) * shift);
}

function otherName(face: Face, arriving: number, shiftStops: number, now: Pattern): Pattern | null {
  for (const by of [-BETWEEN_STOPS, BETWEEN_STOPS]) {
    const other = nameAt(face, arriving, shiftStops + by);
    if (other !== now) return other;
  }
  if (now !== "loop") return null;
  nameAt(face, arriving, shiftStops);
  return shadowUnderNose(face, 0) + shadowUnderNose(face, 1) < VISIBLE_SHADOW ? "flat" : null;
}

/** Which samples are lit, for one limit after the other. */
let lit = new Uint8Array(0);
let visited = new Uint8Array(0);
let todo = new Uint16Array(0);

function ofTheShadows(face: Face, limit: number): Pattern {
  const { s, exposure, near } = face;
  if (lit.length < s.count) {
    lit = new Uint8Array(s.count);
    visited = new Uint8Array(s.count);
    todo = new Uint16Array(s.count);
  }
  for (let i = 0; i < s.count; i++) lit[i] = exposure[i] > limit ? 1 : 0;
  const far = near === 0 ? 1 : 0;
  const patch = patchOn(face, far);
  if (patch === "none") return "split";
  // under a light from straight above both cheeks end in shadow alike: that triangle is nobody's
  if (patch === "closed" && patchOn(face, near) !== "closed") return "rembrandt";
  return underNose(face, far);
}

/** The largest joined patch of light on one cheek: none, one that ends above the mouth's corner, or one that runs on
 * past it. */
function patchOn({ s, parts }: Face, side: 0 | 1): "none" | "closed" | "open" {
  const bits = parts.bits[side];
  visited.fill(0, 0, s.count);
  let best: "none" | "closed" | "open" = "none";
  let bestArea = VISIBLE_PATCH;
  for (let start = 0; start < s.count; start++) {
    if (visited[start] || !lit[start] || !(bits[start] & PART.cheek)) continue;
    let cheek = 0;
    let past = 0;
    let waiting = 1;
    todo[0] = start;
    visited[start] = 1;
    while (waiting > 0) {
      const i = todo[--waiting];
      if (bits[i] & PART.cheek) cheek += s.area[i];
      past |= bits[i] & PART.past;
      for (let k = s.offset[i]; k < s.offset[i + 1]; k++) {
        const j = s.neighbour[k];
        if (visited[j] || !lit[j] || !(bits[j] & PART.ground)) continue;
        visited[j] = 1;
        todo[waiting++] = j;
      }
    }
    if (cheek > bestArea) {
      bestArea = cheek;
      best = past ? "open" : "closed";
    }
  }
  return best;
}

/** Where the shadow under the nose lies: aside or in the middle; where there is none, whether the cheeks differ. */
function underNose(face: Face, far: 0 | 1): Pattern {
  const aside = shadowUnderNose(face, far);
  const other = shadowUnderNose(face, far === 0 ? 1 : 0);
  if (aside + other < VISIBLE_SHADOW) return levelPattern(face);
  return aside > ASIDE * other ? "loop" : "butterfly";
}

/** A level light throws no shadow down: cheeks within a stop are flat. Where they differ more, the shadow goes aside,
 * for which the book has no name of its own: loop comes nearest. */
function levelPattern({ shadowCheek, litCheek }: Face): Pattern {
  return litCheek < FLAT_RATIO * shadowCheek ? "flat" : "loop";
}

function shadowUnderNose({ s, parts }: Face, side: 0 | 1): number {
  const bits = parts.bits[side];
  let area = 0;
  for (let i = 0; i < s.count; i++) if (!lit[i] && bits[i] & PART.underNose) area += parts.frontArea[i];
  return area;
}
