/** The direct light on a quick face with rays: slower, with nothing looked up or worked out beforehand. */
import { type Emitter, FAN } from "../engine/index.ts";
import { levelOf, placeParts } from "./quick-exposure.ts";
import type { QuickFace } from "./quick-face.ts";
import type { QuickLight } from "./quick-light.ts";
import { readyLamp, sent } from "./quick-sent.ts";

/** Points of skin (lifted, with normals, 6 numbers each, and their middle) among what may stand in the way, all in the
 * same axes as the light. */
export type TracedFace = Pick<QuickFace, "points" | "middle" | "tracer"> & {
  readonly samples: { readonly count: number };
};

const spots = new Float64Array(3 * FAN);
/** What each ray of a fan would bring. */
const brings = new Float64Array(FAN);

/** Adds lx.s per lm.s at every sample: otherwise as `writeQuickExposure`. From every sample a ray goes to the outermost
 * part of each group; where they do not agree that all of the light is seen or hidden, one goes to every part.
 * Light number `except` of the tracer's scene is the one that shines: its own plate hides nothing. */
export function writeTracedExposure(
  quick: TracedFace,
  e: Emitter,
  light: QuickLight,
  out: Float64Array,
  except = -1,
) {
  const { points, tracer } = quick;
  const { count } = quick.samples;
  const { groups, each } = light;
  const parts = light.share.length;
  readyLamp(e);
  placeParts(e, light, spots);
  const level = levelOf(quick, e, light, light.right_m, light.up_m, light.share);
  for (let s = 0; s < count; s++) {
    const p = 6 * s;
    const px = points[p];
    const py = points[p + 1];
    const pz = points[p + 2];
    let rays = 0;
    let all = 0;
    for (let k = 0; k < parts; k++) {
      const x = spots[3 * k] - px;
      const y = spots[3 * k + 1] - py;
      const z = spots[3 * k + 2] - pz;
      const facing = x * points[p + 3] + y * points[p + 4] + z * points[p + 5];
      brings[k] = facing > 0 ? level * light.share[k] * sent(e, light, x, y, z, facing) : 0;
      all += brings[k];
    }
    if (!(all > 0)) continue;
    if (each > 1) {
      // the last part of a group lies in its outermost ring
      for (let k = each - 1; k < parts; k += each)
        tracer.aim(rays++, spots[3 * k] - px, spots[3 * k + 1] - py, spots[3 * k + 2] - pz);
      tracer.look(rays, px, py, pz, except);
      let seen = 0;
      for (let r = 0; r < rays; r++) if (tracer.seen[r] !== 0) seen++;
      if (seen === groups) out[s] += all;
      if (seen === groups || seen === 0) continue;
      rays = 0;
    }
    for (let k = 0; k < parts; k++)
      if (brings[k] > 0) tracer.aim(rays++, spots[3 * k] - px, spots[3 * k + 1] - py, spots[3 * k + 2] - pz);
    tracer.look(rays, px, py, pz, except);
    let r = 0;
    for (let k = 0; k < parts; k++) if (brings[k] > 0 && tracer.seen[r++] !== 0) out[s] += brings[k];
  }
}
