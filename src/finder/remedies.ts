/** The smallest changes that reach a wish, ranked by how easily a person does them on set. */
import type { Plan } from "../plan/index.ts";
import type { KeepGoing, Memory } from "../reading/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { Ask, Remedy } from "./types.ts";

export function findRemedies(
  _plan: Plan,
  _person: number,
  _ask: Ask,
  _units: LengthUnits,
  _memory: Memory,
  _keepGoing: KeepGoing,
): Remedy[] {
  throw new Error("not built");
}
