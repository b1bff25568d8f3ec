/** Rays that look for what surfaces send back. They are traced once for a geometry; lights, powers and colours
 * then only re-weigh them. The plates of lights are left out of the tracing and put in afterwards, so that
 * moving a light traces no gather ray again. */

import { hitEmitter } from "./hits.ts";
import type { Emitter } from "./scene.ts";
import type { Tracer } from "./tracer.ts";

export interface Gather {
  readonly receivers: number;
  readonly raysEach: number;
  /** 6 numbers a ray: origin, unit direction */
  readonly rays: Float32Array;
  readonly distance: Float32Array;
  /** the tile that a ray meets, -1 for none */
  readonly tile: Int32Array;
}

export const RAY_STRIDE = 6;
const FAR = 1e6;

export function emptyGather(receivers: number, raysEach: number): Gather {
  const n = receivers * raysEach;
  return {
    receivers,
    raysEach,
    rays: new Float32Array(RAY_STRIDE * n),
    distance: new Float32Array(n),
    tile: new Int32Array(n).fill(-1),
  };
}

/** Traces ray number `ray` of the gather and keeps what it meets. */
export function traceGatherRay(
  tracer: Tracer,
  g: Gather,
  ray: number,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
) {
  const at = RAY_STRIDE * ray;
  g.rays[at] = ox;
  g.rays[at + 1] = oy;
  g.rays[at + 2] = oz;
  g.rays[at + 3] = dx;
  g.rays[at + 4] = dy;
  g.rays[at + 5] = dz;
  tracer.closest(ox, oy, oz, dx, dy, dz, FAR, false);
  g.distance[ray] = tracer.t;
  g.tile[ray] = tracer.tile;
}

/** The same tiles with -1 where a light's plate stands in the way. */
export function behindPlates(
  g: Pick<Gather, "rays" | "distance" | "tile">,
  emitters: readonly Emitter[],
): Int32Array {
  const seen = g.tile.slice();
  const plates = emitters.filter((e) => e.shape !== "point");
  if (plates.length === 0) return seen;
  const r = g.rays;
  for (let i = 0; i < seen.length; i++) {
    if (seen[i] < 0) continue;
    const k = RAY_STRIDE * i;
    for (const e of plates) {
      if (hitEmitter(e, r[k], r[k + 1], r[k + 2], r[k + 3], r[k + 4], r[k + 5], g.distance[i]) > 0) {
        seen[i] = -1;
        break;
      }
    }
  }
  return seen;
}

/** Cosine-weighted direction about a unit normal from a point (u, v) of the unit square, into out[at..].
 * Source  Malley's method; the basis is that of Duff et al. 2017, which has no bad direction */
export function cosineDirection(
  nx: number,
  ny: number,
  nz: number,
  u: number,
  v: number,
  out: Float64Array,
  at: number,
) {
  const r = Math.sqrt(u);
  const a = 2 * Math.PI * v;
  const x = r * Math.cos(a);
  const y = r * Math.sin(a);
  const z = Math.sqrt(Math.max(0, 1 - u));
  const sign = nz >= 0 ? 1 : -1;
  const p = -1 / (sign + nz);
  const q = nx * ny * p;
  out[at] = x * (1 + sign * nx * nx * p) + y * q + z * nx;
  out[at + 1] = x * sign * q + y * (sign + ny * ny * p) + z * ny;
  out[at + 2] = -x * sign * nx - y * ny + z * nz;
}
