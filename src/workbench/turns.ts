/** Works coming onto the table and leaving it, one after the other. What could not be kept yet waits here whole. */
import type { Plan } from "../plan/index.ts";
import { type Loaded, loadWork, type OpenWork } from "./open-work.ts";
import type { PlanStore } from "./ports.ts";

/** A work that left the table before all of it was kept, or while somebody was asked about it. */
export interface HeldWork extends OpenWork {
  readonly base: Plan | null;
  readonly clash: OpenWork | null;
}

export interface TurnsParts {
  readonly store: PlanStore;
  readonly key: () => string;
  /** how often anything was changed */
  readonly changes: () => number;
  /** saves what can be saved */
  readonly flush: () => Promise<void>;
  /** what has to be held of the work on the table; null where nothing has to */
  readonly unsaved: () => HeldWork | null;
}

export class Turns {
  readonly #parts: TurnsParts;
  readonly #held = new Map<string, HeldWork>();
  #turn: Promise<void> = Promise.resolve();

  constructor(parts: TurnsParts) {
    this.#parts = parts;
  }

  /** Each finds the table as the one before left it. */
  take<T>(bring: () => Promise<T>): Promise<T> {
    const brought = this.#turn.then(bring);
    this.#turn = brought.then(
      () => undefined,
      () => undefined,
    );
    return brought;
  }

  /** Brings a work while the one on the table can still be changed: whatever is changed is put aside too. */
  bring(key: string): Promise<Loaded> {
    return this.#leaveFor(async () => {
      const held = this.#held.get(key);
      return held ? { work: held, failure: null, problems: [] } : loadWork(this.#parts.store, key);
    });
  }

  leave(): Promise<void> {
    return this.#leaveFor(async () => undefined);
  }

  /** What was held of a work that is on the table again. */
  pickUp(key: string): HeldWork | null {
    const held = this.#held.get(key) ?? null;
    this.#held.delete(key);
    return held;
  }

  async #leaveFor<T>(bring: () => Promise<T>): Promise<T> {
    const { changes, flush, key, unsaved } = this.#parts;
    for (;;) {
      const before = changes();
      await flush();
      const held = unsaved();
      if (held !== null && key() !== "") this.#held.set(key(), held);
      const brought = await bring();
      if (changes() === before) return brought;
    }
  }
}
