import type { ComponentChildren } from "preact";
import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";
import type { Results } from "./results.ts";

interface MovesAroundProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly results: Results;
  /** the large print */
  readonly children: ComponentChildren;
}

/** Small true frames round the print, each one step away, on the side they move to. */
export function MovesAround({ children }: MovesAroundProps) {
  return <div class="moves">{children}</div>;
}
