/** A plan as text: stable order, few decimals, so that plans can be mailed and compared. */
import { round6 } from "./decimals.ts";
import { checkPlan } from "./parse.ts";
import { FORMAT, type Plan, plan as planSchema, VERSION } from "./schema.ts";

/** The plan file: fields in the order of the format, two spaces, at most six decimals (a shutter under
 * a second six digits: a very short one would lose a hundredth of a stop).
 * Accuracy rounds to a micrometre; what is read back is the same plan to that, and writing it again changes nothing */
export function serialisePlan(plan: Plan): string {
  const ordered = planSchema.parse(plan);
  return `${JSON.stringify(ordered, rounded, 2)}\n`;
}

function rounded(key: string, value: unknown): unknown {
  if (typeof value !== "number") return value;
  return key === "shutter" && value < 1 ? Number(value.toPrecision(6)) : round6(value);
}

/** An empty room of a common size with the camera where one would stand. */
export function newPlan(): Plan {
  const made = checkPlan({
    format: FORMAT,
    version: VERSION,
    title: "New plan",
    room: { width: 5, depth: 6, height: 3 },
  });
  if (!made.ok) throw new Error(made.problems[0].what);
  return made.plan;
}
