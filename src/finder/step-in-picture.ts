/** What spoils the picture by where things stand: fronts of lights and panels in the camera's field, a head that the frame
 * cuts. */
import type { Plan, Vec3 } from "../plan/index.ts";
import { project, type Viewfinder, viewfinder } from "../reading/camera-rays.ts";
import { toWorld } from "../reading/head-axes.ts";
import { showsIn } from "./in-picture.ts";
import { sitterIn } from "./turning.ts";

/** Any width does: places are told as shares of it. */
const WIDTH = 100;

/** In words, in the order of the plan. What a body hides of a front is not asked: a rim light behind a head comes out with
 * the next step. */
export function pictureFaults(plan: Plan, person: number): string[] {
  const view = viewfinder(plan.camera, WIDTH);
  const inPicture = [...plan.lights, ...plan.panels].filter((thing) => showsIn(view, thing));
  return [
    ...inPicture.map(({ name }) => `${name} is in the picture`),
    ...(headOf(plan, person).every(seenBy(view)) ? [] : ["the frame cuts the head"]),
  ];
}

/** Those of the second that are not among the first. */
export function newly(was: readonly string[], is: readonly string[]): string[] {
  return is.filter((words) => !was.includes(words));
}

function seenBy(view: Viewfinder): (point: Vec3) => boolean {
  return (point) => {
    const at = project(view, point);
    return at !== null && at[0] >= 0 && at[0] <= view.width && at[1] >= 0 && at[1] <= view.height;
  };
}

/** Half the width of a head over the ears, metres: near enough for all sizes. */
const HALF_HEAD_M = 0.08;

/** Crown, chin and both sides, in the room. */
function headOf(plan: Plan, person: number): Vec3[] {
  const sitter = sitterIn(plan, person);
  if (sitter === null) return [];
  const { crown, chin } = sitter.staged.shape.head.landmarks;
  const points = [crown, chin, [0, HALF_HEAD_M, 0], [0, -HALF_HEAD_M, 0]];
  return points.map((point) => {
    const [x, y, z] = toWorld(sitter.staged, point);
    return [x, y, z];
  });
}
