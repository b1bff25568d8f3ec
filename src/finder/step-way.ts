/** The ways in which one thing of a set-up can change: each by any amount, both ways, with its words. */
import type { Plan } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { Made } from "./step-made.ts";
import type { Sitter } from "./turning.ts";
import type { Ease } from "./types.ts";

export interface Way {
  /** names it within a plan: "lights[0] up" */
  readonly id: string;
  /** the thing: "camera", a name */
  readonly of: string;
  readonly ease: Ease;
  readonly unit: "degrees" | "metres" | "stops";
  /** one small step, and the least that can be done on set: in the way's unit */
  readonly step: number;
  readonly finest: number;
  /** how far it is looked for, either way */
  readonly reach: number;
  /** under the thing's name: "up 15 cm" */
  readonly does: (amount: number) => string;
  /** by itself: "key up 15 cm" */
  readonly label: (amount: number) => string;
  readonly make: (amount: number) => Made;
}

/** What ways are made from. */
export interface Ground {
  readonly plan: Plan;
  readonly sitter: Sitter;
  readonly units: LengthUnits;
}

/** The least that a tape is read to when something is set down: 1 cm, half an inch. */
export const FINEST_M: Readonly<Record<LengthUnits, number>> = { metric: 0.01, feet: 0.0127 };
export const FINEST_DEG = 1;
/** As finely as heads and lenses are told. */
export const FINEST_STOPS = 0.1;

/** A word for either sign of an amount. */
export function either(amount: number, plus: string, minus: string): string {
  return amount < 0 ? minus : plus;
}

export function degreesWords(amount: number): string {
  return `${Math.abs(Math.round(amount))}°`;
}

/** "0.3 stop", "1.5 stops": without a sign, which is told by a word. */
export function unsignedStops(stops: number): string {
  const text = Math.abs(stops).toFixed(1);
  return `${text} ${Number(text) > 1 ? "stops" : "stop"}`;
}
