/** Where the people of a plan stand and how they hold their heads. */

import { type PatchedMesh, patchMesh } from "../engine/index.ts";
import {
  bendNeck,
  bendWithNeck,
  buildPerson,
  headRotation,
  type Mesh,
  type PersonShape,
} from "../figure/index.ts";
import type { Person, Plan, Vec3 } from "../plan/index.ts";

export interface StagedPerson {
  readonly name: string;
  readonly shape: PersonShape;
  /** the head's mesh with its neck bent so that the foot stays in the collar; face and landmarks as in `shape` */
  readonly headMesh: Mesh;
  /** hair bent with the neck, so that its ends stay on the shoulders; null for a bare head */
  readonly hairMesh: Mesh | null;
  /** world from head axes, 3 x 3 row-major, and the mid-point between the ears in the world */
  readonly headRotation: Float64Array;
  readonly headOffset: Float64Array;
  /** the head's rotation before turn, tip and tilt */
  readonly baseRotation: Float64Array;
  readonly bodyRotation: Float64Array;
  readonly bodyOffset: Float64Array;
}

/** Height of a patch of a person, metres: fine on the head, where faces are near. */
const HEAD_BAND = 0.03;
const BODY_BAND = 0.3;
const HAIR_BAND = 0.09;
const GLASSES_BAND = 1;

export function shapeOf(person: Person): PersonShape {
  return buildPerson({
    stature: person.stature,
    pose: person.pose,
    seatHeight: person.seatHeight,
    ...(person.eyeHeight === undefined ? {} : { eyeHeight: person.eyeHeight }),
    headSize: person.headSize,
    hair: person.hair.length,
    glasses: person.glasses,
  });
}

/** `shape` is the figure's own unless a test has another. */
export function stagePerson(person: Person, plan: Plan, shape = shapeOf(person)): StagedPerson {
  const [x, y] = person.position;
  const headOffset = Float64Array.of(x, y, shape.earHeight);
  const { turn, tip, tilt, follows } = person.head;
  const camera = plan.camera.position;
  const base =
    follows === "camera"
      ? facingWorld(...toward(camera[0] - x, camera[1] - y, camera[2] - shape.earHeight))
      : facingWorld(person.facing, 0);
  const rotation = multiply(base, headRotation(turn, tip, tilt));
  const bodyRotation = facingWorld(person.facing, 0);
  const bodyFromHead = multiply(transpose(bodyRotation), rotation);
  const { head } = shape;
  // bent when they are first asked for: where somebody stands is asked far more often
  let headMesh: Mesh | null = null;
  let hairMesh: Mesh | null = null;
  return {
    name: person.name,
    shape,
    get headMesh() {
      headMesh ??= bendNeck(head, bodyFromHead).mesh;
      return headMesh;
    },
    get hairMesh() {
      if (shape.hair) hairMesh ??= bendWithNeck(shape.hair, head.scale, bodyFromHead);
      return hairMesh;
    },
    headRotation: rotation,
    headOffset,
    baseRotation: base,
    bodyRotation,
    bodyOffset: Float64Array.of(x, y, 0),
  };
}

/** Where the tip of the nose is, in the room: what distances of lights are measured to. */
export function noseTip({ shape, headRotation: h, headOffset }: StagedPerson): Vec3 {
  const t = shape.head.landmarks.noseTip;
  return [0, 1, 2].map(
    (k) => headOffset[k] + h[3 * k] * t[0] + h[3 * k + 1] * t[1] + h[3 * k + 2] * t[2],
  ) as Vec3;
}

/** Bearing and tilt, degrees, of a direction. */
function toward(x: number, y: number, z: number): [number, number] {
  const deg = 180 / Math.PI;
  return [Math.atan2(x, y) * deg, Math.atan2(z, Math.hypot(x, y)) * deg];
}

/** World from (ahead, own left, up) of somebody who looks along a bearing and tilt. */
function facingWorld(bearing_deg: number, tilt_deg: number): Float64Array {
  const b = (bearing_deg * Math.PI) / 180;
  const t = (tilt_deg * Math.PI) / 180;
  const sb = Math.sin(b);
  const cb = Math.cos(b);
  const st = Math.sin(t);
  const ct = Math.cos(t);
  return Float64Array.of(sb * ct, -cb, -sb * st, cb * ct, sb, -cb * st, st, 0, ct);
}

export function multiply(a: Float64Array, b: Float64Array): Float64Array {
  const out = new Float64Array(9);
  for (let i = 0; i < 3; i++)
    for (let j = 0; j < 3; j++)
      out[3 * i + j] = a[3 * i] * b[j] + a[3 * i + 1] * b[3 + j] + a[3 * i + 2] * b[6 + j];
  return out;
}

function transpose(m: Float64Array): Float64Array {
  return Float64Array.of(m[0], m[3], m[6], m[1], m[4], m[7], m[2], m[5], m[8]);
}

/** Meshes are cut into patches once: shapes are shared between plans. */
const patched = new WeakMap<Mesh, PatchedMesh>();

/** What a person consists of, in the order in which a scene holds it. */
export const PERSON_PARTS = ["head", "body", "hair", "glasses"] as const;
export type PersonPart = (typeof PERSON_PARTS)[number];

const BANDS: Record<PersonPart, number> = {
  head: HEAD_BAND,
  body: BODY_BAND,
  hair: HAIR_BAND,
  glasses: GLASSES_BAND,
};

/** The mesh of a part, as it is in the scene; null where somebody has none. */
export function partMesh(person: StagedPerson, part: PersonPart): Mesh | null {
  if (part === "head") return person.headMesh;
  if (part === "body") return person.shape.body;
  return part === "hair" ? person.hairMesh : (person.shape.glasses?.frame ?? null);
}

export function patchedPart(person: StagedPerson, part: PersonPart): PatchedMesh | null {
  const mesh = partMesh(person, part);
  return mesh && patchedOnce(mesh, BANDS[part]);
}

export function patchedHead(person: StagedPerson): PatchedMesh {
  return patchedOnce(person.headMesh, HEAD_BAND);
}

export function patchedBody(person: StagedPerson): PatchedMesh {
  return patchedOnce(person.shape.body, BODY_BAND);
}

function patchedOnce(mesh: Mesh, band: number): PatchedMesh {
  let made = patched.get(mesh);
  if (!made) {
    made = patchMesh(mesh, band);
    patched.set(mesh, made);
  }
  return made;
}
