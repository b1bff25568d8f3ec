import { type Beside, type Parsed, parsePlan } from "../plan/index.ts";
import { metersInsideBodies } from "../reading/index.ts";

/** A plan from a file's text, with the checks that need the figures too, or everything that is wrong with it.
 * `beside` gives the text of files that lie beside the plan's own. */
export function openPlan(text: string, beside?: Beside): Parsed {
  const parsed = parsePlan(text, beside);
  if (!parsed.ok || parsed.plan.people.length === 0 || parsed.plan.meters.length === 0) return parsed;
  const problems = metersInsideBodies(parsed.plan);
  return problems.length > 0 ? { ok: false, problems } : parsed;
}
