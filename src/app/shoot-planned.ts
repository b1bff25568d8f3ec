/** Where the plan's own face stands in its picture, and its light as the camera sees it. */
import type { Plan } from "../plan/index.ts";
import { type FaceReading, viewfinder } from "../reading/index.ts";
import { stagePerson } from "../staging/index.ts";
import { type Angles, facePlaceOf } from "../testframe/index.ts";

const RADIANS = Math.PI / 180;
/** Where the bridge of the nose lies in a face's box, from its top: measured on the plans' own heads. */
export const BRIDGE = 0.36;

export interface PlannedFace {
  /** the bridge of the nose, shares of the picture's width and height */
  readonly x: number;
  readonly y: number;
  /** height of the face as in a photograph, share of the picture's height */
  readonly size: number;
  readonly fromCamera: Angles;
}

/** Null where nobody is, behind the camera, or where no light arrives from anywhere in particular. */
export function plannedFace(plan: Plan, person: number, light: FaceReading["light"]): PlannedFace | null {
  const who = plan.people[person];
  const { azimuth, elevation } = light;
  if (who === undefined || azimuth === null || elevation === null) return null;
  const staged = stagePerson(who, plan);
  const view = viewfinder(plan.camera, 1);
  const place = facePlaceOf(plan, staged);
  if (place === null) return null;
  const [az, el] = [azimuth * RADIANS, elevation * RADIANS];
  // the head's axes: ahead, to the own left, up
  const from = turned(staged.headRotation, [
    Math.cos(el) * Math.cos(az),
    Math.cos(el) * Math.sin(az),
    Math.sin(el),
  ]);
  const [right, up, out] = [dot(from, view.right), dot(from, view.up), -dot(from, view.forward)];
  return {
    x: place.x,
    y: place.y + (BRIDGE - 0.5) * place.size,
    size: place.size,
    fromCamera: {
      azimuth: Math.atan2(right, out) / RADIANS,
      elevation: Math.asin(Math.min(1, Math.max(-1, up))) / RADIANS,
    },
  };
}

function turned(m: ArrayLike<number>, v: ArrayLike<number>): number[] {
  return [0, 3, 6].map((row) => m[row] * v[0] + m[row + 1] * v[1] + m[row + 2] * v[2]);
}

function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
