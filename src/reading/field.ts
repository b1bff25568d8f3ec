/** Light from all round at a point: what meters, maps and the bridge of a nose are read from. */
import {
  behindPlates,
  directAtMeter,
  directField,
  emptyGather,
  type FaceParts,
  type Gather,
  RAY_STRIDE,
  traceGatherRay,
} from "../engine/index.ts";
import { writeSpherePoint } from "../math/index.ts";
import { recallDirect } from "./direct-memory.ts";
import type { Lighting } from "./lighting.ts";
import { type KeepGoing, step, within } from "./progress.ts";

/** Field of one light at one point, per lm.s: (sum, x, y, z) with sum the integral of L dw.
 * `direct` has one such quadruple, `bounced` one per channel for a white light.
 * The last two are the flat receptor's share along the direction asked for. */
export interface LightField {
  readonly direct: Float64Array;
  readonly bounced: Float64Array;
  directFlat: number;
  readonly bouncedFlat: Float64Array;
}

/** A place and the direction that the receptor points in (unit vector). */
export interface Spot {
  readonly position: readonly [number, number, number];
  readonly direction: readonly [number, number, number];
}

/** Looks round from each spot in `rays` directions evenly over the sphere. */
function gatherSphere(
  lighting: Lighting,
  slot: string,
  spots: readonly Spot[],
  rays: number,
  named: string,
  keepGoing: KeepGoing,
): Gather {
  const key = lighting.stillKey + named + rays;
  return lighting.memory.recall(slot, key, () => {
    const { tracer } = lighting.stage;
    const g = emptyGather(spots.length, rays);
    const d = new Float64Array(3);
    spots.forEach((spot, s) => {
      if ((s & 63) === 0) step(keepGoing, s / spots.length);
      const [x, y, z] = spot.position;
      for (let k = 0; k < rays; k++) {
        writeSpherePoint(d, 0, k, rays);
        traceGatherRay(tracer, g, s * rays + k, x, y, z, d[0], d[1], d[2]);
      }
    });
    return g;
  });
}

/** How direct light is taken: to printing accuracy, or with the parts given. */
export type DirectAccuracy = "meter" | readonly FaceParts[];

/** Numbers kept per spot of direct light: sum, x, y, z, and the flat receptor's share. */
const WIDTH = 5;

/** Field of every light, on or off, at every spot: result[spot][light]. `named` tells one set of spots from another. */
export function fieldsAt(
  lighting: Lighting,
  slot: string,
  spots: readonly Spot[],
  rays: number,
  accuracy: DirectAccuracy,
  named = JSON.stringify(spots),
  keepGoing: KeepGoing = () => true,
): LightField[][] {
  const { stage, exitance, memory, lightKey } = lighting;
  return memory.recall(slot, lightKey + named, () => {
    const gather = gatherSphere(lighting, `${slot} gather`, spots, rays, named, within(keepGoing, 0, 0.5));
    const visible = behindPlates(gather, stage.scene.emitters);
    const direct = stage.lights.map((_, l) => {
      step(keepGoing, 0.5 + (0.3 * l) / stage.lights.length);
      return directAt(lighting, slot, named, spots, l, accuracy);
    });
    step(keepGoing, 0.8);
    return spots.map((spot, s) =>
      stage.lights.map((_, l) => {
        const at = WIDTH * s;
        const field: LightField = {
          direct: direct[l].slice(at, at + 4),
          bounced: new Float64Array(12),
          directFlat: direct[l][at + 4],
          bouncedFlat: new Float64Array(3),
        };
        addGathered(gather, visible, s, spot, exitance[l].through, 1, field);
        addGathered(gather, visible, s, spot, exitance[l].bounced, 3, field);
        return field;
      }),
    );
  });
}

/** Light that comes straight from one lamp: WIDTH numbers a spot. */
export function directAt(
  lighting: Lighting,
  slot: string,
  named: string,
  spots: readonly Spot[],
  light: number,
  accuracy: DirectAccuracy,
): Float64Array {
  const { memory, stage } = lighting;
  const at = { sum: 0, x: 0, y: 0, z: 0 };
  return recallDirect(memory, lighting, stage, light, `${slot} direct`, {
    name: named,
    count: spots.length,
    width: WIDTH,
    points: spots.flatMap((spot) => spot.position),
    stride: 3,
    prepare: () => (s, out) => {
      const { position, direction } = spots[s];
      const [x, y, z] = position;
      at.sum = 0;
      at.x = 0;
      at.y = 0;
      at.z = 0;
      const k = WIDTH * s;
      out[k + 4] = 0;
      if (accuracy === "meter") out[k + 4] = directAtMeter(stage.tracer, light, position, direction, at);
      else directField(stage.tracer, light, accuracy[light], x, y, z, true, at);
      out[k] = at.sum;
      out[k + 1] = at.x;
      out[k + 2] = at.y;
      out[k + 3] = at.z;
    },
  });
}

/** A surface of exitance M has luminance M / pi; n directions share 4 pi, so each ray weighs 4 M / n.
 * stride 1: light that came through a panel counts as direct; stride 3: rgb, bounced. */
function addGathered(
  g: Gather,
  visible: Int32Array,
  receiver: number,
  spot: Spot,
  values: Float64Array,
  stride: 1 | 3,
  field: LightField,
) {
  const target = stride === 1 ? field.direct : field.bounced;
  const weight = 4 / g.raysEach;
  const [nx, ny, nz] = spot.direction;
  for (let k = receiver * g.raysEach; k < (receiver + 1) * g.raysEach; k++) {
    const tile = visible[k];
    if (tile < 0) continue;
    const at = RAY_STRIDE * k + 3;
    const x = g.rays[at];
    const y = g.rays[at + 1];
    const z = g.rays[at + 2];
    const facing = Math.max(0, x * nx + y * ny + z * nz);
    for (let c = 0; c < stride; c++) {
      const m = values[stride * tile + c] * weight;
      if (m === 0) continue;
      target[4 * c] += m;
      target[4 * c + 1] += m * x;
      target[4 * c + 2] += m * y;
      target[4 * c + 3] += m * z;
      if (stride === 1) field.directFlat += m * facing;
      else field.bouncedFlat[c] += m * facing;
    }
  }
}

/** All lights that are on together in luminance: (sum, x, y, z), lx.s. Ambient light adds to the sum alone. */
export function totalField(lighting: Lighting, fields: readonly LightField[]): Float64Array {
  const out = new Float64Array(4);
  out[0] = 4 * lighting.stage.ambient;
  fields.forEach((field, i) => {
    if (!lighting.stage.lights[i].on) return;
    const { lumenSeconds, meterWeights } = lighting.stage.lights[i];
    const white = meterWeights[0] + meterWeights[1] + meterWeights[2];
    for (let k = 0; k < 4; k++) {
      let value = white * field.direct[k];
      for (let c = 0; c < 3; c++) value += meterWeights[c] * field.bounced[4 * c + k];
      out[k] += lumenSeconds * value;
    }
  });
  return out;
}
