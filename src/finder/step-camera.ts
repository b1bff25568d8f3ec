/** The camera by an amount: round the sitter's head, up, nearer; and its lens. The sitter stays where they were in the
 * picture. */
import {
  aimCarriedRound,
  type Camera,
  carriedRound,
  directionOf,
  type Edit,
  type Plan,
  type Vec3,
} from "../plan/index.ts";
import { personAt, wallBefore } from "./obstacles.ts";
import { type Made, made, put, refused } from "./step-made.ts";
import { pictureSide, type Sitter } from "./turning.ts";

export const CAMERA_PINNED = "the camera is pinned";

/** Same distance, same height. */
export function cameraRoundBy(plan: Plan, sitter: Sitter, clockwise_deg: number, label: string): Made {
  const { camera } = plan;
  const position = carriedRound(camera.position, sitter.head, clockwise_deg);
  const direction = aimCarriedRound(camera.direction, sitter.head, clockwise_deg);
  return cameraAt(plan, { position, direction }, label);
}

export function cameraUpBy(plan: Plan, sitter: Sitter, up_m: number, label: string): Made {
  const [x, y, z] = plan.camera.position;
  const position: Vec3 = [x, y, z + up_m];
  return cameraAt(plan, { position, direction: sameInPicture(plan, sitter, position) }, label);
}

/** Level, along the line to the head. */
export function cameraNearerBy(plan: Plan, sitter: Sitter, nearer_m: number, label: string): Made {
  const [x, y, z] = plan.camera.position;
  const [dx, dy] = [sitter.head[0] - x, sitter.head[1] - y];
  const far = Math.hypot(dx, dy);
  if (far <= nearer_m) return refused("it is as near as it goes");
  const share = nearer_m / far;
  const position: Vec3 = [x + share * dx, y + share * dy, z];
  return cameraAt(plan, { position, direction: sameInPicture(plan, sitter, position) }, label);
}

/** Along the floor of the room, its aim going along. */
export function cameraMovedBy(plan: Plan, dx_m: number, dy_m: number, label: string): Made {
  const { position, direction } = plan.camera;
  const moved = ([x, y, z]: Readonly<Vec3>): Vec3 => [x + dx_m, y + dy_m, z];
  const aim = "at" in direction ? { at: moved(direction.at) } : direction;
  return cameraAt(plan, { position: moved(position), direction: aim }, label);
}

/** So many stops more light through the lens. */
export function lensOpenBy(plan: Plan, stops: number, label: string): Made {
  return made(plan, put(label, ["camera"], { fNumber: openedBy(plan.camera, stops) }));
}

/** The f-number so many stops more open. */
export function openedBy({ fNumber }: Camera, stops: number): number {
  return fNumber * 2 ** (-stops / 2);
}

/** Stops more that the lens lets through after an edit; 0 where the edit leaves the lens. */
export function lensStops({ camera }: Plan, edit: Edit): number {
  if (edit.kind !== "set") return 0;
  const field = edit.fields.find(({ path }) => path[0] === "camera" && path[1] === "fNumber");
  return typeof field?.value === "number" ? 2 * Math.log2(camera.fNumber / field.value) : 0;
}

function cameraAt(plan: Plan, patch: Pick<Camera, "position" | "direction">, label: string): Made {
  if (plan.camera.pinned) return refused(CAMERA_PINNED);
  const why = wallBefore(plan, patch.position) ?? personAt(plan, patch.position);
  if (why !== null) return refused(why);
  return made(plan, put(label, ["camera"], patch));
}

/** A camera that looks at a point goes on looking at it; another tilts so that the head keeps its height in the picture. */
function sameInPicture({ camera }: Plan, { head }: Sitter, position: Readonly<Vec3>): Camera["direction"] {
  const { direction } = camera;
  if ("at" in direction) return direction;
  const at = { at: [...head] as Vec3 };
  const tilted = directionOf(at, position).tilt_deg - directionOf(at, camera.position).tilt_deg;
  const tilt = Math.min(90, Math.max(-90, direction.tilt + tilted));
  return { bearing: direction.bearing, tilt };
}

/** So it is for a camera that looks at the head; one that looks away goes the other way. */
export function clockwiseIsLeft(plan: Plan, { head }: Sitter, round_deg: number): boolean {
  const { position } = plan.camera;
  const [x, y] = carriedRound(position, head, round_deg);
  return pictureSide(plan, x - position[0], y - position[1]) !== "right";
}
