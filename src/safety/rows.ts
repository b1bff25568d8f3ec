/** Every sum of a plan. */
import type { Plan } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { mainsRows } from "./mains-rows.ts";
import { roomRows } from "./room-rows.ts";
import { supportRows } from "./support-rows.ts";
import type { SafetyRow } from "./types.ts";

/** Weights on stands and arms, air under ceiling and sprinklers, watts on circuits: load against load.
 * Shape    one row a support, one of what is not weighed, one of the room, one a circuit, in this order
 * Units    lengths, weights and moments as units says; W and A for mains
 * Domain   any plan; what is not given is asked for, never guessed beyond what the format fills in
 * Errors   none
 * Accuracy section 14 to six figures before rounding [SF1]; the sums know only what is written in the plan */
export function safetyRows(plan: Plan, units: LengthUnits): SafetyRow[] {
  return [...supportRows(plan, units), ...roomRows(plan, units), ...mainsRows(plan)];
}
