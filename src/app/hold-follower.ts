import type { HoldZone } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import type { Finder } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { Store } from "./store.ts";

export interface HoldState {
  readonly zone: HoldZone | null;
  /** the plan that it belongs to; what belongs to an older one stays until it is replaced */
  readonly of: Plan | null;
  readonly busy: boolean;
  readonly failure: string | null;
}

/** Works the hold zone of a plan out as long as nothing newer is on the table. */
export class HoldFollower {
  readonly store = new Store<HoldState>({ zone: null, of: null, busy: false, failure: null });
  readonly #finder: Pick<Finder, "hold">;
  #running: { plan: Plan; person: number; stop: AbortController } | null = null;

  constructor(finder: Pick<Finder, "hold">) {
    this.#finder = finder;
  }

  /** Null: the plan is not settled, or nobody wants to see it, and nothing is worked out for now. */
  follow(plan: Plan | null, person: number): void {
    if (plan !== null && this.#running?.plan === plan && this.#running.person === person) return;
    this.#running?.stop.abort();
    this.#running = null;
    const { zone, of } = this.store.get();
    const isKnown = of === plan && zone?.person === person;
    if (plan === null || plan.people[person] === undefined || isKnown) {
      this.store.update({ busy: false });
      return;
    }
    const running = { plan, person, stop: new AbortController() };
    this.#running = running;
    this.store.update({ busy: true, failure: null });
    this.#finder
      .hold(plan, { person }, { signal: running.stop.signal })
      .then((found) => {
        if (this.#running === running) this.store.set({ zone: found, of: plan, busy: false, failure: null });
      })
      .catch((error: unknown) => {
        if (this.#running !== running) return;
        this.store.update({ busy: false, failure: error instanceof Error ? error.message : String(error) });
      })
      .finally(() => {
        if (this.#running === running) this.#running = null;
      });
  }
}

const followers = new WeakMap<Bench, HoldFollower>();

/** The one that drawing and numbers of a bench share. */
export function holdOf(bench: Bench): HoldFollower {
  let follower = followers.get(bench);
  if (follower === undefined) {
    follower = new HoldFollower(bench.trials);
    followers.set(bench, follower);
  }
  return follower;
}
