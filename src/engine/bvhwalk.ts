/** Walks along a ray through a Bvh. One stack and one result record for the module: the walks do not nest. */
import { type Bvh, STACK_SIZE } from "./bvh.ts";

/** What the last `closestInBvh` found; read it before the next call. */
export const found = { t: 0, triangle: -1, u: 0, v: 0 };

/** Triangles reach this share of their size over their edges: a ray that runs exactly along an edge (a camera straight
 * before a symmetric face) must not slip between two of them. A millionth of a facet is under a nanometre of skin. */
const EDGE = 1e-7;

const stack = new Int32Array(STACK_SIZE);

/** Nearest hit with 0 < t < tMax; true where there is one, then described by `found`. */
export function closestInBvh(
  bvh: Bvh,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMax: number,
): boolean {
  return walk(bvh, ox, oy, oz, dx, dy, dz, tMax, false);
}

/** Whether anything stands on the ray before tMax. */
export function occludedInBvh(
  bvh: Bvh,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMax: number,
): boolean {
  return walk(bvh, ox, oy, oz, dx, dy, dz, tMax, true);
}

function walk(
  bvh: Bvh,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMax: number,
  anyHit: boolean,
): boolean {
  const { nodeBounds, nodeLink, triData } = bvh;
  if (triData.length === 0) return false;
  const ix = 1 / dx;
  const iy = 1 / dy;
  const iz = 1 / dz;
  let best = tMax;
  let hit = -1;
  let hitU = 0;
  let hitV = 0;
  let top = 0;
  let node = enter(nodeBounds, 0, ox, oy, oz, ix, iy, iz, best) < best ? 0 : -1;
  while (node >= 0) {
    const link = nodeLink[2 * node];
    const count = nodeLink[2 * node + 1];
    if (count > 0) {
      for (let i = link; i < link + count; i++) {
        const k = 9 * i;
        const e1x = triData[k + 3];
        const e1y = triData[k + 4];
        const e1z = triData[k + 5];
        const e2x = triData[k + 6];
        const e2y = triData[k + 7];
        const e2z = triData[k + 8];
        const px = dy * e2z - dz * e2y;
        const py = dz * e2x - dx * e2z;
        const pz = dx * e2y - dy * e2x;
        const det = e1x * px + e1y * py + e1z * pz;
        if (det === 0) continue;
        const inv = 1 / det;
        const sx = ox - triData[k];
        const sy = oy - triData[k + 1];
        const sz = oz - triData[k + 2];
        const u = (sx * px + sy * py + sz * pz) * inv;
        if (!(u >= -EDGE && u <= 1 + EDGE)) continue;
        const qx = sy * e1z - sz * e1y;
        const qy = sz * e1x - sx * e1z;
        const qz = sx * e1y - sy * e1x;
        const v = (dx * qx + dy * qy + dz * qz) * inv;
        if (!(v >= -EDGE && u + v <= 1 + EDGE)) continue;
        const t = (e2x * qx + e2y * qy + e2z * qz) * inv;
        if (t > 0 && t < best) {
          if (anyHit) return true;
          best = t;
          hit = i;
          hitU = u;
          hitV = v;
        }
      }
      node = top > 0 ? stack[--top] : -1;
      continue;
    }
    const near = enter(nodeBounds, 6 * link, ox, oy, oz, ix, iy, iz, best);
    const far = enter(nodeBounds, 6 * link + 6, ox, oy, oz, ix, iy, iz, best);
    if (near < best && far < best) {
      stack[top++] = near <= far ? link + 1 : link;
      node = near <= far ? link : link + 1;
    } else if (near < best) node = link;
    else if (far < best) node = link + 1;
    else node = top > 0 ? stack[--top] : -1;
  }
  if (hit < 0) return false;
  found.t = best;
  found.triangle = bvh.triId[hit];
  found.u = hitU;
  found.v = hitV;
  return true;
}

/** Where the ray enters the box (0 from inside), Infinity where it misses it.
 * A ray along a face of the box gives 0 * Infinity = NaN there: Math.min/max would spread it, these comparisons drop it. */
function enter(
  bounds: Float32Array,
  at: number,
  ox: number,
  oy: number,
  oz: number,
  ix: number,
  iy: number,
  iz: number,
  best: number,
): number {
  let lo = 0;
  let hi = best;
  let a = (bounds[at] - ox) * ix;
  let b = (bounds[at + 3] - ox) * ix;
  if (a > b) {
    if (b > lo) lo = b;
    if (a < hi) hi = a;
  } else {
    if (a > lo) lo = a;
    if (b < hi) hi = b;
  }
  a = (bounds[at + 1] - oy) * iy;
  b = (bounds[at + 4] - oy) * iy;
  if (a > b) {
    if (b > lo) lo = b;
    if (a < hi) hi = a;
  } else {
    if (a > lo) lo = a;
    if (b < hi) hi = b;
  }
  a = (bounds[at + 2] - oz) * iz;
  b = (bounds[at + 5] - oz) * iz;
  if (a > b) {
    if (b > lo) lo = b;
    if (a < hi) hi = a;
  } else {
    if (a > lo) lo = a;
    if (b < hi) hi = b;
  }
  return lo <= hi ? lo : Number.POSITIVE_INFINITY;
}
