/** The one place where the page asks the room of test frames: frame beside plan, frames of a run beside each other. */
import type { Plan } from "../plan/index.ts";
// by its file: the edge asks for it before the page is there, and the room as a whole brings a solver
import { driftOf } from "../testframe/drift.ts";
import type { FrameComparison, FrameDrift } from "../testframe/index.ts";
import type { TestFrame } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { Store } from "./store.ts";

/** Who is compared: one person of the plan with one face of a frame. */
export interface Compared {
  readonly plan: Plan;
  readonly person: number;
  readonly frame: TestFrame;
  readonly face: number;
}

interface Known {
  /** of one plan: with another all of them are others */
  readonly plan: Plan | null;
  readonly of: ReadonlyMap<string, FrameComparison>;
  readonly failure: string | null;
}

const NOTHING: Known = { plan: null, of: new Map(), failure: null };

const keyOf = ({ frame, person, face }: Compared) => `${frame.id} ${person} ${face}`;

/** What was compared is not compared again while plan and frame stay: walking through a run is quick the second time. */
export class Comparisons {
  readonly store = new Store<Known>(NOTHING);
  readonly #trials: Pick<Bench["trials"], "compare">;
  #asked: { readonly key: string; readonly plan: Plan; readonly stop: AbortController } | null = null;

  constructor(trials: Pick<Bench["trials"], "compare">) {
    this.#trials = trials;
  }

  get(compared: Compared): FrameComparison | null {
    const { of, plan } = this.store.get();
    return plan === compared.plan ? (of.get(keyOf(compared)) ?? null) : null;
  }

  /** Works it out; what was asked before and is not there yet is let go. */
  ask(compared: Compared): void {
    const { frame, face, person, plan } = compared;
    const key = keyOf(compared);
    if (this.get(compared) !== null || (this.#asked?.key === key && this.#asked.plan === plan)) return;
    this.#asked?.stop.abort();
    const stop = new AbortController();
    this.#asked = { key, plan, stop };
    this.#trials.compare(plan, { person, photo: frame.reading, face }, { signal: stop.signal }).then(
      (comparison) => this.#keep(plan, key, comparison, stop),
      (error: unknown) => {
        if (stop.signal.aborted) return;
        this.#asked = null;
        this.store.update({ failure: error instanceof Error ? error.message : String(error) });
      },
    );
  }

  #keep(plan: Plan, key: string, comparison: FrameComparison, stop: AbortController): void {
    if (stop.signal.aborted) return;
    this.#asked = null;
    const known = this.store.get();
    const of = new Map(known.plan === plan ? known.of : []).set(key, comparison);
    this.store.set({ plan, of, failure: null });
  }
}

const all = new WeakMap<object, Comparisons>();

/** Those of a bench. */
export function comparisonsOf(bench: Pick<Bench, "trials">): Comparisons {
  let comparisons = all.get(bench);
  if (comparisons === undefined) {
    comparisons = new Comparisons(bench.trials);
    all.set(bench, comparisons);
  }
  return comparisons;
}

/** How each frame of the run differs from its first with a face, by id. */
export function driftById(frames: readonly TestFrame[]): ReadonlyMap<string, FrameDrift> {
  const model = frames.findIndex(({ reading }) => reading.faces.length > 0);
  const drifts = driftOf(
    frames.map(({ reading }) => reading),
    Math.max(0, model),
  );
  return new Map(frames.map(({ id }, i) => [id, drifts[i] as FrameDrift]));
}
