import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";

/** The hold zone in numbers: how far to each side, what ends it there, how far the head may turn and tip. */
export function HoldPanel(_: { readonly bench: Bench; readonly plan: Plan }) {
  return null;
}
