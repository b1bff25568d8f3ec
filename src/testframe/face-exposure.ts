/** The light on the samples of a face, as the picture shows it, filled in where the camera sees no skin. */
import { fitShares } from "./face-fit.ts";
import { litBy } from "./face-lit.ts";
import { type FaceMask, faceMask } from "./face-mask.ts";
import { shineGain } from "./face-shine.ts";
import type { LinearPicture, PhotoLight, SeenFace } from "./types.ts";

export interface FaceExposure {
  readonly mask: FaceMask;
  /** luminance over typical reflectance: what plain skin like the cheeks' would show there; the picture's unit */
  readonly exposure: Float64Array;
  /** the same, leaning a little toward the fitted light: what a pattern is told from */
  readonly leaning: Float64Array;
  /** share of a sample that is measured, 0 (all filled in) to 1 */
  readonly measured: Float64Array;
  /** what a receptor turned to the main light would show; null without a light fit */
  readonly arriving: number | null;
  /** luminance that comes from all round */
  readonly even: number;
  /** glints were told from skin and taken out */
  readonly isMatte: boolean;
  /** the least it can be, where the picture clips; 0 elsewhere */
  readonly atLeast: Float64Array;
}

/** A point without weight that is this bright has clipped. */
const CLIPS = 0.85;
/** A sample of which less than this is seen is filled in. */
const LEAST_SEEN = 0.2;
/** Rounds in which what lies nearby spreads over what is filled in; a centimetre or two. */
const SPREAD_ROUNDS = 40;
/** What is filled in may differ from the fitted light by so much, as the skin beside it does: a stop either way. */
const MOST_OFF = 1;
const DARKEST = 1e-9;

/** `scene` turns the file's linear levels into the scene's.
 * Errors  none; samples that are neither seen nor lit by a fitted light are NaN */
export function faceExposure(
  seen: SeenFace,
  picture: LinearPicture,
  light: PhotoLight | null,
  scene: (linear: number) => number,
): FaceExposure {
  const mask = faceMask();
  const { count } = mask.samples;
  const levels = seen.luminance.map(scene);
  const plain = gather(mask, seen, levels, null);
  if (!light) return { mask, ...plain, leaning: plain.exposure, arriving: null, even: 0, isMatte: false };
  const parts = [new Float64Array(count).fill(1), litBy(mask, light.inHead)];
  const sharesOf = ({ exposure, measured }: Gathered) =>
    fitShares(
      parts,
      exposure,
      measured.map((m, s) => (m > 0 ? m * mask.samples.area[s] : 0)),
    );
  let found = plain;
  let shares = sharesOf(found);
  const gain = shineGain({ ...seen, luminance: levels }, light, picture, shares[0]);
  if (gain) {
    found = gather(mask, seen, levels, gain);
    shares = sharesOf(found);
  }
  const fitted = Float64Array.from(found.exposure, (_, s) =>
    parts.reduce((sum, part, k) => sum + shares[k] * part[s], 0),
  );
  fillIn(mask, found, fitted);
  return {
    mask,
    ...found,
    leaning: leaning(found, fitted),
    arriving: shares[1],
    even: shares[0],
    isMatte: gain !== null,
  };
}

/** What is measured leans a little toward what the fitted light gives: skin that is darker there for itself, a brow or a
 * mole, opens or closes less. */
function leaning({ exposure, measured }: Gathered, fitted: Float64Array): Float64Array {
  return exposure.map((x, s) =>
    measured[s] > 0 && fitted[s] > 0 && x > 0 ? x * (fitted[s] / x) ** LEAN : x,
  );
}

/** Of the way to the fitted light, in stops. Of unknown rendered heads the pattern was right in 64 of 86 with none, in 68
 * with this; with more, second lights are lost. */
const LEAN = 0.3;

interface Gathered {
  readonly exposure: Float64Array;
  readonly measured: Float64Array;
  /** the least it can be, where the picture clips; 0 elsewhere */
  readonly atLeast: Float64Array;
}

/** Means over the points at each sample, `gain` taken out of what they show. */
function gather(mask: FaceMask, seen: SeenFace, levels: Float64Array, gain: Float64Array | null): Gathered {
  const { count } = mask.samples;
  const exposure = new Float64Array(count).fill(Number.NaN);
  const measured = new Float64Array(count);
  const atLeast = new Float64Array(count);
  for (let s = 0; s < count; s++) {
    let sum = 0;
    let weights = 0;
    let all = 0;
    let over = 0;
    let overSum = 0;
    for (let k = mask.first[s]; k < mask.first[s + 1]; k++) {
      const v = mask.point[k];
      const room = mask.share[k] * seen.areas[v];
      const matte = levels[v] / (seen.reflectance[v] * (gain ? gain[v] : 1));
      all += room;
      if (seen.weights[v] > 0) {
        sum += room * seen.weights[v] * matte;
        weights += room * seen.weights[v];
      } else if (seen.luminance[v] > CLIPS) {
        overSum += room * matte;
        over += room;
      }
    }
    measured[s] = all > 0 ? weights / all : 0;
    if (over > LEAST_SEEN * all) atLeast[s] = overSum / over;
    if (measured[s] >= LEAST_SEEN) exposure[s] = sum / weights;
    else measured[s] = 0;
  }
  return { exposure, measured, atLeast };
}

/** Where skin is not seen the fitted light stands in, as much brighter or darker than fitted as the skin nearby is. */
function fillIn(mask: FaceMask, { exposure, measured, atLeast }: Gathered, fitted: Float64Array) {
  const { count, offset, neighbour } = mask.samples;
  const off = new Float64Array(count);
  for (let s = 0; s < count; s++)
    if (measured[s] > 0)
      off[s] = clamp(Math.log2(Math.max(exposure[s], DARKEST) / Math.max(fitted[s], DARKEST)));
  const next = off.slice();
  for (let round = 0; round < SPREAD_ROUNDS; round++) {
    for (let s = 0; s < count; s++) {
      if (measured[s] > 0) continue;
      let sum = 0;
      for (let k = offset[s]; k < offset[s + 1]; k++) sum += off[neighbour[k]];
      // a little less with each step away
      next[s] = (FADING * sum) / Math.max(1, offset[s + 1] - offset[s]);
    }
    off.set(next);
  }
  for (let s = 0; s < count; s++)
    if (!(measured[s] > 0)) exposure[s] = Math.max(atLeast[s], fitted[s] * 2 ** off[s]);
}

const FADING = 0.9;

function clamp(stops: number): number {
  return Math.min(MOST_OFF, Math.max(-MOST_OFF, stops));
}
