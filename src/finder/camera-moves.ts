/** The camera round the sitter's head: same distance, same height, the sitter where they were in the picture. */
import type { Plan } from "../plan/index.ts";
import { blocked, type Draft, draft, put, type Side } from "./move.ts";
import { personAt, wallBefore } from "./obstacles.ts";
import { ROUND_DEG } from "./steps.ts";
import { aimCarriedRound, carriedRound, pictureSide, type Sitter } from "./turning.ts";

export function cameraRound(plan: Plan, sitter: Sitter, side: Side): Draft {
  const { camera } = plan;
  const nose = plan.people[sitter.index].head.follows === "camera" ? "follows" : "stays";
  const named = {
    key: `camera-${side}`,
    cost: "camera",
    does: `camera ${ROUND_DEG}° ${side}`,
    side,
    nose,
  } as const;
  if (camera.pinned) return blocked(named, "the camera is pinned");
  const clockwise_deg = ROUND_DEG * (clockwiseIsLeft(plan, sitter) === (side === "left") ? 1 : -1);
  const position = carriedRound(camera.position, sitter.head, clockwise_deg);
  const why = wallBefore(plan, position) ?? personAt(plan, position);
  if (why !== null) return blocked(named, why);
  const direction = aimCarriedRound(camera.direction, sitter.head, clockwise_deg);
  const label = `camera round ${ROUND_DEG}° to the ${side}`;
  return draft(plan, named, put(label, ["camera"], { position, direction }));
}

/** So it is for a camera that looks at the head; one that looks away goes the other way. */
function clockwiseIsLeft(plan: Plan, { head }: Sitter): boolean {
  const { position } = plan.camera;
  const [x, y] = carriedRound(position, head, ROUND_DEG);
  return pictureSide(plan, x - position[0], y - position[1]) !== "right";
}
