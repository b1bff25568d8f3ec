/** Keeps the newest state of a work in the store: one save at a time, the newest wins, failures are told. */
import { SaveConflict, WorkError } from "./errors.ts";
import type { PlanStore, SavedWork } from "./ports.ts";
import type { Saving, Scheduler } from "./session.ts";

export interface SaverParts {
  readonly store: PlanStore;
  readonly scheduler: Scheduler;
  readonly delay_ms: number;
  /** what is to be kept now */
  readonly snapshot: () => Omit<SavedWork, "revision">;
  readonly key: () => string;
  /** a new plan gets its key at its first save */
  readonly onKey: (key: string) => void;
  readonly onState: (saving: Saving) => void;
  /** the store has this now */
  readonly onKept: (work: SavedWork) => void;
  readonly newKey?: (() => string) | undefined;
}

/** A failed save is tried again after this many times the usual delay. */
const RETRY_FACTOR = 10;

export class Saver {
  /** revision that the store has of this work; 0 = none */
  revision = 0;
  #changes = 0;
  #savedChanges = 0;
  #stopped = false;
  #cancelTimer: (() => void) | null = null;
  #running: Promise<void> | null = null;
  readonly #parts: SaverParts;

  constructor(parts: SaverParts) {
    this.#parts = parts;
  }

  /** how often anything was changed */
  get changes(): number {
    return this.#changes;
  }

  get isDirty(): boolean {
    return this.#changes !== this.#savedChanges;
  }

  /** Another work is on the table; nothing of it waits. */
  reset(revision: number): void {
    this.#clearTimer();
    this.revision = revision;
    this.#savedChanges = this.#changes;
    this.#stopped = false;
    this.#parts.onState({ state: "saved" });
  }

  /** The store went on, and what it has is on the table now. */
  follow(revision: number): void {
    this.revision = revision;
  }

  /** The store has something else, and nothing is saved until that is settled. */
  get isStopped(): boolean {
    return this.#stopped;
  }

  /** Something changed: saved within the delay, however many changes follow. */
  touch(): void {
    this.#changes++;
    if (this.#stopped) return;
    if (this.#running === null) this.#parts.onState({ state: "waiting" });
    this.#startTimer(this.#parts.delay_ms);
  }

  /** Saves over what the store has, after a conflict was settled. */
  settle(revision: number): Promise<void> {
    this.revision = revision;
    this.#stopped = false;
    this.#changes++;
    return this.flush();
  }

  /** Resolves when nothing waits any more, or the store has refused. */
  flush(): Promise<void> {
    this.#clearTimer();
    this.#running ??= this.#saveAll().finally(() => {
      this.#running = null;
    });
    return this.#running;
  }

  async #saveAll(): Promise<void> {
    while (this.isDirty && !this.#stopped) {
      const changes = this.#changes;
      this.#parts.onState({ state: "saving" });
      try {
        if (this.#parts.key() === "") this.#parts.onKey(await this.#freeKey());
        const revision = this.revision + 1;
        const work = { ...this.#parts.snapshot(), revision };
        await this.#parts.store.save(this.#parts.key(), work);
        this.revision = revision;
        this.#parts.onKept(work);
        this.#savedChanges = changes;
      } catch (error) {
        return this.#refused(error);
      }
      if (!this.isDirty) this.#parts.onState({ state: "saved" });
    }
  }

  #refused(error: unknown): void {
    // by name, because a store may be on the far side of a worker or a server
    const isConflict = error instanceof SaveConflict || (error as Error | null)?.name === "SaveConflict";
    const known = error instanceof WorkError ? error : null;
    const problem = known?.problem ?? (error instanceof Error ? error.message : String(error));
    if (isConflict) {
      this.#stopped = true;
      this.#clearTimer();
      this.#parts.onState({
        state: "conflict",
        problem,
        cure: known?.cure ?? "keep this window's plan or take the other one",
      });
      return;
    }
    this.#parts.onState({
      state: "failed",
      problem,
      cure: known?.cure ?? "the plan is still here: save it as a file; saving is tried again",
    });
    this.#startTimer(this.#parts.delay_ms * RETRY_FACTOR);
  }

  async #freeKey(): Promise<string> {
    if (this.#parts.newKey) return this.#parts.newKey();
    const taken = new Set((await this.#parts.store.list()).map((work) => work.key));
    let number = 1;
    while (taken.has(`plan-${number}`)) number++;
    return `plan-${number}`;
  }

  #startTimer(delay_ms: number): void {
    if (this.#cancelTimer) return;
    this.#cancelTimer = this.#parts.scheduler.after(delay_ms, () => {
      this.#cancelTimer = null;
      void this.flush();
    });
  }

  #clearTimer(): void {
    this.#cancelTimer?.();
    this.#cancelTimer = null;
  }
}
