/** A light's face as the quick face takes it: cut once, whatever way it will stand. */
import { cutFace, type Emitter, emitterArea, rimFraction } from "../engine/index.ts";

/** Four groups of parts (or one of one, where the face is a point or taken as a whole). Places in metres to the face's
 * right and up; shares of the light's energy that leave there. */
export interface QuickLight {
  readonly groups: number;
  /** where a group may stand for its parts, and how far from there it reaches */
  readonly groupRight_m: Float64Array;
  readonly groupUp_m: Float64Array;
  readonly groupShare: Float64Array;
  readonly groupReach_m: Float64Array;
  /** of the whole face, from its centre */
  readonly reach_m: number;
  /** parts of group g are [g * each, (g + 1) * each) */
  readonly each: number;
  readonly right_m: Float64Array;
  readonly up_m: Float64Array;
  readonly share: Float64Array;
  /** of one part; 0 for a bare point */
  readonly area_m2: number;
  /** many more places, for what the light sends where nothing hides it */
  readonly level: Pick<QuickLight, "right_m" | "up_m" | "share">;
  /** cos^m at LOBE_STEPS equal steps of the cosine, and once more */
  readonly lobe: Float64Array;
}

/** What a search cuts a face into, and where a mean over a cheek in half shadow counts to the last per cent. */
export const QUICK_RINGS = { search: 2, fine: 3 } as const;
/** Between two steps a lobe as narrow as a snoot's (m = 100) is off by 1e-3 of itself at most. */
export const LOBE_STEPS = 1024;
/** A part of a disc reaches so many times the radius of a disc of its area. */
const UNROUND = 1.3;
/** Rings of the cut that tells the light's level: within 0.1 % of closed forms one width away (engine tests). */
const LEVEL_RINGS = 6;
/** Light that is longer than this many times its width is cut into lengths, not quarters. */
const STRIP = 2;

interface Parts {
  readonly right_m: Float64Array;
  readonly up_m: Float64Array;
  readonly share: Float64Array;
  /** how far a part reaches from its middle */
  readonly reach_m: number;
}

/** Cuts a face into four groups of rings^2 parts each; one part in all for a point or for `rings` 0.
 * Domain    rings 0 to 8
 * Accuracy  docs/spec/quick.md [QF2] */
export function quickLight(e: Emitter, rings: number): QuickLight {
  const area = emitterArea(e);
  const lobe = Float64Array.from(
    { length: LOBE_STEPS + 2 },
    (_, k) => Math.min(1, k / LOBE_STEPS) ** e.exponent,
  );
  if (rings === 0 || e.shape === "point") {
    const parts = whole(Math.sqrt(area / Math.PI));
    return { ...parts, ...grouped(parts, 1), area_m2: area, level: level(e), lobe };
  }
  const count = 4 * rings * rings;
  const parts = e.shape === "rectangle" ? rectangle(e, rings) : quarters(e, rings, area / count);
  return { ...parts, ...grouped(parts, 4), area_m2: area / count, level: level(e), lobe };
}

function level(e: Emitter): Parts {
  if (e.shape === "point") return whole(0);
  return e.shape === "rectangle" ? rectangle(e, LEVEL_RINGS) : quarters(e, LEVEL_RINGS, 0);
}

function whole(reach_m: number): Parts {
  return { right_m: new Float64Array(1), up_m: new Float64Array(1), share: Float64Array.of(1), reach_m };
}

/** A group stands at the mean of its parts: right where some groups are hidden. */
function grouped(parts: Parts, groups: number) {
  const each = parts.share.length / groups;
  const groupRight_m = new Float64Array(groups);
  const groupUp_m = new Float64Array(groups);
  const groupShare = new Float64Array(groups);
  const groupReach_m = new Float64Array(groups);
  for (let g = 0; g < groups; g++) {
    const first = g * each;
    for (let k = first; k < first + each; k++) groupShare[g] += parts.share[k];
    groupRight_m[g] = mean(parts.right_m, parts.share, first, each);
    groupUp_m[g] = mean(parts.up_m, parts.share, first, each);
    for (let k = first; k < first + each; k++) {
      const away = Math.hypot(parts.right_m[k] - groupRight_m[g], parts.up_m[k] - groupUp_m[g]);
      groupReach_m[g] = Math.max(groupReach_m[g], away + parts.reach_m);
    }
  }
  let reach_m = 0;
  for (let g = 0; g < groups; g++)
    reach_m = Math.max(reach_m, Math.hypot(groupRight_m[g], groupUp_m[g]) + groupReach_m[g]);
  return { groups, each, groupRight_m, groupUp_m, groupShare, groupReach_m, reach_m };
}

function mean(at: Float64Array, share: Float64Array, first: number, each: number): number {
  let sum = 0;
  let all = 0;
  for (let k = first; k < first + each; k++) {
    sum += share[k] * at[k];
    all += share[k];
  }
  return sum / all;
}

/** Quarters of a disc or polygon: each has its part of every ring. */
function quarters(e: Emitter, rings: number, area_m2: number): Parts {
  const atOrigin = {
    ...e,
    centre: new Float64Array(3),
    right: Float64Array.of(1, 0, 0),
    up: Float64Array.of(0, 1, 0),
  };
  const { data } = cutFace(atOrigin, rings);
  const order: number[] = [];
  for (let quarter = 0; quarter < 4; quarter++)
    for (let ring = 0; ring < rings; ring++) {
      const parts = 2 * ring + 1;
      for (let k = 0; k < parts; k++) order.push(4 * ring * ring + quarter * parts + k);
    }
  const pick = (at: number) => Float64Array.from(order, (i) => data[4 * i + at]);
  const reach_m = UNROUND * Math.sqrt(area_m2 / Math.PI);
  return { right_m: pick(0), up_m: pick(1), share: pick(3), reach_m };
}

/** As near to squares as may be: quarters of a rectangle, or four lengths of a strip. */
function rectangle(e: Emitter, rings: number): Parts {
  const aspect = e.halfWidth / e.halfHeight;
  const across = aspect > STRIP ? 4 : aspect < 1 / STRIP ? 1 : 2;
  const columns = across * rings;
  const rows = (4 / across) * rings;
  const right_m = new Float64Array(columns * rows);
  const up_m = new Float64Array(columns * rows);
  const share = new Float64Array(columns * rows);
  let at = 0;
  let sum = 0;
  for (let g = 0; g < 4; g++)
    for (let k = 0; k < rings * rings; k++, at++) {
      const i = rings * (g % across) + (k % rings);
      const j = rings * Math.floor(g / across) + Math.floor(k / rings);
      right_m[at] = e.halfWidth * ((2 * i + 1) / columns - 1);
      up_m[at] = e.halfHeight * ((2 * j + 1) / rows - 1);
      share[at] = 2 ** (-e.edgeDrop * rimFraction(e, right_m[at], up_m[at]) ** 2);
      sum += share[at];
    }
  for (let k = 0; k < at; k++) share[k] /= sum;
  return { right_m, up_m, share, reach_m: Math.hypot(e.halfWidth / columns, e.halfHeight / rows) };
}
