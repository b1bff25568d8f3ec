/** Where the camera sees a light mirrored in an eye. */
import { type Emitter, rotate, type Tracer } from "../engine/index.ts";
import type { Eye } from "../figure/index.ts";
import type { StagedPerson } from "../staging/index.ts";
import type { Viewfinder } from "./camera-rays.ts";
import type { Lighting } from "./lighting.ts";
import type { Catchlight } from "./types.ts";

/** The start of a ray is lifted off the cornea by this much, metres. */
const LIFT = 3e-4;
const DEGREES_PER_HOUR = 30;

export function readCatchlights(lighting: Lighting, person: number, view: Viewfinder): Catchlight[] {
  const { stage } = lighting;
  const staged = stage.people[person];
  const { leftEye, rightEye } = staged.shape.head;
  const out: Catchlight[] = [];
  for (const [eye, shape] of [
    ["left", leftEye],
    ["right", rightEye],
  ] as const) {
    stage.lights.forEach((light, l) => {
      if (!light.on) return;
      const found = catchlight(stage.tracer, staged, shape, stage.scene.emitters[l], l, view);
      if (found) out.push({ eye, light: light.name, clock: found.clock, visible: found.visible });
    });
  }
  return out;
}

function catchlight(
  tracer: Tracer,
  person: StagedPerson,
  eye: Eye,
  emitter: Emitter,
  light: number,
  view: Viewfinder,
): { clock: number; visible: boolean } | null {
  const cornea = toWorld(person, eye.corneaCentre);
  const globe = toWorld(person, eye.centre);
  const n = mirrorNormal(cornea, eye.corneaRadius, view.position, emitter.centre);
  const p = [0, 1, 2].map((k) => cornea[k] + eye.corneaRadius * n[k]);
  // the iris is drawn round the eye's own axis, as the camera sees it
  const axis = unit([cornea[0] - globe[0], cornea[1] - globe[1], cornea[2] - globe[2]]);
  const apexCentre = [0, 1, 2].map((k) => cornea[k] + eye.corneaRadius * axis[k]);
  const across = dot(minus(p, apexCentre), view.right);
  const upward = dot(minus(p, apexCentre), view.up);
  const hours = (Math.atan2(across, upward) * 180) / Math.PI / DEGREES_PER_HOUR;
  const clock = hours <= 0 ? hours + 12 : hours;
  const toCamera = minus(view.position, p);
  const toLight = minus(emitter.centre, p);
  const onCornea = dot(n, axis) > Math.sqrt(1 - (eye.irisRadius / eye.corneaRadius) ** 2);
  const facesEye = dot(toLight, emitter.forward) < 0;
  const above = dot(n, toCamera) > 0 && dot(n, toLight) > 0;
  const visible =
    onCornea && facesEye && above && clear(tracer, p, n, toCamera, -1) && clear(tracer, p, n, toLight, light);
  return { clock, visible };
}

/** The normal at which a sphere mirrors one point into another: it halves the angle between the two ways.
 * Solved by repeated halving from the sphere's centre; the eye is small against the distances, so that it
 * settles to 1e-12 in a few rounds. */
function mirrorNormal(
  centre: readonly number[],
  radius: number,
  a: ArrayLike<number>,
  b: ArrayLike<number>,
): number[] {
  let n = [0, 0, 0];
  for (let round = 0; round < 20; round++) {
    const p = [0, 1, 2].map((k) => centre[k] + radius * n[k]);
    const u = unit(minus(a, p));
    const v = unit(minus(b, p));
    n = unit([u[0] + v[0], u[1] + v[1], u[2] + v[2]]);
  }
  return n;
}

function clear(tracer: Tracer, p: readonly number[], n: readonly number[], way: number[], except: number) {
  const length = Math.hypot(way[0], way[1], way[2]);
  const o = [0, 1, 2].map((k) => p[k] + LIFT * n[k]);
  return !tracer.occluded(
    o[0],
    o[1],
    o[2],
    way[0] / length,
    way[1] / length,
    way[2] / length,
    length * (1 - 1e-6),
    except,
  );
}

export function toWorld(person: StagedPerson, p: readonly [number, number, number]): number[] {
  const out = new Float64Array(3);
  rotate(person.headRotation, Float64Array.from(p), 0, out, 0);
  return [out[0] + person.headOffset[0], out[1] + person.headOffset[1], out[2] + person.headOffset[2]];
}

function minus(a: ArrayLike<number>, b: ArrayLike<number>): number[] {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function unit(v: readonly number[]): number[] {
  const length = Math.hypot(v[0], v[1], v[2]);
  return length > 0 ? v.map((x) => x / length) : [0, 0, 0];
}
