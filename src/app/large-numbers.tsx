import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";
import type { Results } from "./results.ts";

/** A few readings, as large as the screen allows: read from across the studio. */
export function LargeNumbers(_: { bench: Bench; plan: Plan; results: Results }) {
  return null;
}
