/** `tapemark find`: set-ups for a brief, in words, as data, and as a plan to go on with. */
import type { FindAnswer } from "../finder/index.ts";
import { type Plan, serialisePlan } from "../plan/index.ts";
import { findSetUps, WorkError } from "../workbench/index.ts";
import { onThreads, outOption, planAt, type Surroundings } from "./around.ts";
import { CallError, onePlan, readCall, wholeNumber } from "./call.ts";
import { findText } from "./find-text.ts";
import { writeOutput } from "./output.ts";

const MOST_SET_UPS = 5;

export async function find(words: readonly string[], around: Surroundings): Promise<number> {
  const form = { json: { type: "boolean" }, out: { type: "string" }, take: { type: "string" } } as const;
  const call = readCall(words, form, "find");
  const out = call.values.out === undefined ? null : outOption(call.values.out, "find", ["json"]);
  const { take } = call.values;
  if (take !== undefined && out === null)
    throw new CallError("find: --take says which set-up --out writes; add --out PLAN.json");
  const wanted = take === undefined ? 1 : wholeNumber(take, "take", 1, MOST_SET_UPS);
  const plan = await planAt(onePlan(call, "find"), around);
  if (plan === null) return 1;
  const lacking = whatIsLacking(plan);
  for (const line of lacking) around.error(`${line}\n`);
  if (lacking.length > 0) return 1;
  const answer = asWritten(await searched(plan, around));
  if (out !== null) writeTaken(answer, wanted, out.path, around);
  around.out(call.values.json === true ? `${JSON.stringify(answer, null, 2)}\n` : findText(plan, answer));
  return 0;
}

/** What a plan must have for a search, beyond being a plan: each with its cure. */
export function whatIsLacking({ brief, people, lights }: Plan): string[] {
  const out: string[] = [];
  if (brief === null)
    out.push('brief: must say what is wanted; this plan has none: add "brief": { "want": { … } }');
  if (people.length === 0) out.push("people: must have somebody to light; nobody is there: add a person");
  // those that are pinned stay on where gear is listed
  const onHand = brief?.gear ? [...brief.gear.lights, ...lights.filter((l) => l.pinned && l.on)] : lights;
  const hasLight = onHand.length > 0;
  if (brief !== null && !hasLight)
    out.push(
      brief.gear
        ? "brief.gear.lights: must have a light to work with; it has none: list what is on hand"
        : "lights: must have a light to work with; there is none: add one, or list what is on hand in brief.gear",
    );
  return out;
}

async function searched(plan: Plan, around: Surroundings): Promise<FindAnswer> {
  return onThreads(around, "before the search was over", (finders, work) => findSetUps(plan, finders, work));
}

/** Plans as a file would have them, so that what is printed and what is written are the same to the last digit. */
export function asWritten(answer: FindAnswer): FindAnswer {
  return {
    ...answer,
    setUps: answer.setUps.map((setUp) => ({
      ...setUp,
      plan: JSON.parse(serialisePlan(setUp.plan)) as Plan,
    })),
  };
}

export function writeTaken(
  { setUps, isMet }: FindAnswer,
  wanted: number,
  path: string,
  around: Pick<Surroundings, "error">,
) {
  const taken = setUps[wanted - 1];
  if (taken === undefined && setUps.length > 0)
    throw new CallError(`--take: ${wanted} is not there; the search found ${setUps.length}`);
  if (taken === undefined)
    throw new WorkError(
      "nothing could be built, so there is no plan to write",
      "give the brief more room or other gear",
    );
  writeOutput(path, Buffer.from(serialisePlan(taken.plan)));
  if (!taken.isMet)
    around.error(
      `tapemark: set-up ${wanted} does not meet the brief${isMet ? "" : "; none does"}; written to ${path} all the same\n`,
    );
}
