/** The words of planning the same look again: elsewhere, or with other gear. */
import type { Gear, Plan, Room } from "../plan/index.ts";
import type { PlanChange } from "./types.ts";

export interface ReplanAsk {
  /** null is open space; the plan's own room where it stays */
  readonly room: Room | null;
  /** what there is instead; null where the gear is what stands in the plan */
  readonly gear: Gear | null;
}

/** A number of the look, as it was read and as it reads now. */
export interface KeptNumber {
  /** "pattern", "ratio", "lit cheek", … */
  readonly what: string;
  readonly before: string;
  readonly after: string;
  /** within what a look may differ by and still be the same */
  readonly isKept: boolean;
}

/** as it was: nothing had to be done. moved over: the set as it is, fitted in and its powers set anew. found: searched for
 * anew by what was read of the look. */
export type ReplanWay = "as it was" | "moved over" | "found";

export interface Replanned {
  readonly way: ReplanWay;
  /** a plan of its own, that can be opened */
  readonly plan: Plan;
  /** from the plan that was given to this one */
  readonly changes: readonly PlanChange[];
  /** "the ceiling is 70 cm lower: key 40 cm nearer, power 1.2 stops down" */
  readonly reasons: readonly string[];
  readonly kept: readonly KeptNumber[];
  /** what could not be kept, in sentences without their full stop; empty where all of it was */
  readonly lost: readonly string[];
}

/** Nothing to plan again, or nowhere to do it: what is wrong, and the cure. */
export class ReplanError extends Error {
  constructor(
    readonly problem: string,
    readonly cure: string,
  ) {
    super(`${problem}; ${cure}`);
    this.name = "ReplanError";
  }
}
