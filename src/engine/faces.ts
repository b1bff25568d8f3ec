/** The face of a light, cut into parts of equal area. */
import { writeSobol } from "../math/index.ts";
import { type Emitter, rimFraction } from "./scene.ts";

/** Parts of a face in the world: xyz and the share of the light's energy that leaves there. */
export const PART_STRIDE = 4;

export interface FaceParts {
  readonly count: number;
  readonly data: Float64Array;
}

/** Cuts a face into about 4 rings^2 parts of equal area; the shares add up to exactly 1.
 * Discs and polygons are cut into rings of 4 (2 i + 1) parts, rectangles into a grid. A part stands at its
 * root-mean-square radius, which makes the second moment of the face, and so the far field, right at any count. */
export function cutFace(e: Emitter, rings: number): FaceParts {
  if (e.shape === "point") {
    return { count: 1, data: Float64Array.of(e.centre[0], e.centre[1], e.centre[2], 1) };
  }
  const count = 4 * rings * rings;
  const data = new Float64Array(PART_STRIDE * count);
  let at = 0;
  if (e.shape === "rectangle") {
    const n = 2 * rings;
    for (let j = 0; j < n; j++) {
      for (let i = 0; i < n; i++) {
        const x = e.halfWidth * ((2 * i + 1) / n - 1);
        const y = e.halfHeight * ((2 * j + 1) / n - 1);
        at = writePart(e, data, at, x, y);
      }
    }
  } else {
    for (let ring = 0; ring < rings; ring++) {
      const fraction = Math.sqrt((ring * ring + (ring + 1) * (ring + 1)) / 2) / rings;
      const parts = 4 * (2 * ring + 1);
      for (let k = 0; k < parts; k++) at = ringPart(e, data, at, fraction, (k + 0.5) / parts);
    }
  }
  let sum = 0;
  for (let i = 0; i < count; i++) sum += data[PART_STRIDE * i + 3];
  for (let i = 0; i < count; i++) data[PART_STRIDE * i + 3] /= sum;
  return { count, data };
}

/** Subsets in which the points of `scatterFace` may be taken, each as well spread as the whole. */
export const SUBSETS = 16;
/** Share of a turn that spreads points round a circle most evenly, and never in line. Source  Vogel 1979 */
const GOLDEN = (3 - Math.sqrt(5)) / 2;

/** `count` points of a face, a multiple of SUBSETS or fewer, for asking how much of it is seen: no two in line, so that an edge
 * across the face uncovers them one by one. Every SUBSETS-th of them is a set of its own. */
export function scatterFace(e: Emitter, count: number): FaceParts {
  if (e.shape === "point") return cutFace(e, 1);
  const data = new Float64Array(PART_STRIDE * count);
  const each = Math.max(1, count / SUBSETS);
  let at = 0;
  for (let i = 0; i < count; i++) {
    if (e.shape === "rectangle") {
      writeSobol(square, 0, (i % SUBSETS) * each + spreadOut(Math.floor(i / SUBSETS), each));
      const x = 2 * (square[0] + 0.5 / count) - 1;
      const y = 2 * (square[1] + 0.5 / count) - 1;
      at = writePart(e, data, at, x * e.halfWidth, y * e.halfHeight);
    } else at = ringPart(e, data, at, Math.sqrt((i + 0.5) / count), (0.5 + i * GOLDEN) % 1);
  }
  let sum = 0;
  for (let i = 0; i < count; i++) sum += data[PART_STRIDE * i + 3];
  for (let i = 0; i < count; i++) data[PART_STRIDE * i + 3] /= sum;
  return { count, data };
}

/** Bits turned round, so that every second or fourth of a subset is as well spread as the subset. */
function spreadOut(i: number, each: number): number {
  let out = 0;
  for (let bit = 1, value = each / 2; bit < each; bit *= 2, value /= 2) if (i & bit) out += value;
  return out;
}

const square = new Float64Array(2);

/** So near the rim do its points lie. */
const RIM = 0.98;
/** A disc's rim; one with corners is cut off at a corner first, and needs fewer. */
const RIM_POINTS = 12;
const CORNERED = 8;

/** A few points that tell whether a face is all seen or all hidden: round its rim, which is where things begin to cut it
 * off, and four inside. What cuts less than a segment between two of a disc's rim points takes 0.4 % of it. */
export function probeFace(e: Emitter): FaceParts {
  if (e.shape === "point") return cutFace(e, 1);
  // every corner has its point
  const corners = e.shape === "polygon" ? e.sides : 4;
  const round = e.shape === "disc" ? RIM_POINTS : corners * Math.ceil(CORNERED / corners);
  const data = new Float64Array(PART_STRIDE * (round + 4));
  let at = 0;
  for (let k = 0; k < round; k++) at = rimPoint(e, data, at, RIM, k / round);
  for (let k = 0; k < 4; k++) at = rimPoint(e, data, at, 0.5, (k + 0.5) / 4);
  return { count: round + 4, data };
}

function rimPoint(e: Emitter, data: Float64Array, at: number, fraction: number, turn: number): number {
  if (e.shape !== "rectangle") return ringPart(e, data, at, fraction, turn);
  // from corner to corner, as far along each side as the turn says
  const along = 4 * turn;
  const side = Math.floor(along);
  const t = 2 * (along - side) - 1;
  const x = [t, 1, -t, -1][side];
  const y = [-1, t, 1, -t][side];
  return writePart(e, data, at, fraction * x * e.halfWidth, fraction * y * e.halfHeight);
}

/** The part `turn` (0 to 1) of the way round, at `fraction` of the way to the rim. */
function ringPart(e: Emitter, data: Float64Array, at: number, fraction: number, turn: number): number {
  if (e.shape === "disc") {
    const a = 2 * Math.PI * turn;
    return writePart(e, data, at, fraction * e.halfWidth * Math.cos(a), fraction * e.halfWidth * Math.sin(a));
  }
  // equal steps along the perimeter cut a regular polygon into equal areas
  const along = turn * e.sides;
  const side = Math.floor(along);
  const normal = Math.PI / 2 + (2 * Math.PI * side) / e.sides;
  const reach = (2 * (along - side) - 1) * e.halfWidth * Math.tan(Math.PI / e.sides);
  const x = e.halfWidth * Math.cos(normal) - reach * Math.sin(normal);
  const y = e.halfWidth * Math.sin(normal) + reach * Math.cos(normal);
  return writePart(e, data, at, fraction * x, fraction * y);
}

function writePart(e: Emitter, data: Float64Array, at: number, x: number, y: number): number {
  for (let k = 0; k < 3; k++) data[at + k] = e.centre[k] + x * e.right[k] + y * e.up[k];
  const s = rimFraction(e, x, y);
  data[at + 3] = 2 ** (-e.edgeDrop * s * s);
  return at + PART_STRIDE;
}
