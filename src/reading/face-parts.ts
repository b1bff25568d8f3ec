/** What of a face a pattern is told by: which samples belong to which part. Worked out once for each set of samples. */
import { REGION } from "../figure/index.ts";
import type { FaceSamples } from "./face-samples.ts";

export interface FaceMarks {
  readonly noseBridge: readonly [number, number, number];
  readonly noseTip: readonly [number, number, number];
  readonly upperLip: readonly [number, number, number];
}

/** Lists of sample numbers. */
export interface FaceParts {
  readonly totalArea: number;
  /** area of each sample as seen from straight ahead, m2 */
  readonly frontArea: Float64Array;
  readonly leftCheek: Uint16Array;
  readonly rightCheek: Uint16Array;
  /** skin that looks down and skin that looks up */
  readonly looksDown: Uint16Array;
  readonly looksUp: Uint16Array;
  /** per side (0 own left, 1 own right): skin that looks straight ahead */
  readonly ahead: readonly [Uint16Array, Uint16Array];
  /** per side and sample, bits of PART */
  readonly bits: readonly [Uint8Array, Uint8Array];
}

/** Below the eyes on one half, without the nose: where a patch of light on a cheek is looked for (`ground`); of it the
 * cheek itself (`cheek`) and what lies past the corner of the mouth (`past`). From the tip of the nose down to the lip
 * (`underNose`). */
export const PART = { ground: 1, cheek: 2, past: 4, underNose: 8 } as const;

/** Skin looks up or down from this slope on. */
const SLOPE = 0.3;
/** Within 30 degrees of where the nose points: the cosine. */
const AHEAD = 0.866;
/** Eyes begin so far under the bridge of the nose, metres. */
const UNDER_BRIDGE = 0.008;
/** A half reaches so far over the middle, so that its patches join there. */
const OVER_MIDDLE = 0.004;
/** The cheek begins beside the nose, so far from the middle. */
const CHEEK_FROM = 0.016;
/** The corners of the mouth lie so far under the upper lip's edge: what goes on below runs past them. */
const PAST_MOUTH = 0.007;
/** A nose's shadow is looked for so far to either side: to the corners of the mouth. */
const ROUND_NOSE = 0.034;

const made = new WeakMap<FaceSamples, FaceParts>();

export function faceParts(s: FaceSamples, marks: FaceMarks): FaceParts {
  let parts = made.get(s);
  if (!parts) {
    parts = cut(s, marks);
    made.set(s, parts);
  }
  return parts;
}

function cut(s: FaceSamples, marks: FaceMarks): FaceParts {
  const eyeLine = marks.noseBridge[2] - UNDER_BRIDGE;
  const mouth = marks.upperLip[2];
  const noseTip = marks.noseTip[2];
  const frontArea = s.area.map((area, i) => area * Math.max(0, s.normal[3 * i]));
  const bits = [new Uint8Array(s.count), new Uint8Array(s.count)] as const;
  let totalArea = 0;
  for (let i = 0; i < s.count; i++) {
    totalArea += s.area[i];
    const y = s.position[3 * i + 1];
    const z = s.position[3 * i + 2];
    const nose = s.region[i] === REGION.nose;
    for (const side of [0, 1] as const) {
      const aside = side === 0 ? y : -y;
      let b = 0;
      if (!nose && z < eyeLine && aside > -OVER_MIDDLE) {
        b |= PART.ground;
        if (z > mouth && aside > CHEEK_FROM) b |= PART.cheek;
        if (z < mouth - PAST_MOUTH) b |= PART.past;
      }
      if (z < noseTip && z > mouth && aside > 0 && aside < ROUND_NOSE) b |= PART.underNose;
      bits[side][i] = b;
    }
  }
  const looksAhead = (i: number) => s.normal[3 * i] > AHEAD;
  return {
    totalArea,
    frontArea,
    leftCheek: those(s, (i) => s.region[i] === REGION.leftCheek),
    rightCheek: those(s, (i) => s.region[i] === REGION.rightCheek),
    looksDown: those(s, (i) => s.normal[3 * i + 2] < -SLOPE),
    looksUp: those(s, (i) => s.normal[3 * i + 2] > SLOPE),
    ahead: [
      those(s, (i) => looksAhead(i) && s.position[3 * i + 1] > 0),
      those(s, (i) => looksAhead(i) && s.position[3 * i + 1] < 0),
    ],
    bits,
  };
}

function those(s: FaceSamples, wanted: (i: number) => boolean): Uint16Array {
  return Uint16Array.from({ length: s.count }, (_, i) => i).filter(wanted);
}

export function meanOver(s: FaceSamples, values: Float64Array, list: Uint16Array): number {
  let sum = 0;
  let area = 0;
  for (let k = 0; k < list.length; k++) {
    const i = list[k];
    sum += s.area[i] * values[i];
    area += s.area[i];
  }
  return area > 0 ? sum / area : 0;
}
