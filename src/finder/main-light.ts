/** The light that a face owes most to, as a dome at the head turned as the nose would read it, nothing in the way. */
import { cutFace, directField, Tracer } from "../engine/index.ts";
import type { Plan } from "../plan/index.ts";
import { stage } from "../staging/index.ts";
import { fromNose, type Sitter } from "./turning.ts";

/** Parts of a front: a coarse cut tells the strongest light from the others. */
const RINGS = 2;

export interface MainLight {
  readonly index: number;
  readonly name: string;
  /** where it stands, as the nose sees it */
  readonly azimuth: number;
  readonly elevation: number;
}

/** Null where none is on that reaches the face's side of the head. */
export function mainLight(plan: Plan, sitter: Sitter): MainLight | null {
  const bare = stage({ ...plan, room: null, backdrop: null, panels: [], people: [] });
  const tracer = new Tracer(bare.scene);
  const r = sitter.staged.headRotation;
  const [x, y, z] = sitter.head;
  let best = -1;
  let most = 0;
  bare.lights.forEach((light, l) => {
    const emitter = bare.scene.emitters[l];
    if (!light.on || emitter === undefined) return;
    const field = { sum: 0, x: 0, y: 0, z: 0 };
    directField(tracer, l, cutFace(emitter, RINGS), x, y, z, false, field);
    const dome = (field.sum + field.x * r[0] + field.y * r[3] + field.z * r[6]) / 2;
    const weight = light.meterWeights[0] + light.meterWeights[1] + light.meterWeights[2];
    const read = dome * light.lumenSeconds * weight;
    if (read > most) [best, most] = [l, read];
  });
  const light = plan.lights[best];
  if (light === undefined) return null;
  return { index: best, name: light.name, ...fromNose(sitter, light.position) };
}
