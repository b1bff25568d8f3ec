/** From where to where a plan's picture is sharp, focused on the nearer eye of one person. */
import { circleOfConfusion, depthOfField } from "../photometry/index.ts";
import type { Plan } from "../plan/index.ts";
import { stagePerson } from "../staging/index.ts";
import { project, type Viewfinder, viewfinder } from "./camera-rays.ts";
import { toWorld } from "./head-axes.ts";
import type { PictureRegion } from "./types.ts";

/** Distances along the axis from the camera, metres: what is sharp lies between two planes across it. */
export interface Sharpness {
  readonly near_m: number;
  /** Infinity where everything behind is sharp */
  readonly far_m: number;
  /** the plane of the nearer eye */
  readonly focus_m: number;
  /** widest blur on the sensor that still counts as sharp */
  readonly circle_mm: number;
}

/** Null where nobody is, or where the eyes are beside or behind the camera or nearer than it can focus. */
export function sharpness(plan: Plan, person: number): Sharpness | null {
  const eyes = eyesOf(plan, person);
  if (eyes === null) return null;
  const { focalLength, fNumber, sensor } = plan.camera;
  const view = viewfinder(plan.camera, 1);
  const focus_m = Math.min(...eyes.map((eye) => depthOf(view, eye)));
  if (!(focus_m * 1000 > focalLength)) return null;
  const circle_mm = circleOfConfusion(sensor.width, sensor.height);
  const { near_mm, far_mm } = depthOfField(focalLength, fNumber, circle_mm, focus_m * 1000);
  return { near_m: near_mm / 1000, far_m: far_mm / 1000, focus_m, circle_mm };
}

/** As wide as the eyes and their lids need: this many distances from eye to eye. */
const EYES_ACROSS = 1.65;

/** The part of the picture round the eyes, of the whole picture's proportions; null where they are outside it. */
export function eyesPart(plan: Plan, person: number): PictureRegion | null {
  const eyes = eyesOf(plan, person);
  if (eyes === null) return null;
  const view = viewfinder(plan.camera, 1);
  const seen = eyes.map((eye) => project(view, eye));
  const [a, b] = seen;
  if (a === null || b === null) return null;
  const [x, y] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2 / view.height];
  if (!(x > 0 && x < 1 && y > 0 && y < 1)) return null;
  const [l, r] = eyes;
  // by their distance in space: a head in profile is not looked at more closely
  const apart = Math.hypot(l[0] - r[0], l[1] - r[1], l[2] - r[2]);
  const size = Math.min(1, (EYES_ACROSS * apart) / (2 * view.tanX * depthOf(view, l)));
  // an eye at the picture's edge is shown there: beyond it the camera sees nothing
  const from = (middle: number) => Math.min(Math.max(middle - size / 2, 0), 1 - size);
  return { left: from(x), top: from(y), right: from(x) + size, bottom: from(y) + size };
}

function eyesOf(plan: Plan, person: number): number[][] | null {
  const who = plan.people[person];
  if (who === undefined) return null;
  const staged = stagePerson(who, plan);
  const { leftEye, rightEye } = staged.shape.head;
  // within half a centimetre of the iris, which is what is focused on
  return [leftEye, rightEye].map((eye) => toWorld(staged, eye.corneaCentre));
}

function depthOf({ position, forward }: Viewfinder, at: readonly number[]): number {
  return [0, 1, 2].reduce((sum, k) => sum + (at[k] - position[k]) * forward[k], 0);
}
