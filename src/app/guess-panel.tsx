import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";
import type { Results } from "./results.ts";

/** The guess: the nose's shadow and the f-number, then how far off they were. */
export function GuessPanel(_: { bench: Bench; plan: Plan; results: Results }) {
  return null;
}
