/** Every small step from a plan as it stands, and what each changes. */
import type { Plan } from "../plan/index.ts";
import type { KeepGoing, Memory } from "../reading/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { TriedSteps } from "./types.ts";

export function trySteps(
  _plan: Plan,
  _person: number,
  _units: LengthUnits,
  _memory: Memory,
  _keepGoing: KeepGoing,
): TriedSteps {
  throw new Error("not built");
}
