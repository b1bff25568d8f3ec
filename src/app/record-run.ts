import type { WorkOptions } from "../workbench/index.ts";
import { Store } from "./store.ts";
import { troubleOf } from "./trouble.ts";

export interface RunState {
  /** what is being made, and how far it is; null for `done` where that cannot be told */
  readonly running: { readonly what: string; readonly done: number | null } | null;
  /** in words, how the last one ended: "the record sheet is saved" */
  readonly ended: string;
  readonly trouble: string | null;
}

/** One sheet after the other: asking for another one stops what is being made. */
export class SheetRun {
  readonly store = new Store<RunState>({ running: null, ended: "", trouble: null });
  #stop: AbortController | null = null;

  /** `make` hands over what it made, and says so. */
  async start(what: string, make: (work: WorkOptions & { signal: AbortSignal }) => Promise<string>) {
    this.#stop?.abort();
    const stop = new AbortController();
    this.#stop = stop;
    const isOurs = () => this.#stop === stop;
    this.store.set({
      running: { what: `${what} is being worked out`, done: null },
      ended: "",
      trouble: null,
    });
    try {
      const ended = await make({
        signal: stop.signal,
        onProgress: ({ done, what: part }) => {
          if (isOurs()) this.store.update({ running: { what: `${what}: ${part}`, done } });
        },
      });
      if (isOurs()) this.store.set({ running: null, ended, trouble: null });
    } catch (error) {
      if (!isOurs()) return;
      const trouble = stop.signal.aborted ? null : `${what} was not made: ${troubleOf(error)}`;
      this.store.set({
        running: null,
        ended: stop.signal.aborted ? "Stopped; nothing was made." : "",
        trouble,
      });
    }
  }

  stop(): void {
    this.#stop?.abort();
  }

  /** The page goes away. */
  leave(): void {
    this.#stop?.abort();
    this.#stop = null;
  }
}
