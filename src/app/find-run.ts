/** A search that runs, and what came of it: outlives the page it was begun on. */
import type { FindAnswer } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import { type Computer, type Finder, findSetUps } from "../workbench/index.ts";
import { Store } from "./store.ts";

export interface Running {
  /** 0 to 1 */
  readonly done: number;
  readonly what: string;
  readonly tried: number;
}

export interface FindState {
  readonly running: Running | null;
  /** how the last search ended that found nothing out */
  readonly ended: Ended | null;
  readonly found: Found | null;
}

export type Ended =
  | { readonly how: "stopped"; readonly tried: number }
  | { readonly how: "failed"; readonly why: string };

/** An answer, and the plan with the brief that was asked. */
export interface Found {
  readonly asked: Plan;
  readonly answer: FindAnswer;
  /** the work that it was asked for; "" before it has a name */
  readonly key: string;
}

export class FindRun {
  readonly store = new Store<FindState>({ running: null, ended: null, found: null });
  readonly #finders: () => readonly (Computer & Finder)[];
  #control: AbortController | null = null;

  constructor(finders: () => readonly (Computer & Finder)[]) {
    this.#finders = finders;
  }

  /** Searches; what still runs is stopped. `searched` may say less of the gear than was asked. Answers what was found, null where it was stopped or failed. */
  async search(asked: Plan, key: string, searched = asked, holds = true): Promise<FindAnswer | null> {
    this.#control?.abort();
    const control = new AbortController();
    this.#control = control;
    let tried = 0;
    const tell = (running: Omit<Running, "tried">) => {
      if (this.#control === control) this.store.update({ running: { ...running, tried } });
    };
    this.store.update({ ended: null, running: { done: 0, what: "trying set-ups", tried } });
    const finders = this.#finders().map((finder) => counting(finder, (more) => (tried += more)));
    try {
      const answer = await findSetUps(searched, finders, { signal: control.signal, onProgress: tell, holds });
      if (this.#control !== control) return null;
      this.store.update({ running: null, found: { asked, answer, key } });
      return answer;
    } catch (error) {
      // what the other finders still do is for nobody
      const isStopped = control.signal.aborted;
      control.abort();
      if (this.#control === control) {
        const why = error instanceof Error ? error.message : String(error);
        const ended = isStopped ? ({ how: "stopped", tried } as const) : ({ how: "failed", why } as const);
        this.store.update({ running: null, ended });
      }
      return null;
    }
  }

  /** The finders get to know sitter and room while nothing is asked of them yet. */
  prepare(plan: Plan): void {
    if (this.store.get().running !== null) return;
    // what is wrong with it the search will say
    for (const finder of this.#finders()) finder.ready(plan).catch(() => undefined);
  }

  stop(): void {
    this.#control?.abort();
  }

  /** What was found before the work had a name belongs to it from now on. */
  adopt(key: string): void {
    const { found } = this.store.get();
    if (found !== null) this.store.update({ found: { ...found, key } });
  }
}

function counting(finder: Finder, add: (tried: number) => void): Finder {
  return {
    ready: (...task) => finder.ready(...task),
    search: async (...task) => {
      const result = await finder.search(...task);
      add(result.tried);
      return result;
    },
    settle: (...task) => finder.settle(...task),
    hold: (...task) => finder.hold(...task),
    steps: (...task) => finder.steps(...task),
    reach: (...task) => finder.reach(...task),
    remedies: (...task) => finder.remedies(...task),
    calibrate: (...task) => finder.calibrate(...task),
    compare: (...task) => finder.compare(...task),
  };
}

const runs = new WeakMap<object, FindRun>();

/** The one search of a bench. */
export function findRunOf(bench: { readonly finders: () => readonly (Computer & Finder)[] }): FindRun {
  let run = runs.get(bench);
  if (run === undefined) {
    run = new FindRun(bench.finders);
    runs.set(bench, run);
  }
  return run;
}
