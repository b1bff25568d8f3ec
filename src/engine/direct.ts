/** Light that comes straight from the face of a light, per lumen-second of its output. */
import { intensityPerLumen } from "./distribution.ts";
import { cutFace, type FaceParts, PART_STRIDE } from "./faces.ts";
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
  const e = tracer.scene.emitters[light];
  const f = e.forward;
  const d = parts.data;
  let total = 0;
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
    if (!(leaving > 0)) continue;
    const d2 = x * x + y * y + z * z;
    const r = Math.sqrt(d2);
    const value = (d[k + 3] * sent(e, x, y, z, r, leaving) * facing) / (d2 * r);
    if (!shadows) {
      total += value;
      continue;
    }
    brings[rays] = value;
    tracer.aim(rays++, x, y, z);
  }
  if (rays > 0) total = sumSeen(tracer, rays, px, py, pz, light);
  // a subset of the parts stands for all of them
  return weight > 0 ? total / weight : 0;
}

/** How much of what every `step`th part would bring arrives, 0 to 1; 1 where nothing could arrive at all.
 * Where there are many rays a quarter of them goes first, and the others only where these do not agree. */
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
  const e = tracer.scene.emitters[light];
  const f = e.forward;
  const d = parts.data;
  const rounds = parts.count - first > 12 * step ? 4 : 1;
  let seen = 0;
  let all = 0;
  for (let round = 0; round < rounds; round++) {
    let rays = 0;
    for (let i = first + round * step; i < parts.count; i += rounds * step) {
      const k = PART_STRIDE * i;
      const x = d[k] - px;
      const y = d[k + 1] - py;
      const z = d[k + 2] - pz;
      const facing = x * nx + y * ny + z * nz;
      if (!(facing > 0)) continue;
      const leaving = -(x * f[0] + y * f[1] + z * f[2]);
      if (!(leaving > 0)) continue;
      const d2 = x * x + y * y + z * z;
      const r = Math.sqrt(d2);
      const value = (d[k + 3] * sent(e, x, y, z, r, leaving) * facing) / (d2 * r);
      all += value;
      brings[rays] = value;
      tracer.aim(rays++, x, y, z);
    }
    if (rays > 0) seen += sumSeen(tracer, rays, px, py, pz, light);
    if (round === 0 && all > 0 && (seen === 0 || seen === all)) return seen === 0 ? 0 : 1;
  }
  return all > 0 ? seen / all : 1;
}

function sumSeen(tracer: Tracer, rays: number, px: number, py: number, pz: number, light: number): number {
  tracer.look(rays, px, py, pz, light);
  let total = 0;
  for (let i = 0; i < rays; i++) if (tracer.seen[i] !== 0) total += brings[i];
  return total;
}

/** The same with the rays that are needed: what the whole face would send, without rays, times the share of it that
 * is seen. The share is taken from a few parts where all or none of them are seen, else from all.
 * Accuracy  a twig that hides between the few parts is missed; a nose or a shoulder is not (direct.test.ts) */
export function directByShare(
  tracer: Tracer,
  light: number,
  few: FaceParts,
  all: FaceParts,
  px: number,
  py: number,
  pz: number,
  nx: number,
  ny: number,
  nz: number,
): number {
  const open = directFlat(tracer, light, all, 0, 1, px, py, pz, nx, ny, nz, false);
  if (!(open > 0)) return 0;
  const guess = shareSeen(tracer, light, few, 0, 1, px, py, pz, nx, ny, nz);
  if (guess === 0 || guess === 1) return guess * open;
  return open * shareSeen(tracer, light, all, 0, 1, px, py, pz, nx, ny, nz);
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
    if (!(leaving > 0)) continue;
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

/** Flat exposure and field at a meter, to the accuracy that a reading is printed with.
 * A first pass of 1,024 rays finds out whether anything stands between; if nothing does, the integral is taken
 * over as many parts as the distance asks for, without rays. Half-seen faces keep their rays, 4,096 of them. */
export function directAtMeter(
  tracer: Tracer,
  light: number,
  p: ArrayLike<number>,
  n: ArrayLike<number>,
  out: FieldAtPoint,
): number {
  const e = tracer.scene.emitters[light];
  const probe = cutFace(e, e.shape === "point" ? 1 : 16);
  const seen = visibleParts(tracer, light, probe, p);
  if (seen === 0) return 0;
  if (seen === 1) {
    const parts = cutFace(e, ringsFor(e, p));
    directField(tracer, light, parts, p[0], p[1], p[2], false, out);
    return directFlat(tracer, light, parts, 0, 1, p[0], p[1], p[2], n[0], n[1], n[2], false);
  }
  const parts = cutFace(e, 32);
  directField(tracer, light, parts, p[0], p[1], p[2], true, out);
  return directFlat(tracer, light, parts, 0, 1, p[0], p[1], p[2], n[0], n[1], n[2]);
}

/** Share of the parts that a point sees, of those that could reach it at all; 0 where none could. */
function visibleParts(tracer: Tracer, light: number, parts: FaceParts, p: ArrayLike<number>): number {
  const f = tracer.scene.emitters[light].forward;
  const d = parts.data;
  let asked = 0;
  for (let i = 0; i < parts.count; i++) {
    const k = PART_STRIDE * i;
    const x = d[k] - p[0];
    const y = d[k + 1] - p[1];
    const z = d[k + 2] - p[2];
    if (x * f[0] + y * f[1] + z * f[2] < 0) tracer.aim(asked++, x, y, z);
  }
  if (asked === 0) return 0;
  tracer.look(asked, p[0], p[1], p[2], light);
  let seen = 0;
  for (let i = 0; i < asked; i++) seen += tracer.seen[i];
  return seen / asked;
}

/** Parts no larger than a twentieth of the distance: the midpoint error is then under 1e-4 (measured). */
function ringsFor(e: Emitter, p: ArrayLike<number>): number {
  if (e.shape === "point") return 1;
  const x = p[0] - e.centre[0];
  const y = p[1] - e.centre[1];
  const z = p[2] - e.centre[2];
  const height = Math.abs(x * e.forward[0] + y * e.forward[1] + z * e.forward[2]);
  const size = Math.max(e.halfWidth, e.halfHeight);
  return Math.min(192, Math.max(48, Math.ceil((20 * size) / Math.max(height, 1e-6))));
}
