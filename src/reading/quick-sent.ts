/** What one part of a light sends to one point, nothing between: the inner step of the quick face. */
import { bothWays, type Emitter, intensityPerLumen } from "../engine/index.ts";
import { LOBE_STEPS, type QuickLight } from "./quick-light.ts";

const lamp = { x: 0, y: 0, z: 0, exponent: 1, scale: 0 };

/** Sets the light that `sent` works for until the next call. */
export function readyLamp(e: Emitter) {
  lamp.x = e.forward[0];
  lamp.y = e.forward[1];
  lamp.z = e.forward[2];
  lamp.exponent = e.exponent;
  lamp.scale = (e.exponent + 1) / (2 * Math.PI);
}

/** Exposure per unit of energy of the lamp made ready, from a part at (x, y, z) from the point; `facing` is that vector's
 * length along the point's normal.
 * Source  as `sent` of engine/direct.ts, the lobe from a table */
export function sent(e: Emitter, light: QuickLight, x: number, y: number, z: number, facing: number): number {
  const leaving = -(x * lamp.x + y * lamp.y + z * lamp.z);
  const d2 = x * x + y * y + z * z;
  if (e.distribution !== null) return measured(e, x, y, z, Math.sqrt(d2), leaving) * facing;
  if (!(leaving > 0)) return 0;
  if (lamp.exponent === 1) return (lamp.scale * leaving * facing) / (d2 * d2);
  const r = Math.sqrt(d2);
  const c = (LOBE_STEPS * leaving) / r;
  const i = c | 0;
  const lobe = light.lobe[i] + (c - i) * (light.lobe[i + 1] - light.lobe[i]);
  return (lamp.scale * lobe * facing) / (d2 * r);
}

/** A photometric file's own spread. */
function measured(e: Emitter, x: number, y: number, z: number, r: number, leaving: number): number {
  if (e.distribution === null || !(leaving > 0 || bothWays(e))) return 0;
  const across = -(x * e.right[0] + y * e.right[1] + z * e.right[2]) / r;
  const upward = -(x * e.up[0] + y * e.up[1] + z * e.up[2]) / r;
  return intensityPerLumen(e.distribution, leaving / r, across, upward) / (r * r * r);
}
