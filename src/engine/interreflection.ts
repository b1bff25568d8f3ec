/** Diffuse interreflection over the patches of a scene. */

import { directFlat } from "./direct.ts";
import type { FaceParts } from "./faces.ts";
import { cosineDirection, emptyGather, type Gather, traceGatherRay } from "./gather.ts";
import { POINT_STRIDE, POINTS_PER_PATCH } from "./scene.ts";
import type { Tracer } from "./tracer.ts";

/** What the patches send out for one light, per lumen-second. */
export interface Exitance {
  /** light that came through and has been reflected nowhere */
  readonly through: Float64Array;
  /** rgb per patch: light that has been reflected at least once, for a white light */
  readonly bounced: Float64Array;
  /** rgb per patch: all that arrives from other surfaces, through panels or after a reflection */
  readonly arriving: Float64Array;
}

/** Plastic-number sequence: evenly spread pairs in any prefix (Roberts 2018). */
const A1 = 0.7548776662466927;
const A2 = 0.5698402909980532;
/** A ray starts this far off its surface. */
export const LIFT = 1e-4;

/** Looks round from every patch: raysPerPoint cosine-spread rays from each of its points. */
export function gatherPatches(tracer: Tracer, raysPerPoint: number): Gather {
  const { count, points } = tracer.scene.patches;
  const each = POINTS_PER_PATCH * raysPerPoint;
  const g = emptyGather(count, each);
  const d = new Float64Array(3);
  for (let p = 0; p < count; p++) {
    for (let k = 0; k < each; k++) {
      const at = POINT_STRIDE * (p * POINTS_PER_PATCH + (k % POINTS_PER_PATCH));
      const nx = points[at + 3];
      const ny = points[at + 4];
      const nz = points[at + 5];
      cosineDirection(nx, ny, nz, (k + 0.5) / each, (0.5 + k * A1 + p * A2) % 1, d, 0);
      traceGatherRay(
        tracer,
        g,
        p * each + k,
        points[at] + LIFT * nx,
        points[at + 1] + LIFT * ny,
        points[at + 2] + LIFT * nz,
        d[0],
        d[1],
        d[2],
      );
    }
  }
  return g;
}

/** Direct exposure of every patch, a mean over `pointsUsed` of its points (lx.s per lm.s). */
export function directOnPatches(
  tracer: Tracer,
  light: number,
  parts: FaceParts,
  pointsUsed: number,
): Float64Array {
  const { count, points } = tracer.scene.patches;
  const out = new Float64Array(count);
  const stride = POINTS_PER_PATCH / pointsUsed;
  for (let p = 0; p < count; p++) {
    let sum = 0;
    for (let k = 0; k < pointsUsed; k++) {
      const at = POINT_STRIDE * (p * POINTS_PER_PATCH + k * stride);
      const nx = points[at + 3];
      const ny = points[at + 4];
      const nz = points[at + 5];
      const x = points[at] + LIFT * nx;
      const y = points[at + 1] + LIFT * ny;
      const z = points[at + 2] + LIFT * nz;
      sum += directFlat(tracer, light, parts, 0, 1, x, y, z, nx, ny, nz);
    }
    out[p] = sum / pointsUsed;
  }
  return out;
}

/** Change per sweep under which the solution stands: a hundredth of the 2 % asked of interreflection. */
const SETTLED = 2e-4;
const MOST_SWEEPS = 400;

/** Solves what the patches send out, by Gauss-Seidel sweeps in patch order.
 * Source  radiosity equation B = rho (E + F B), thin panels also B = rho E + tau E(other side); Goral et al. 1984
 * Accuracy rows of F are shares of rays and add up to 1, so a closed uniform room is exact */
export function solveExitance(
  tracer: Tracer,
  gather: Gather,
  visible: Int32Array,
  direct: Float64Array,
): Exitance {
  const { patches } = tracer.scene;
  const n = patches.count;
  const through = solveThrough(tracer, gather, visible, direct);
  const bounced = new Float64Array(3 * n);
  const arriving = new Float64Array(3 * n);
  const base = new Float64Array(n);
  for (let i = 0; i < n; i++) base[i] = direct[i] + meanOf(through, 1, 0, gather, visible, i);
  for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
    let change = 0;
    let size = 0;
    for (let i = 0; i < n; i++) {
      const other = patches.partner[i];
      const tau = patches.transmittance[i];
      for (let c = 0; c < 3; c++) {
        const rho = patches.bounceReflectance[3 * i + c];
        const here = meanOf(bounced, 3, c, gather, visible, i);
        arriving[3 * i + c] = here + (base[i] - direct[i]);
        const beyond = tau > 0 && other >= 0 ? tau * meanOf(bounced, 3, c, gather, visible, other) : 0;
        const value = rho * (base[i] + here) + beyond;
        change += Math.abs(value - bounced[3 * i + c]) * patches.area[i];
        size += value * patches.area[i];
        bounced[3 * i + c] = value;
      }
    }
    if (!(change > SETTLED * size)) break;
  }
  return { through, bounced, arriving };
}

function solveThrough(
  tracer: Tracer,
  gather: Gather,
  visible: Int32Array,
  direct: Float64Array,
): Float64Array {
  const { patches } = tracer.scene;
  const through = new Float64Array(patches.count);
  const veils: number[] = [];
  for (let i = 0; i < patches.count; i++)
    if (patches.transmittance[i] > 0 && patches.partner[i] >= 0) veils.push(i);
  for (let sweep = 0; sweep < MOST_SWEEPS && veils.length > 0; sweep++) {
    let change = 0;
    let size = 0;
    for (const i of veils) {
      const other = patches.partner[i];
      const value =
        patches.transmittance[i] * (direct[other] + meanOf(through, 1, 0, gather, visible, other));
      change += Math.abs(value - through[i]);
      size += value;
      through[i] = value;
    }
    if (!(change > SETTLED * size)) break;
  }
  return through;
}

/** Mean of a patch quantity over the rays of one receiver. */
export function meanOf(
  values: Float64Array,
  stride: number,
  channel: number,
  gather: Gather,
  visible: Int32Array,
  receiver: number,
): number {
  const first = receiver * gather.raysEach;
  let sum = 0;
  for (let k = first; k < first + gather.raysEach; k++) {
    const p = visible[k];
    if (p >= 0) sum += values[stride * p + channel];
  }
  return sum / gather.raysEach;
}
