/** The face's mesh, fine enough to carry shadows: the landmark model's own points under a smooth surface. */
import {
  CANONICAL_TRIANGLES,
  CANONICAL_VERTICES,
  type Cage,
  fitCage,
  regionOf,
  subdivide,
} from "../figure/index.ts";
import { typicalSkin } from "./surface-skin.ts";

/** Each doubles the points along a line: 468 become 7,259. */
const LEVELS = 2;
/** Of drawing the smooth surface through the points: as for the figure's head, but less, since seen points are uneven. */
const FIT_ROUNDS = 4;
export const FACE_POINTS = CANONICAL_VERTICES.length / 3;

/** What is the same in all faces. */
export interface FaceTemplate {
  readonly count: number;
  readonly triangles: Uint32Array;
  /** xyz on the canonical face, centimetres */
  readonly places: Float64Array;
  readonly regions: Uint8Array;
  readonly reflectance: Float64Array;
  readonly trust: Float64Array;
}

let made: FaceTemplate | null = null;

export function faceTemplate(): FaceTemplate {
  if (made) return made;
  const { values: places, triangles } = smoothed(Float64Array.from(CANONICAL_VERTICES));
  const count = places.length / 3;
  const regions = new Uint8Array(count);
  const reflectance = new Float64Array(count);
  const trust = new Float64Array(count);
  for (let v = 0; v < count; v++) {
    const [x, y, z] = places.subarray(3 * v, 3 * v + 3);
    regions[v] = regionOf(x, y, z);
    const skin = typicalSkin(x, y, z);
    reflectance[v] = skin.reflectance;
    trust[v] = skin.trust;
  }
  made = { count, triangles, places, regions, reflectance, trust };
  return made;
}

/** The smooth surface through the 468 points.
 * Shape   xyz per point in and out, in any axes; the given points come first */
export function smoothed(points: Float64Array): Cage {
  const triangles = Uint32Array.from(CANONICAL_TRIANGLES);
  const tags = new Uint8Array(triangles.length / 3);
  let cage = fitCage({ values: points, stride: 3, triangles, tags }, FIT_ROUNDS);
  for (let level = 0; level < LEVELS; level++) cage = subdivide(cage);
  return cage;
}
