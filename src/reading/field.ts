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
import type { Lighting } from "./lighting.ts";

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
export function gatherSphere(lighting: Lighting, slot: string, spots: readonly Spot[], rays: number): Gather {
  const key = lighting.stillKey + JSON.stringify(spots.map((s) => s.position)) + rays;
  return lighting.memory.recall(slot, key, () => {
    const { tracer } = lighting.stage;
    const g = emptyGather(spots.length, rays);
    const d = new Float64Array(3);
    spots.forEach((spot, s) => {
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

/** Field of every light that is on at every spot: result[spot][light], null where the light is off. */
export function fieldsAt(
  lighting: Lighting,
  slot: string,
  spots: readonly Spot[],
  rays: number,
  accuracy: DirectAccuracy,
): (LightField | null)[][] {
  const { stage, exitance, memory, litKey } = lighting;
  const gather = gatherSphere(lighting, `${slot} gather`, spots, rays);
  const key = litKey + JSON.stringify(spots);
  return memory.recall(slot, key, () => {
    const visible = behindPlates(gather, stage.scene.emitters);
    return spots.map((spot, s) =>
      stage.lights.map((light, i) => {
        const solved = exitance[i];
        if (!light.on || !solved) return null;
        const field = emptyField();
        addDirect(lighting, i, spot, accuracy, field);
        addGathered(gather, visible, s, spot, solved.through, 1, field);
        addGathered(gather, visible, s, spot, solved.bounced, 3, field);
        return field;
      }),
    );
  });
}

function emptyField(): LightField {
  return {
    direct: new Float64Array(4),
    bounced: new Float64Array(12),
    directFlat: 0,
    bouncedFlat: new Float64Array(3),
  };
}

function addDirect(
  lighting: Lighting,
  light: number,
  spot: Spot,
  accuracy: DirectAccuracy,
  field: LightField,
) {
  const { tracer } = lighting.stage;
  const at = { sum: 0, x: 0, y: 0, z: 0 };
  const [x, y, z] = spot.position;
  if (accuracy === "meter") {
    field.directFlat += directAtMeter(tracer, light, spot.position, spot.direction, at);
  } else {
    directField(tracer, light, accuracy[light], x, y, z, true, at);
  }
  field.direct[0] += at.sum;
  field.direct[1] += at.x;
  field.direct[2] += at.y;
  field.direct[3] += at.z;
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
    const patch = visible[k];
    if (patch < 0) continue;
    const at = RAY_STRIDE * k + 3;
    const x = g.rays[at];
    const y = g.rays[at + 1];
    const z = g.rays[at + 2];
    const facing = Math.max(0, x * nx + y * ny + z * nz);
    for (let c = 0; c < stride; c++) {
      const m = values[stride * patch + c] * weight;
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

/** All lights together in luminance: (sum, x, y, z), lx.s. Ambient light adds to the sum alone. */
export function totalField(lighting: Lighting, fields: readonly (LightField | null)[]): Float64Array {
  const out = new Float64Array(4);
  out[0] = 4 * lighting.stage.ambient;
  fields.forEach((field, i) => {
    if (!field) return;
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
