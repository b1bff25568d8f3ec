/** Where the light on a face comes from: the light vector at the bridge of the nose, this person taken away. */
import type { Plan } from "../plan/index.ts";
import { fieldsAt, totalField } from "./field.ts";
import { glanceWithout } from "./glance.ts";
import { toWorld } from "./head-axes.ts";
import { type Lighting, lightUp } from "./lighting.ts";

const BRIDGE_RAYS = 1024;
const DEGREE = Math.PI / 180;

export interface BridgeLight {
  /** degrees in the head's own axes; null where nothing arrives */
  readonly azimuth: number | null;
  readonly elevation: number | null;
  readonly vectorScalarRatio: number | null;
  /** length of the light vector, lx.s */
  readonly arriving: number;
}

export function noseBridgeOf(lighting: Lighting, person: number): [number, number, number] {
  const staged = lighting.stage.people[person];
  const [x, y, z] = toWorld(staged, staged.shape.head.landmarks.noseBridge);
  return [x, y, z];
}

export function readBridge(plan: Plan, lighting: Lighting, person: number): BridgeLight {
  const alone =
    lighting.effort === "glance"
      ? glanceWithout(lighting, person)
      : lightUp(plan, "coarse", lighting.memory, person);
  const spot = { position: noseBridgeOf(lighting, person), direction: [0, 0, 1] as const };
  const [fields] = fieldsAt(alone, `bridge ${person}`, [spot], BRIDGE_RAYS, "meter");
  const f = totalField(alone, fields);
  const scalar = f[0] / 4;
  const length = Math.hypot(f[1], f[2], f[3]);
  if (!(scalar > 0)) return { azimuth: null, elevation: null, vectorScalarRatio: null, arriving: 0 };
  if (!(length > 1e-9 * scalar)) return { azimuth: null, elevation: null, vectorScalarRatio: 0, arriving: 0 };
  // head axes from world: the transpose of the head's rotation
  const r = lighting.stage.people[person].headRotation;
  const ahead = (r[0] * f[1] + r[3] * f[2] + r[6] * f[3]) / length;
  const left = (r[1] * f[1] + r[4] * f[2] + r[7] * f[3]) / length;
  const up = (r[2] * f[1] + r[5] * f[2] + r[8] * f[3]) / length;
  return {
    azimuth: Math.atan2(left, ahead) / DEGREE,
    elevation: Math.asin(Math.max(-1, Math.min(1, up))) / DEGREE,
    vectorScalarRatio: length / scalar,
    arriving: length,
  };
}
