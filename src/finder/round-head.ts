/** Which part of the picture a small frame shows: as much as fits round the chosen head, at the print's own place. */
import { axesOf, directionOf, type Plan } from "../plan/index.ts";
import type { PictureRegion } from "../reading/types.ts";
import { sitterIn } from "./turning.ts";

const WHOLE: PictureRegion = { left: 0, top: 0, right: 1, bottom: 1 };
/** Height of what is shown, in head heights: the whole head with room for a step. */
const HEADS_HIGH = 1.4;

/** The head's place in the picture as planned, so that a move shows by how much it shifts. `aspect` is width over height.
 * The widest of that shape where the picture holds less; all of its width or height where nobody is in it */
export function regionRoundHead(plan: Plan, person: number, aspect: number): PictureRegion {
  const { camera } = plan;
  const isPortrait = camera.orientation === "portrait";
  const across = (isPortrait ? camera.sensor.height : camera.sensor.width) / camera.focalLength;
  const upward = (isPortrait ? camera.sensor.width : camera.sensor.height) / camera.focalLength;
  const sitter = sitterIn(plan, person);
  const seen = sitter === null ? null : headInView(plan, sitter.head, sitter.staged.shape.head.landmarks);
  const most = Math.min(upward, across / aspect);
  const isIn = seen !== null && Math.abs(seen.x) < across / 2 && Math.abs(seen.y) < upward / 2;
  const height = isIn ? Math.min(most, HEADS_HIGH * seen.height) : most;
  const width = aspect * height;
  const x = clamp(isIn ? seen.x : 0, (across - width) / 2);
  const y = clamp(isIn ? seen.y : 0, (upward - height) / 2);
  if (width >= across && height >= upward) return WHOLE;
  return {
    left: 0.5 + (x - width / 2) / across,
    right: 0.5 + (x + width / 2) / across,
    top: 0.5 - (y + height / 2) / upward,
    bottom: 0.5 - (y - height / 2) / upward,
  };
}

/** Tangents from the camera's axis, right and up, of the head's middle, and the head's height. */
function headInView(
  { camera }: Plan,
  head: readonly number[],
  { crown, chin }: { crown: readonly number[]; chin: readonly number[] },
): { x: number; y: number; height: number } | null {
  const { bearing_deg, tilt_deg } = directionOf(camera.direction, camera.position);
  const { forward, right, up } = axesOf(bearing_deg, tilt_deg, camera.roll);
  const d = [0, 1, 2].map((k) => head[k] - camera.position[k]);
  const along = (axis: readonly number[]) => d[0] * axis[0] + d[1] * axis[1] + d[2] * axis[2];
  const depth = along(forward);
  if (!(depth > 0)) return null;
  return { x: along(right) / depth, y: along(up) / depth, height: (crown[2] - chin[2]) / depth };
}

function clamp(value: number, most: number): number {
  return Math.min(most, Math.max(-most, value)) + 0;
}
