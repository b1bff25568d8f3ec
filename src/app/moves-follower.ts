import type { Plan } from "../plan/index.ts";
import type { PictureRegion, PlanReading } from "../reading/index.ts";
import type { Computer, FramePicture } from "../workbench/index.ts";
import { Store } from "./store.ts";

/** What has been worked out of one move, and from which plan. */
export interface Tried {
  readonly base: Plan;
  /** read in the same quality, so that like is compared with like */
  readonly before: PlanReading;
  readonly after: PlanReading;
  readonly picture: FramePicture;
  readonly level: number;
}

export interface Trial {
  readonly key: string;
  readonly plan: Plan;
}

export interface Round {
  readonly base: Plan;
  readonly region: PictureRegion;
  /** in the order in which they are worked out */
  readonly trials: readonly Trial[];
}

export interface MovesState {
  /** by key; what belongs to an older plan stays until it is replaced */
  readonly tried: Readonly<Record<string, Tried>>;
  /** the plan whose moves are all worked out as well as they are going to be */
  readonly doneOf: Plan | null;
  readonly failure: string | null;
}

const QUALITIES = ["coarse", "fine"] as const;
const FINEST = QUALITIES.length - 1;

/** Pixels across: enough for the small frames at twice their size on screen would cost four times as much. */
const SMALL_WIDTH = 120;

/** Works the moves of a plan out one after another, all of them coarse and then all of them fine, as long as nothing
 * newer is on the table. What was done of a plan is kept when work on it goes on. */
export class MovesFollower {
  readonly store = new Store<MovesState>({ tried: {}, doneOf: null, failure: null });
  readonly #computer: Computer;
  #running: { round: Round; stop: AbortController } | null = null;

  constructor(computer: Computer) {
    this.#computer = computer;
  }

  /** Null: the plan is not settled, and nothing is worked out for now. */
  follow(round: Round | null): void {
    if (this.#running !== null && this.#running.round === round) return;
    this.#running?.stop.abort();
    this.#running = null;
    if (round === null || this.store.get().doneOf === round.base) return;
    const running = { round, stop: new AbortController() };
    this.#running = running;
    this.store.update({ failure: null });
    this.#work(round, running.stop.signal)
      .catch((error: unknown) => {
        if (this.#running !== running) return;
        this.store.update({ failure: error instanceof Error ? error.message : String(error) });
      })
      .finally(() => {
        if (this.#running === running) this.#running = null;
      });
  }

  async #work({ base, region, trials }: Round, signal: AbortSignal): Promise<void> {
    for (const [level, quality] of QUALITIES.entries()) {
      const left = trials.filter(({ key }) => !this.#isKnown(key, base, level));
      if (left.length === 0) continue;
      const before = await this.#computer.read(base, quality, { signal });
      for (const { key, plan } of left) {
        const after = await this.#computer.read(plan, quality, { signal });
        const picture = await this.#computer.frame(plan, { quality, width: SMALL_WIDTH, region }, { signal });
        if (signal.aborted) return;
        const tried = { base, before, after, picture, level };
        this.store.update({ tried: { ...this.store.get().tried, [key]: tried } });
      }
    }
    this.store.update({ doneOf: base });
  }

  #isKnown(key: string, base: Plan, level: number): boolean {
    const known = this.store.get().tried[key];
    return known !== undefined && known.base === base && known.level >= level;
  }
}

/** Whether what is shown of a move is the best there is of this plan. */
export function isFinal(tried: Tried | undefined, base: Plan): boolean {
  return tried !== undefined && tried.base === base && tried.level === FINEST;
}
