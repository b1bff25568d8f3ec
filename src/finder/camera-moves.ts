/** The camera round the sitter's head: same distance, same height, the sitter where they were in the picture. */
import type { Plan } from "../plan/index.ts";
import { type Draft, drafted, type Side } from "./move.ts";
import { cameraRoundBy, clockwiseIsLeft } from "./step-camera.ts";
import { ROUND_DEG } from "./steps.ts";
import type { Sitter } from "./turning.ts";

export function cameraRound(plan: Plan, sitter: Sitter, side: Side): Draft {
  const nose = plan.people[sitter.index].head.follows === "camera" ? "follows" : "stays";
  const named = {
    key: `camera-${side}`,
    cost: "camera",
    does: `camera ${ROUND_DEG}° ${side}`,
    side,
    nose,
  } as const;
  const clockwise_deg = ROUND_DEG * (clockwiseIsLeft(plan, sitter, ROUND_DEG) === (side === "left") ? 1 : -1);
  const label = `camera round ${ROUND_DEG}° to the ${side}`;
  return drafted(named, cameraRoundBy(plan, sitter, clockwise_deg, label));
}
