/** A brief that asks for nothing. */
import { checkPlan } from "./parse.ts";
import { type Brief, FORMAT, VERSION } from "./schema.ts";

let empty: Brief | null = null;

/** What is asked for where nothing is: everything free, with the air and the hold zone of the format. */
export function emptyBrief(): Brief {
  if (empty !== null) return empty;
  const checked = checkPlan({ format: FORMAT, version: VERSION, brief: {} });
  if (!checked.ok || checked.plan.brief === null) throw new Error("an empty brief is a brief");
  empty = checked.plan.brief;
  return empty;
}
