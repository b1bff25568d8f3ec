import { type Parsed, parsePlan } from "../plan/index.ts";
import { metersInsideBodies } from "../reading/index.ts";

/** A plan from a file's text, with the checks that need the figures too, or everything that is wrong with it. */
export function openPlan(text: string): Parsed {
  const parsed = parsePlan(text);
  if (!parsed.ok || parsed.plan.people.length === 0 || parsed.plan.meters.length === 0) return parsed;
  const problems = metersInsideBodies(parsed.plan);
  return problems.length > 0 ? { ok: false, problems } : parsed;
}
