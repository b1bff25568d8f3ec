/** The thread to the workbench: what is on its table, as long as it lets this device look. */
import type { LivePlan } from "../workbench/index.ts";
import { EventReader } from "./event-reader.ts";

/** opening: for the first time. unpaired: the workbench does not know this device. ended: it said goodbye, and why. */
export type Link =
  | { readonly state: "opening" | "live" | "lost" | "unpaired" }
  | { readonly state: "ended"; readonly why: string };

export interface Seen {
  readonly link: Link;
  /** the newest that is known, also while the thread is lost; null where nothing lies on the table */
  readonly plan: LivePlan | null;
}

export interface ConnectionParts {
  /** Follows the stream to its end. `onStatus` is told how it was answered, then `onText` what comes.
   * Errors  rejects where nobody answers, or where it breaks off */
  readonly follow: (
    signal: AbortSignal,
    on: { readonly onStatus: (status: number) => void; readonly onText: (text: string) => void },
  ) => Promise<void>;
  /** Runs something later; the answer takes it back. */
  readonly after: (delay_ms: number, run: () => void) => () => void;
}

/** The workbench says every 15 s that it is there; whoever hears nothing for so long has lost it. */
const SILENCE_MS = 35_000;
const RETRY_MS = [500, 1000, 2000, 4000, 5000];

export class Connection {
  readonly #parts: ConnectionParts;
  readonly #listeners = new Set<() => void>();
  #seen: Seen = { link: { state: "opening" }, plan: null };
  #abort: AbortController | null = null;
  #takeBack: (() => void)[] = [];
  #tries = 0;

  constructor(parts: ConnectionParts) {
    this.#parts = parts;
  }

  get(): Seen {
    return this.#seen;
  }

  subscribe(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Begins, or begins anew at once: after pairing, when the page is looked at again, when the network is back. */
  open(): void {
    this.close();
    this.#tries = 0;
    if (this.#seen.link.state !== "live" && this.#seen.link.state !== "lost")
      this.#put({ link: { state: "opening" } });
    void this.#follow();
  }

  /** The network is gone: nothing of what is shown is known to be so any more. */
  lose(): void {
    if (this.#seen.link.state !== "live") return;
    this.#abort?.abort();
    this.#put({ link: { state: "lost" } });
  }

  close(): void {
    this.#abort?.abort();
    this.#abort = null;
    for (const takeBack of this.#takeBack) takeBack();
    this.#takeBack = [];
  }

  async #follow(): Promise<void> {
    const abort = new AbortController();
    this.#abort = abort;
    const reader = new EventReader();
    let isRefused = false;
    let waking = this.#watch(abort);
    try {
      await this.#parts.follow(abort.signal, {
        onStatus: (status) => {
          isRefused = status === 401;
        },
        onText: (text) => {
          // what was on its way when this thread was given up
          if (this.#abort !== abort) return;
          waking();
          waking = this.#watch(abort);
          for (const event of reader.read(text)) this.#take(event);
        },
      });
    } catch {
      // what became of it is said below
    }
    waking();
    // somebody else follows by now, or nobody is to
    if (this.#abort !== abort) return;
    if (isRefused) return this.#put({ link: { state: "unpaired" } });
    if (this.#seen.link.state === "ended") return;
    this.#put({ link: { state: "lost" } });
    const wait = RETRY_MS[Math.min(this.#tries++, RETRY_MS.length - 1)] as number;
    this.#takeBack = [this.#parts.after(wait, () => void this.#follow())];
  }

  /** Answers what takes it back. */
  #watch(abort: AbortController): () => void {
    return this.#parts.after(SILENCE_MS, () => abort.abort());
  }

  #take(event: unknown): void {
    const { kind, plan, why } = event as { kind?: unknown; plan?: LivePlan; why?: unknown };
    if (kind === "plan" && plan !== undefined) this.#live(plan);
    else if (kind === "nothing") this.#live(null);
    else if (kind === "ended") this.#put({ link: { state: "ended", why: String(why ?? "") } });
  }

  #live(plan: LivePlan | null): void {
    this.#tries = 0;
    this.#put({ link: { state: "live" }, plan });
  }

  #put(change: Partial<Seen>): void {
    this.#seen = { ...this.#seen, ...change };
    for (const listener of [...this.#listeners]) listener();
  }
}
