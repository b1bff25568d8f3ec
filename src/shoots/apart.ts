/** What a question between two states of one plan is about, in few words. */
import type { Plan } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { planChanges } from "./changes.ts";
import type { PlanChange } from "./types.ts";

/** How two plans that began as one differ, a line each: "key, power: −2.2 of 400 Ws here, −2.9 of 400 Ws there". What both
 * changed comes first, because that is what is asked about; the rest follows, because it is decided along with it.
 * Shape   base: the plan that both began from; null where nobody knows it
 * Units   lengths as `units` says
 * Errors  none: all are checked plans
 * @example ISO 400 here and 200 there -> ["camera: ISO 400 here, ISO 200 there"] */
export function linesApart(here: Plan, there: Plan, base: Plan | null, units: LengthUnits): string[] {
  const changes = planChanges(here, there, units);
  if (base === null) return changes.map(apartLine);
  const [mine, theirs] = [here, there].map((plan) => new Set(planChanges(base, plan, units).map(fieldOf)));
  const isOfBoth = (change: PlanChange) => mine?.has(fieldOf(change)) && theirs?.has(fieldOf(change));
  const rest = changes.filter((change) => !isOfBoth(change));
  return [...changes.filter(isOfBoth), ...rest].map(apartLine);
}

const fieldOf = ({ what, which }: PlanChange) => `${what}, ${which}`;

function apartLine({ after, before, change, what, which }: PlanChange): string {
  if (which === "there") return `${what}: only ${before === "" ? "there" : "here"}`;
  // "ISO 400" names its field itself
  const field = after.startsWith(which) ? what : `${what}, ${which}`;
  // two numbers that are shown alike, or a text too long to show
  if (before === after) return `${field}: ${before === "" ? "" : `${before} in both, `}${change} there`;
  return `${field}: ${before === "" ? "nothing" : before} here, ${after === "" ? "nothing" : after} there`;
}
