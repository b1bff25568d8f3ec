/** Planning a look again: under way, done, or why not. */
import { BriefError } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import { type ReplanAsk, ReplanError, type Replanned } from "../shoots/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { type Computer, type Finder, type Progress, replan, WorkError } from "../workbench/index.ts";
import { Store } from "./store.ts";

export interface ReplanState {
  readonly running: Progress | null;
  readonly done: Replanned | null;
  /** why nothing came of it, in a sentence; null where something did or nothing was asked */
  readonly why: string | null;
}

const NOTHING: ReplanState = { running: null, done: null, why: null };

export interface ReplanWorkers {
  readonly trials: Computer;
  readonly finders: () => readonly (Computer & Finder)[];
}

export class ReplanRun {
  readonly store = new Store<ReplanState>(NOTHING);
  readonly #workers: ReplanWorkers;
  #control: AbortController | null = null;

  constructor(workers: ReplanWorkers) {
    this.#workers = workers;
  }

  /** What still runs is stopped. */
  async plan(plan: Plan, ask: ReplanAsk, units: LengthUnits): Promise<void> {
    this.stop();
    const control = new AbortController();
    this.#control = control;
    const { signal } = control;
    const tell = (state: ReplanState) => {
      if (this.#control === control) this.store.set(state);
    };
    const onProgress = (running: Progress) => tell({ ...NOTHING, running });
    onProgress({ done: 0, what: "reading the look as it is" });
    const { finders, trials } = this.#workers;
    try {
      const reading = await trials.read(plan, "fine", { signal });
      const parts = { computer: trials, finders, units };
      tell({ ...NOTHING, done: await replan(plan, reading, ask, parts, { signal, onProgress }) });
    } catch (error) {
      tell({ ...NOTHING, why: whyOf(error, signal.aborted) });
    }
  }

  stop(): void {
    this.#control?.abort();
  }
}

function whyOf(error: unknown, isStopped: boolean): string {
  if (isStopped) return "Stopped. Nothing has changed.";
  if (error instanceof ReplanError || error instanceof BriefError || error instanceof WorkError)
    return `${sentence(error.problem)} ${sentence(error.cure)}`;
  return `It could not be planned again: ${error instanceof Error ? error.message : String(error)}. Nothing has changed; try again.`;
}

function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1).replace(/\.$/, "")}.`;
}
