import type { Plan } from "../plan/index.ts";
import type { PictureRegion, PlanReading } from "../reading/index.ts";
import type { Computer, FramePicture } from "../workbench/index.ts";
import { Store } from "./store.ts";

/** What has been worked out of one move, and in which round. */
export interface Tried {
  readonly round: Round;
  /** what was tried: the same key may be another step by now */
  readonly does: string;
  /** read in the same quality, so that like is compared with like */
  readonly before: PlanReading;
  readonly after: PlanReading;
  readonly picture: FramePicture;
  readonly level: number;
}

export interface Trial {
  readonly key: string;
  readonly does: string;
  readonly plan: Plan;
}

/** One plan, one face, and what is tried of it. */
export interface Round {
  readonly base: Plan;
  readonly person: number;
  readonly region: PictureRegion;
  /** in the order in which they are worked out */
  readonly trials: readonly Trial[];
}

export interface MovesState {
  /** by key; what belongs to an older round stays until it is replaced */
  readonly tried: Readonly<Record<string, Tried>>;
  /** the round that is worked out as well as it is going to be */
  readonly done: Round | null;
  readonly failure: string | null;
}

const QUALITIES = ["coarse", "fine"] as const;
const FINEST = QUALITIES.length - 1;

/** Pixels across: a little more than on screen; twice as many would cost four times the work. */
const SMALL_WIDTH = 120;

/** Works the moves of a plan out one after another, all of them coarse and then all of them fine, as long as nothing
 * newer is on the table. What was done of a round is kept when work on it goes on. */
export class MovesFollower {
  readonly store = new Store<MovesState>({ tried: {}, done: null, failure: null });
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
    if (round === null || this.store.get().done === round) return;
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

  async #work(round: Round, signal: AbortSignal): Promise<void> {
    const { base, region, trials } = round;
    for (const [level, quality] of QUALITIES.entries()) {
      const left = trials.filter(({ key }) => !this.#isKnown(key, round, level));
      if (left.length === 0) continue;
      const before = await this.#computer.read(base, quality, { signal });
      for (const { key, does, plan } of left) {
        const after = await this.#computer.read(plan, quality, { signal });
        const picture = await this.#computer.frame(plan, { quality, width: SMALL_WIDTH, region }, { signal });
        if (signal.aborted) return;
        const tried = { round, does, before, after, picture, level };
        this.store.update({ tried: { ...this.store.get().tried, [key]: tried } });
      }
    }
    this.store.update({ done: round });
  }

  #isKnown(key: string, round: Round, level: number): boolean {
    const known = this.store.get().tried[key];
    return known !== undefined && known.round === round && known.level >= level;
  }
}

/** Whether what is shown of a move is the best there is of this round. */
export function isFinal(tried: Tried | undefined, round: Round): boolean {
  return tried !== undefined && tried.round === round && tried.level === FINEST;
}
