/** A plan as text: stable order, at most six decimals, so that plans can be mailed and compared. */
import { checkPlan } from "./parse.ts";
import { FORMAT, type Plan, plan as planSchema, VERSION } from "./schema.ts";

export function serialisePlan(plan: Plan): string {
  const ordered = planSchema.parse(plan);
  return `${JSON.stringify(ordered, (_, v) => (typeof v === "number" ? Number(v.toFixed(6)) : v), 2)}\n`;
}

/** An empty room of a common size with the camera where one would stand. */
export function newPlan(): Plan {
  const made = checkPlan({
    format: FORMAT,
    version: VERSION,
    title: "New plan",
    room: { width: 5, depth: 6, height: 3 },
    camera: { position: [2.5, 1, 1.5] },
  });
  if (!made.ok) throw new Error(made.problems[0].what);
  return made.plan;
}
