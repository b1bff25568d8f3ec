/** Light from all round at a point: what meters, maps and the bridge of a nose are read from. */
import {
  addFlatViews,
  behindPlates,
  directAtMeter,
  directField,
  type FaceParts,
  HIT,
  PRINTED,
  ViewList,
  type Views,
  WEIGHTS,
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

/** What each spot sees: `rays` directions evenly over the sphere, and, for a meter's accuracy, walls and panels tile by
 * tile in closed form, so that the rays are left to bodies and backdrops. */
function viewsFrom(
  lighting: Lighting,
  slot: string,
  spots: readonly Spot[],
  rays: number,
  exactly: boolean,
  named: string,
  keepGoing: KeepGoing,
): Views {
  const key = lighting.stillKey + named + rays + exactly;
  return lighting.memory.recall(slot, key, () => {
    const { tracer } = lighting.stage;
    const list = new ViewList();
    const d = new Float64Array(3);
    const solid = (4 * Math.PI) / rays;
    spots.forEach(({ position, direction }, s) => {
      if ((s & 63) === 0 || exactly) step(keepGoing, s / spots.length);
      const [x, y, z] = position;
      const [nx, ny, nz] = direction;
      for (let k = 0; k < rays; k++) {
        writeSpherePoint(d, 0, k, rays);
        tracer.closest(x, y, z, d[0], d[1], d[2], FAR, false);
        if (tracer.tile < 0 || (exactly && tracer.kind !== HIT.mesh)) continue;
        list.add(x, y, z, d[0], d[1], d[2], tracer.t, tracer.tile);
        const facing = Math.max(0, d[0] * nx + d[1] * ny + d[2] * nz);
        list.weigh(solid, solid * d[0], solid * d[1], solid * d[2], solid * facing);
      }
      if (exactly) addFlatViews(tracer, position, direction, list);
      list.close();
    });
    return list.views();
  });
}

const FAR = 1e6;

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
    const exactly = accuracy === "meter" && lighting.quality === "fine";
    const half = within(keepGoing, 0, 0.5);
    const views = viewsFrom(lighting, `${slot} views`, spots, rays, exactly, named, half);
    const visible = behindPlates(views, stage.scene.emitters);
    const direct = stage.lights.map((_, l) => {
      step(keepGoing, 0.5 + (0.3 * l) / stage.lights.length);
      return directAt(lighting, slot, named, spots, l, accuracy);
    });
    step(keepGoing, 0.8);
    const veiled = exitance.map((e) => e.through.some((x) => x > 0));
    return spots.map((_, s) =>
      stage.lights.map((_, l) => {
        const at = WIDTH * s;
        const field: LightField = {
          direct: direct[l].slice(at, at + 4),
          bounced: new Float64Array(12),
          directFlat: direct[l][at + 4],
          bouncedFlat: new Float64Array(3),
        };
        if (veiled[l])
          field.directFlat += addSeen(views, visible, s, exitance[l].through, 1, 0, field.direct, 0);
        const { bounced } = exitance[l];
        for (let c = 0; c < 3; c++)
          field.bouncedFlat[c] = addSeen(views, visible, s, bounced, 3, c, field.bounced, 4 * c);
        return field;
      }),
    );
  });
}

/** A glance is within half a per cent of what is printed where nothing stands between, one light width away. */
const AT_A_GLANCE = { probe: 16, halfSeenRings: 4, leastRings: 2, mostRings: 24, fineness: 4 };
const METER_WORK = { glance: AT_A_GLANCE, coarse: PRINTED, fine: PRINTED } as const;

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
      if (accuracy === "meter")
        out[k + 4] = directAtMeter(stage.tracer, light, position, direction, at, METER_WORK[lighting.effort]);
      else directField(stage.tracer, light, accuracy[light], x, y, z, true, at);
      out[k] = at.sum;
      out[k + 1] = at.x;
      out[k + 2] = at.y;
      out[k + 3] = at.z;
    },
  });
}

/** A surface of exitance M has luminance M / pi. Channel `channel` of `stride` into target[at ..], the flat part back. */
function addSeen(
  views: Views,
  visible: Int32Array,
  spot: number,
  values: Float64Array,
  stride: number,
  channel: number,
  target: Float64Array,
  at: number,
): number {
  const { weight } = views;
  let sum = 0;
  let x = 0;
  let y = 0;
  let z = 0;
  let flat = 0;
  for (let k = views.offset[spot]; k < views.offset[spot + 1]; k++) {
    const tile = visible[k];
    if (tile < 0) continue;
    const exitance = values[stride * tile + channel];
    if (exitance === 0) continue;
    const w = WEIGHTS * k;
    sum += exitance * weight[w];
    x += exitance * weight[w + 1];
    y += exitance * weight[w + 2];
    z += exitance * weight[w + 3];
    flat += exitance * weight[w + 4];
  }
  target[at] += sum / Math.PI;
  target[at + 1] += x / Math.PI;
  target[at + 2] += y / Math.PI;
  target[at + 3] += z / Math.PI;
  return flat / Math.PI;
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
