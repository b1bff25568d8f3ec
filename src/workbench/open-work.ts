/** A work as a session has it on the table, from what a store keeps. */
import { checkPlan, type History, type Problem, type Step } from "../plan/index.ts";
import { unpackHistory } from "./kept-history.ts";
import type { PlanStore, SavedWork } from "./ports.ts";

/** What belongs to one work, put aside whole when its last change could not be saved. */
export interface OpenWork {
  readonly history: History;
  readonly opened: string;
  readonly revision: number;
}

/** A kept work, or why there is none: the store's reason, or what is wrong with what it has. */
export interface Loaded {
  readonly work: OpenWork | null;
  readonly failure: string | null;
  readonly problems: readonly Problem[];
}

export async function loadWork(store: PlanStore, key: string): Promise<Loaded> {
  try {
    const saved = await store.load(key);
    const work = saved && readWork(saved);
    const checked = saved && work === null ? checkPlan(saved.plan) : null;
    return { work, failure: null, problems: checked === null || checked.ok ? [] : checked.problems };
  } catch (error) {
    return { work: null, failure: error instanceof Error ? error.message : String(error), problems: [] };
  }
}

/** `known` are steps that were checked before. */
export function readWork(saved: SavedWork, known: readonly Step[] = []): OpenWork | null {
  const unpacked = unpackHistory(saved.history, saved.plan, known);
  return unpacked && { ...unpacked, revision: saved.revision };
}
