import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";
import type { Projection } from "./projection.ts";

/** The hold zone on the Floor: the outline round the mark and the largest circle that fits. */
export function HoldLayer(_: {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly projection: Projection;
}) {
  return null;
}
