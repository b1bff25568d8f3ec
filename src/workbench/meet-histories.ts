/** Two undo histories of one work that went on apart, made one. */
import { current, type History, isSameData, type Plan, record, type Step } from "../plan/index.ts";
import { mergePlans } from "./merge-plans.ts";

const MERGED = "merged with what was kept elsewhere";

/** Both histories one after the other, what they share once: nothing that either did is lost. */
export function joinHistories(first: History, second: History): History {
  const a = first.steps.slice(0, first.at + 1);
  const b = second.steps.slice(0, second.at + 1);
  const shared = sharedSteps(a, b);
  const steps = [...a, ...b.slice(shared)];
  const last = steps[steps.length - 1];
  // what the second ended on is on screen, also when it is where both began
  if (!isSamePlan(last.plan, current(second))) steps.push(b[b.length - 1]);
  return { steps, at: steps.length - 1 };
}

/** One history of two that went on apart, on screen what both did since `base`, the plan that they last had in common
 * (where nobody knows it: the last step that both have). Where it can be, it is as if mine had been done after theirs:
 * undo takes back mine, step by step, and leaves theirs. Null where both changed the same: somebody has to say. */
export function meetHistories(mine: History, theirs: History, base: Plan | null): History | null {
  const a = theirs.steps.slice(0, theirs.at + 1);
  const b = mine.steps.slice(0, mine.at + 1);
  const shared = sharedSteps(a, b);
  // one side has only what came from the other, unless it has gone back from what both had
  if (shared === a.length && !isBeyond(b, base, shared)) return mine;
  if (shared === b.length && !isBeyond(a, base, shared)) return theirs;
  const common = base ?? (shared > 0 ? a[shared - 1].plan : null);
  if (common === null) return null;
  const [left, right] = [current(mine), current(theirs)];
  if (isSamePlan(left, common)) return holds(theirs, b) ? theirs : joinHistories(mine, theirs);
  if (isSamePlan(right, common) && holds(mine, a)) return mine;
  if (isSamePlan(left, right) || isSamePlan(right, common)) return joinHistories(theirs, mine);
  const merged = mergePlans(common, left, right);
  if (merged === null) return null;
  if (shared === b.length) return record(theirs, MERGED, merged);
  return rebase(b, a, shared, merged) ?? record(joinHistories(theirs, mine), MERGED, merged);
}

/** Whether all these steps are there, those that were undone counted in. */
function holds(history: History, steps: readonly Step[]): boolean {
  return sharedSteps(history.steps, steps) === steps.length;
}

/** My steps done again on top of theirs; null where one of them cannot be, or where that would not end in `merged`. */
function rebase(
  mine: readonly Step[],
  theirs: readonly Step[],
  shared: number,
  merged: Plan,
): History | null {
  if (shared === 0) return null;
  const steps = [...theirs];
  for (let i = shared; i < mine.length; i++) {
    const plan = mergePlans(mine[i - 1].plan, mine[i].plan, steps[steps.length - 1].plan);
    if (plan === null) return null;
    steps.push({ ...mine[i], plan });
  }
  return isSamePlan(steps[steps.length - 1].plan, merged) ? { steps, at: steps.length - 1 } : null;
}

/** Whether `base` is a step after the first `shared` ones. */
function isBeyond(steps: readonly Step[], base: Plan | null, shared: number): boolean {
  return base !== null && steps.slice(shared).some((step) => isSamePlan(step.plan, base));
}

/** How many steps two histories have in common from their beginning on. */
function sharedSteps(a: readonly Step[], b: readonly Step[]): number {
  let shared = 0;
  while (shared < a.length && shared < b.length && isSamePlan(a[shared].plan, b[shared].plan)) shared++;
  return shared;
}

export function isSamePlan(a: Plan, b: Plan): boolean {
  return isSameData(a, b);
}
