/** What the meters should read, and what distances found by the body do, worked out beside the server: once the plan has been
 * still for a while, only while somebody looks, one plan at a time and always the newest. */
import type { ReachEffect } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import type { MeterReading } from "../reading/index.ts";
import type { TellFault } from "./fault.ts";
import type { ShareAnswer, ShareJob } from "./live-words.ts";

/** A work of the library as it was read at one revision. */
export interface LiveWork {
  readonly key: string;
  readonly revision: number;
  readonly plan: Plan;
}

export interface MetersRead {
  readonly key: string;
  readonly revision: number;
  readonly meters: MeterReading[];
  /** null until it is known: readings come first */
  readonly reach: ReachEffect[] | null;
}

export interface LiveMetersParts {
  readonly process: { ask(job: ShareJob): Promise<ShareAnswer>; stop(): Promise<void> };
  readonly onRead: (read: MetersRead) => void;
  readonly tellFault: TellFault;
  readonly still_ms?: number;
  readonly rest_ms?: number;
}

/** A light that is being dragged is in a new place long before. */
const STILL_MS = 700;
/** Nobody looks: a phone that goes dark for a moment should not have to wait for a new process. */
const REST_MS = 60_000;
/** A plan at which the process breaks off is not worth more. */
const MOST_TRIES = 2;

export class LiveMeters {
  readonly #parts: LiveMetersParts;
  #wanted: LiveWork | null = null;
  #isBusy = false;
  #still: NodeJS.Timeout | null = null;
  #rest: NodeJS.Timeout | null = null;

  constructor(parts: LiveMetersParts) {
    this.#parts = parts;
  }

  want(work: LiveWork): void {
    if (this.#rest) clearTimeout(this.#rest);
    this.#rest = null;
    if (this.#wanted?.key === work.key && this.#wanted.revision === work.revision) return;
    this.#wanted = work;
    this.#wait();
  }

  /** Nobody looks any more. */
  rest(): void {
    if (this.#still) clearTimeout(this.#still);
    this.#still = this.#wanted = null;
    if (this.#rest === null) {
      this.#rest = setTimeout(() => void this.#parts.process.stop(), this.#parts.rest_ms ?? REST_MS);
      this.#rest.unref();
    }
  }

  async stop(): Promise<void> {
    this.rest();
    if (this.#rest) clearTimeout(this.#rest);
    this.#rest = null;
    await this.#parts.process.stop();
  }

  #wait(): void {
    if (this.#still) clearTimeout(this.#still);
    this.#still = setTimeout(() => {
      this.#still = null;
      if (!this.#isBusy) void this.#work();
    }, this.#parts.still_ms ?? STILL_MS);
  }

  async #work(): Promise<void> {
    this.#isBusy = true;
    let done: LiveWork | null = null;
    // what came meanwhile and is still is worked out next; what is not still yet comes by its own timer
    while (this.#wanted !== null && this.#wanted !== done && this.#still === null) {
      done = this.#wanted;
      await this.#read(done);
    }
    this.#isBusy = false;
  }

  async #read(work: LiveWork): Promise<void> {
    const { key, revision, plan } = work;
    for (let tries = 1; ; tries++) {
      try {
        const read = await this.#parts.process.ask({ want: "meters", plan });
        if (!("meters" in read)) throw new Error(strayed(read));
        const { meters } = read;
        this.#parts.onRead({ key, revision, meters, reach: null });
        if (this.#wanted !== work) return;
        const tried = await this.#parts.process.ask({ want: "reach", plan });
        if (!("reach" in tried)) throw new Error(strayed(tried));
        return this.#parts.onRead({ key, revision, meters, reach: tried.reach });
      } catch (error) {
        // ended from here
        if (this.#wanted === null) return;
        if (tries >= MOST_TRIES || this.#wanted !== work)
          return this.#parts.tellFault("reading the meters for paired devices", error);
      }
    }
  }
}

function strayed(answer: ShareAnswer): string {
  return "problem" in answer ? answer.problem : "another answer came than was asked for";
}
