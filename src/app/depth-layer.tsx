import type { Plan } from "../plan/index.ts";
import type { Projection } from "./projection.ts";

/** On the Side: from where to where the picture is sharp. */
export function DepthLayer(_: { plan: Plan; person: number; projection: Projection }) {
  return null;
}
