/** Undo without limit. Plans share what did not change, so keeping every one costs little. Plain data throughout. */
import type { Plan } from "./schema.ts";

export interface Step {
  readonly label: string;
  readonly plan: Plan;
  /** steps with the same key that follow each other are one (a drag) */
  readonly mergeKey: string | null;
}

export interface History {
  /** the first step is the plan as it was opened */
  readonly steps: readonly Step[];
  /** the step that is on screen */
  readonly at: number;
}

export function begin(plan: Plan): History {
  return { steps: [{ label: "opened", plan, mergeKey: null }], at: 0 };
}

export function current(history: History): Plan {
  return history.steps[history.at].plan;
}

/** Adds a step; whatever had been undone is gone. */
export function record(history: History, label: string, plan: Plan, mergeKey: string | null = null): History {
  const last = history.steps[history.at];
  const merges = mergeKey !== null && last.mergeKey === mergeKey && history.at > 0;
  const kept = history.steps.slice(0, merges ? history.at : history.at + 1);
  return { steps: [...kept, { label, plan, mergeKey }], at: kept.length };
}

export function undo(history: History): History {
  return history.at > 0 ? { ...history, at: history.at - 1 } : history;
}

export function redo(history: History): History {
  return history.at + 1 < history.steps.length ? { ...history, at: history.at + 1 } : history;
}

/** The next edit begins a step of its own (a drag was let go). */
export function seal(history: History): History {
  const steps = history.steps.map((s, i) => (i === history.at ? { ...s, mergeKey: null } : s));
  return { ...history, steps };
}
