/** The undo history as it is kept: plain data in which what did not change is written once. */
import { begin, checkPlan, type History, type Plan, type Step } from "../plan/index.ts";

/** A part's number in the table, or one number per list entry. */
type PartRefs = Record<string, number | number[]>;

/** What a step has otherwise than the step before it; null where it has no such part any more. */
type ChangedRefs = Record<string, number | number[] | null>;

export interface KeptHistory {
  /** the file as it was last opened, to notice that it has changed since */
  readonly opened: string;
  readonly at: number;
  readonly parts: readonly unknown[];
  readonly steps: readonly { readonly label: string; readonly plan: ChangedRefs }[];
  /** the parts that a step does not name are those of the step before it; in what older versions kept, it has none */
  readonly carries?: true;
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
  const steps = packed.reverse();
  return { opened, at: history.at - first, parts, steps: steps.map(changedOnly), carries: true };
}

function changedOnly(
  { label, plan }: { label: string; plan: PartRefs },
  i: number,
  all: readonly { readonly plan: PartRefs }[],
): { label: string; plan: ChangedRefs } {
  const before = all[i - 1]?.plan ?? {};
  const changed: ChangedRefs = {};
  for (const key of new Set([...Object.keys(before), ...Object.keys(plan)]))
    if (JSON.stringify(before[key]) !== JSON.stringify(plan[key])) changed[key] = plan[key] ?? null;
  return { label, plan: changed };
}

/** Each step with all of its parts. */
function wholeSteps({ carries, steps }: KeptHistory): { label: string; plan: PartRefs }[] {
  let whole: ChangedRefs = {};
  return steps.map(({ label, plan }) => {
    whole = carries === true ? { ...whole, ...plan } : plan;
    return { label, plan: Object.fromEntries(Object.entries(whole).filter(isThere)) };
  });
}

function isThere(entry: [string, number | number[] | null]): entry is [string, number | number[]] {
  return entry[1] !== null;
}

/** The history that was kept, each plan checked (and brought to today's version). Where the history cannot be
 * used, one that begins at the kept plan; null where that is no plan either. Steps that are `known` already are taken
 * as they are: they need no second check, and stay the same objects. */
export function unpackHistory(
  kept: unknown,
  keptPlan: unknown,
  known: readonly Step[] = [],
): { history: History; opened: string } | null {
  const opened = isRecord(kept) && typeof kept.opened === "string" ? kept.opened : "";
  const whole = isKeptHistory(kept) ? stepsOf(kept, known) : null;
  if (whole) return { history: { steps: whole, at: (kept as KeptHistory).at }, opened };
  const alone = checkPlan(keptPlan);
  return alone.ok ? { history: begin(alone.plan), opened } : null;
}

function stepsOf(kept: KeptHistory, known: readonly Step[]): Step[] | null {
  const steps: Step[] = [];
  const texts = known.length === 0 ? [] : kept.parts.map((part) => JSON.stringify(part));
  const whole = wholeSteps(kept);
  // the oldest may have given way on either side
  let beside = known.findIndex((step) => isKeptAs(step.plan, whole[0].plan, texts));
  for (const { label, plan } of whole) {
    const same = known[beside];
    if (same !== undefined && isKeptAs(same.plan, plan, texts)) {
      steps.push(same.label === label ? same : { ...same, label });
      beside++;
      continue;
    }
    beside = -1;
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

/** Whether a plan is the one that was kept under these numbers. */
function isKeptAs(plan: Plan, refs: PartRefs, texts: readonly string[]): boolean {
  const parts = partsOf(plan);
  const keys = Object.keys(refs);
  return (
    keys.length === Object.keys(parts).length &&
    keys.every((key) => {
      const [part, ref] = [parts[key], refs[key]];
      if (part === undefined || Array.isArray(part) !== Array.isArray(ref)) return false;
      const [own, numbers] = [[part].flat(), [ref].flat()];
      return own.length === numbers.length && own.every(({ text }, i) => text === texts[numbers[i]]);
    })
  );
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
