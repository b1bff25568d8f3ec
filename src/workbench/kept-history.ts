/** The undo history as it is kept: plain data in which what did not change is written once. */
import { begin, checkPlan, current, type History, type Plan, record, type Step } from "../plan/index.ts";
import { mergePlans } from "./merge-plans.ts";

/** A part's number in the table, or one number per list entry. */
type PartRefs = Record<string, number | number[]>;

export interface KeptHistory {
  /** the file as it was last opened, to notice that it has changed since */
  readonly opened: string;
  readonly at: number;
  readonly parts: readonly unknown[];
  readonly steps: readonly { readonly label: string; readonly plan: PartRefs }[];
}

/** A store takes at most 8 MiB a work; the rest of the message needs room too. Older steps give way first. */
export const MOST_HISTORY_CHARACTERS = 6 * 1024 * 1024;

interface Part {
  readonly value: unknown;
  readonly text: string;
}
/** Plans never change once made, so each is taken apart once. */
const takenApart = new WeakMap<Plan, Record<string, Part | Part[]>>();

function partsOf(plan: Plan): Record<string, Part | Part[]> {
  const known = takenApart.get(plan);
  if (known) return known;
  const parts: Record<string, Part | Part[]> = {};
  for (const [key, value] of Object.entries(plan)) {
    if (value !== undefined) parts[key] = Array.isArray(value) ? value.map(partOf) : partOf(value);
  }
  takenApart.set(plan, parts);
  return parts;
}

function partOf(value: unknown): Part {
  return { value, text: JSON.stringify(value) };
}

/** Packs the newest steps that fit. */
export function packHistory(
  history: History,
  opened: string,
  most_characters = MOST_HISTORY_CHARACTERS,
): KeptHistory {
  const table = new Map<string, number>();
  const parts: unknown[] = [];
  let characters = opened.length;
  const number = ({ text, value }: Part): number => {
    let index = table.get(text);
    if (index === undefined) {
      index = parts.push(value) - 1;
      table.set(text, index);
      characters += text.length;
    }
    return index;
  };
  const packed: { label: string; plan: PartRefs }[] = [];
  let first = history.steps.length;
  while (first > 0 && (characters < most_characters || first > history.at)) {
    const step = history.steps[--first];
    const plan: PartRefs = {};
    for (const [key, part] of Object.entries(partsOf(step.plan))) {
      plan[key] = Array.isArray(part) ? part.map(number) : number(part);
    }
    characters += JSON.stringify(plan).length + step.label.length;
    packed.push({ label: step.label, plan });
  }
  return { opened, at: history.at - first, parts, steps: packed.reverse() };
}

/** The history that was kept, each plan checked (and brought to today's version). Where the history cannot be
 * used, one that begins at the kept plan; null where that is no plan either. */
export function unpackHistory(kept: unknown, keptPlan: unknown): { history: History; opened: string } | null {
  const opened = isRecord(kept) && typeof kept.opened === "string" ? kept.opened : "";
  const whole = isKeptHistory(kept) ? stepsOf(kept) : null;
  if (whole) return { history: { steps: whole, at: (kept as KeptHistory).at }, opened };
  const alone = checkPlan(keptPlan);
  return alone.ok ? { history: begin(alone.plan), opened } : null;
}

function stepsOf(kept: KeptHistory): Step[] | null {
  const steps: Step[] = [];
  for (const { label, plan } of kept.steps) {
    const value: Record<string, unknown> = {};
    for (const [key, ref] of Object.entries(plan)) {
      value[key] = Array.isArray(ref) ? ref.map((r) => kept.parts[r]) : kept.parts[ref];
    }
    const checked = checkPlan(value);
    if (!checked.ok) return null;
    steps.push({ label, plan: checked.plan, mergeKey: null });
  }
  return steps;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function isKeptHistory(value: unknown): value is KeptHistory {
  if (!isRecord(value) || !Array.isArray(value.parts) || !Array.isArray(value.steps)) return false;
  const { at, steps } = value;
  if (!Number.isInteger(at) || (at as number) < 0 || (at as number) >= steps.length) return false;
  return steps.every((step) => isRecord(step) && typeof step.label === "string" && isRecord(step.plan));
}

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

/** How many steps two histories have in common from their beginning on. */
function sharedSteps(a: readonly Step[], b: readonly Step[]): number {
  let shared = 0;
  while (shared < a.length && shared < b.length && isSamePlan(a[shared].plan, b[shared].plan)) shared++;
  return shared;
}

/** One history of two that went on apart, on screen what both did since `base`, the plan that they last had in common
 * (where nobody knows it: the last step that both have). Null where both changed the same: somebody has to say. */
export function meetHistories(mine: History, theirs: History, base: Plan | null): History | null {
  const a = theirs.steps.slice(0, theirs.at + 1);
  const b = mine.steps.slice(0, mine.at + 1);
  const shared = sharedSteps(a, b);
  if (shared === a.length) return mine;
  const common = base ?? (shared > 0 ? a[shared - 1].plan : null);
  if (common === null) return null;
  const [left, right] = [current(mine), current(theirs)];
  if (isSamePlan(left, common)) return shared === b.length ? theirs : joinHistories(mine, theirs);
  if (isSamePlan(left, right) || isSamePlan(right, common)) return joinHistories(theirs, mine);
  const merged = mergePlans(common, left, right);
  return merged && record(joinHistories(theirs, mine), "merged with what was kept elsewhere", merged);
}

export function isSamePlan(a: Plan, b: Plan): boolean {
  return a === b || JSON.stringify(a) === JSON.stringify(b);
}
