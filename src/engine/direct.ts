/** Light that comes straight from the face of a light, per lumen-second of its output. */
import { intensityPerLumen } from "./distribution.ts";
import { cutFace, type FaceParts, PART_STRIDE, probeFace, SUBSETS, scatterFace } from "./faces.ts";
import type { Emitter } from "./scene.ts";
import type { Tracer } from "./tracer.ts";
import { FAN } from "./walker.ts";

/** What arrives at a point: `sum` is the integral of L dw, so the scalar is sum / 4; the vector points to where light comes from. */
export interface FieldAtPoint {
  sum: number;
  x: number;
  y: number;
  z: number;
}

/** What each ray of the fan that is being put together would bring. */
const brings = new Float64Array(FAN);
/** What the parts looked at last would bring together with nothing between, and the energy that they stand for. */
const offered = { all: 0, weight: 0 };

/** Exposure of a flat receptor from every `step`th part, lx.s per lm.s; `shadows` false skips the rays.
 * Source  cosine law; every part radiates (m + 1) / (2 pi) cos^m, physics.md
 * Accuracy a count of rings against closed forms: reference/section5.checks.ts */
export function directFlat(
  tracer: Tracer,
  light: number,
  parts: FaceParts,
  first: number,
  step: number,
  px: number,
  py: number,
  pz: number,
  nx: number,
  ny: number,
  nz: number,
  shadows = true,
): number {
  const rays = offer(tracer, light, parts, first, step, px, py, pz, nx, ny, nz, shadows);
  // a subset of the parts stands for all of them
  if (!(offered.weight > 0)) return 0;
  if (!shadows) return offered.all / offered.weight;
  const { weight } = offered;
  return rays > 0 ? sumSeen(tracer, rays, px, py, pz, light) / weight : 0;
}

/** How much of what every `step`th part would bring arrives, 0 to 1; 1 where nothing could arrive at all. */
export function shareSeen(
  tracer: Tracer,
  light: number,
  parts: FaceParts,
  first: number,
  step: number,
  px: number,
  py: number,
  pz: number,
  nx: number,
  ny: number,
  nz: number,
): number {
  const rays = offer(tracer, light, parts, first, step, px, py, pz, nx, ny, nz, true);
  const { all } = offered;
  return all > 0 ? sumSeen(tracer, rays, px, py, pz, light) / all : 1;
}

/** Sums up what the parts would bring into `offered`, and aims a ray at each that would bring anything; how many. */
function offer(
  tracer: Tracer,
  light: number,
  parts: FaceParts,
  first: number,
  step: number,
  px: number,
  py: number,
  pz: number,
  nx: number,
  ny: number,
  nz: number,
  aiming: boolean,
): number {
  const e = tracer.scene.emitters[light];
  const f = e.forward;
  const d = parts.data;
  let all = 0;
  let weight = 0;
  let rays = 0;
  for (let i = first; i < parts.count; i += step) {
    const k = PART_STRIDE * i;
    weight += d[k + 3];
    const x = d[k] - px;
    const y = d[k + 1] - py;
    const z = d[k + 2] - pz;
    const facing = x * nx + y * ny + z * nz;
    if (!(facing > 0)) continue;
    const leaving = -(x * f[0] + y * f[1] + z * f[2]);
    if (!(leaving > 0 || bothWays(e))) continue;
    const d2 = x * x + y * y + z * z;
    const r = Math.sqrt(d2);
    const value = (d[k + 3] * sent(e, x, y, z, r, leaving) * facing) / (d2 * r);
    all += value;
    if (!aiming) continue;
    brings[rays] = value;
    tracer.aim(rays++, x, y, z);
  }
  offered.all = all;
  offered.weight = weight;
  return rays;
}

function sumSeen(tracer: Tracer, rays: number, px: number, py: number, pz: number, light: number): number {
  tracer.look(rays, px, py, pz, light);
  let total = 0;
  for (let i = 0; i < rays; i++) if (tracer.seen[i] !== 0) total += brings[i];
  return total;
}

/** A face made ready for asking again and again. */
export interface AskedFace {
  /** cut for what it would send with nothing between */
  readonly whole: FaceParts;
  /** a few points that tell whether all of it is seen */
  readonly few: FaceParts;
  /** scattered points that tell how much is */
  readonly many: FaceParts;
}

/** Asked at `count` scattered points where a few do not tell; where `count` is fewer than those, at them alone. */
export function askedFace(e: Emitter, rings: number, count: number): AskedFace {
  const many = scatterFace(e, count);
  return { whole: cutFace(e, rings), few: count < SUBSETS ? many : probeFace(e), many };
}

/** The same with the rays that are needed: what the whole face would send, without rays, times the share of it that
 * is seen. Where a few points of the face (probeFace) are all seen or all hidden, so is the face; else many are asked.
 * Accuracy  a twig between the few points is missed; past an edge within 3 % of the whole light at 64, 1.1 % at 256 (direct.test.ts) */
export function directByShare(
  tracer: Tracer,
  light: number,
  face: AskedFace,
  px: number,
  py: number,
  pz: number,
  nx: number,
  ny: number,
  nz: number,
): number {
  const open = directFlat(tracer, light, face.whole, 0, 1, px, py, pz, nx, ny, nz, false);
  if (!(open > 0)) return 0;
  const guess = shareSeen(tracer, light, face.few, 0, 1, px, py, pz, nx, ny, nz);
  if (guess === 0 || guess === 1 || face.few === face.many) return guess * open;
  return open * shareSeen(tracer, light, face.many, 0, 1, px, py, pz, nx, ny, nz);
}

/** The field at a point (lx.s per lm.s), added to `out`. `shadows` false skips the rays. */
export function directField(
  tracer: Tracer,
  light: number,
  parts: FaceParts,
  px: number,
  py: number,
  pz: number,
  shadows: boolean,
  out: FieldAtPoint,
) {
  const e = tracer.scene.emitters[light];
  const f = e.forward;
  const d = parts.data;
  let rays = 0;
  for (let i = 0; i < parts.count; i++) {
    const k = PART_STRIDE * i;
    const x = d[k] - px;
    const y = d[k + 1] - py;
    const z = d[k + 2] - pz;
    const leaving = -(x * f[0] + y * f[1] + z * f[2]);
    if (!(leaving > 0 || bothWays(e))) continue;
    if (shadows) {
      lit[rays] = i;
      tracer.aim(rays++, x, y, z);
    } else addPart(e, d, k, x, y, z, leaving, out);
  }
  if (rays === 0) return;
  tracer.look(rays, px, py, pz, light);
  for (let i = 0; i < rays; i++) {
    if (tracer.seen[i] === 0) continue;
    const k = PART_STRIDE * lit[i];
    const x = d[k] - px;
    const y = d[k + 1] - py;
    const z = d[k + 2] - pz;
    addPart(e, d, k, x, y, z, -(x * f[0] + y * f[1] + z * f[2]), out);
  }
}

const lit = new Uint32Array(FAN);

function addPart(
  e: Emitter,
  d: Float64Array,
  k: number,
  x: number,
  y: number,
  z: number,
  leaving: number,
  out: FieldAtPoint,
) {
  const d2 = x * x + y * y + z * z;
  const r = Math.sqrt(d2);
  const normal = (d[k + 3] * sent(e, x, y, z, r, leaving)) / d2;
  out.sum += normal;
  out.x += (normal * x) / r;
  out.y += (normal * y) / r;
  out.z += (normal * z) / r;
}

/** A bare point may send light backward as well, where its photometric file says so. */
export function bothWays(e: Emitter): boolean {
  return e.shape === "point" && e.distribution !== null;
}

/** Intensity per unit of energy, 1/sr, from a part at (x, y, z) from the receiver, r away, `leaving` along the axis.
 * Source  (m + 1) / (2 pi) cos^m: physics.md; a photometric file's own distribution in its place */
function sent(e: Emitter, x: number, y: number, z: number, r: number, leaving: number): number {
  const cosine = leaving / r;
  if (e.distribution) {
    const across = -(x * e.right[0] + y * e.right[1] + z * e.right[2]) / r;
    const upward = -(x * e.up[0] + y * e.up[1] + z * e.up[2]) / r;
    return intensityPerLumen(e.distribution, cosine, across, upward);
  }
  const m = e.exponent;
  return ((m + 1) / (2 * Math.PI)) * (m === 1 ? cosine : m === 0 ? 1 : cosine ** m);
}
