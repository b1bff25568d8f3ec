/** The face of a light, cut into parts of equal area. */
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
