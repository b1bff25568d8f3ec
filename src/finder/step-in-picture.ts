/** What spoils the picture by where things stand: fronts of lights and panels in the camera's field, a head that the frame
 * cuts. */
import {
  axesOf,
  directionOf,
  faceOutline,
  type Light,
  type Panel,
  type Plan,
  type Vec3,
} from "../plan/index.ts";
import { project, viewfinder } from "../reading/camera-rays.ts";
import { toWorld } from "../reading/head-axes.ts";
import { sitterIn } from "./turning.ts";

/** Any width does: places are told as shares of it. */
const WIDTH = 100;

/** In words, in the order of the plan. What a body hides of a front is not asked: a rim light behind a head comes out with
 * the next step. */
export function pictureFaults(plan: Plan, person: number): string[] {
  const isSeen = seenBy(plan);
  const rectangle = ({ width, height }: Panel) => faceOutline({ shape: "rectangle", width, height });
  const inPicture = [
    ...plan.lights.filter((light) => rimOf(light, faceOutline(light.face)).some(isSeen)),
    ...plan.panels.filter((panel) => rimOf(panel, rectangle(panel)).some(isSeen)),
  ];
  return [
    ...inPicture.map(({ name }) => `${name} is in the picture`),
    ...(headOf(plan, person).every(isSeen) ? [] : ["the frame cuts the head"]),
  ];
}

/** Those of the second that are not among the first. */
export function newly(was: readonly string[], is: readonly string[]): string[] {
  return is.filter((words) => !was.includes(words));
}

function seenBy({ camera }: Plan): (point: Vec3) => boolean {
  const view = viewfinder(camera, WIDTH);
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

/** Points between two corners, so that a long edge does not cross the picture unseen. */
const BETWEEN = 8;

/** The centre and points along the outline, in the room. */
function rimOf(thing: Light | Panel, outline: readonly (readonly [number, number])[]): Vec3[] {
  const { bearing_deg, tilt_deg } = directionOf(thing.direction, thing.position);
  const { right, up } = axesOf(bearing_deg, tilt_deg, thing.roll);
  const at = (a: number, b: number): Vec3 => [
    thing.position[0] + a * right[0] + b * up[0],
    thing.position[1] + a * right[1] + b * up[1],
    thing.position[2] + a * right[2] + b * up[2],
  ];
  const points = [at(0, 0)];
  outline.forEach(([a, b], i) => {
    const [c, d] = outline[(i + 1) % outline.length];
    for (let k = 0; k < BETWEEN; k++)
      points.push(at(a + ((c - a) * k) / BETWEEN, b + ((d - b) * k) / BETWEEN));
  });
  return points;
}
