/** Takes to the far store what waits in the near one, one work after the other, and tries again where nobody answers.
 * Where the far store has gone on by itself, both sides are made one, or whoever has the work on the table is asked. */
import { checkPlan } from "../plan/index.ts";
import type { CourierParts, CourierState, FarStore } from "./courier-ports.ts";
import { SaveConflict, StoreAway, WorkError } from "./errors.ts";
import { packHistory, unpackHistory } from "./kept-history.ts";
import { meetHistories } from "./meet-histories.ts";
import { isWaiting, type NearWork } from "./near-store.ts";
import type { SavedWork } from "./ports.ts";

const FIRST_RETRY_MS = 1000;
const LAST_RETRY_MS = 30_000;

export class Carrier {
  readonly #parts: CourierParts;
  readonly #onState: (state: CourierState) => void;
  readonly #waiting = new Set<string>();
  /** somebody is asked about these, or has to be once they are opened */
  readonly #asked = new Set<string>();
  readonly #clashes = new Set<string>();
  state: CourierState;
  #running: Promise<void> | null = null;
  #retry_ms = FIRST_RETRY_MS;
  #cancelRetry: (() => void) | null = null;

  constructor(parts: CourierParts, reach: "here" | "away", onState: (state: CourierState) => void) {
    this.#parts = parts;
    this.#onState = onState;
    this.state = { reach: parts.far === null ? "none" : reach, waiting: 0, trouble: null };
    if (reach === "away") this.#retryLater();
  }

  isClash(key: string): boolean {
    return this.#clashes.has(key);
  }

  /** Somebody is being asked about it. */
  isAsked(key: string): boolean {
    return this.#asked.has(key);
  }

  /** What clashed is taken up again. False where it did not clash. */
  forgetClash(key: string): boolean {
    return this.#clashes.delete(key);
  }

  /** There is something of this work to take. */
  add(key: string): void {
    this.#waiting.add(key);
  }

  /** Takes there what waits. Resolves when nothing can be done any more for now. */
  carry(): Promise<void> {
    this.#running ??= this.#carryAll().finally(() => {
      this.#running = null;
    });
    return this.#running;
  }

  note(error: unknown): void {
    if (error instanceof StoreAway) {
      this.#tell({ reach: "away", trouble: null });
      return;
    }
    const trouble =
      error instanceof WorkError
        ? { problem: error.problem, cure: error.cure }
        : { problem: error instanceof Error ? error.message : String(error), cure: "it is tried again" };
    this.#tell({ reach: "here", trouble });
  }

  async #carryAll(): Promise<void> {
    const { far } = this.#parts;
    if (far === null) return;
    this.#cancelRetry?.();
    this.#cancelRetry = null;
    try {
      if (this.state.reach === "away" || this.#waiting.size === 0) await far.ping();
      for (let key = this.#next(); key !== undefined; key = this.#next()) await this.#carryOne(key, far);
      this.#retry_ms = FIRST_RETRY_MS;
      this.#tell({ reach: "here", trouble: null });
    } catch (error) {
      this.note(error);
      this.#retryLater();
    }
  }

  #next(): string | undefined {
    return [...this.#waiting].find((key) => !this.#asked.has(key));
  }

  async #carryOne(key: string, far: FarStore): Promise<void> {
    const { near, self } = this.#parts;
    const row = await near.load(key);
    if (row === null || !isWaiting(row)) {
      this.#waiting.delete(key);
      return;
    }
    const { plan, history } = row;
    try {
      await far.save(key, { plan, history, revision: row.far + 1, by: `${self} ${row.revision}` });
    } catch (error) {
      if ((error as Error | null)?.name !== "SaveConflict") throw error;
      return this.#reconcile(key, row, far);
    }
    await near.agree(key, { far: row.far + 1, sent: row.revision, base: plan });
  }

  /** The far store went on without this work. */
  async #reconcile(key: string, row: NearWork, far: FarStore): Promise<void> {
    const { near, self } = this.#parts;
    const theirs = await far.load(key);
    if (theirs === null) return near.agree(key, { ...row, far: 0 });
    const [who, which] = theirs.by?.split(" ") ?? [];
    if (who === self) {
      // an own save whose answer was lost, or that of another window
      return near.agree(key, { far: theirs.revision, sent: Number(which), base: theirs.plan });
    }
    this.#asked.add(key);
    void this.#settle(key, row, theirs).finally(() => {
      this.#asked.delete(key);
      if (this.#waiting.size > 0) void this.carry();
    });
  }

  async #settle(key: string, row: NearWork, theirs: SavedWork): Promise<void> {
    const { near, meet, tell } = this.#parts;
    const outcome = await meet(key, theirs, row.base);
    if (outcome === "met") {
      const sent = (await near.load(key))?.sent ?? 0;
      return near.agree(key, { far: theirs.revision, sent, base: theirs.plan });
    }
    const joined = outcome === "absent" ? mergeWorks(row, theirs) : null;
    if (joined === null) {
      // it stays here as it is until somebody opens it and says
      this.#clashes.add(key);
      this.#waiting.delete(key);
      return;
    }
    try {
      await near.save(key, { ...joined, revision: row.revision + 1 });
    } catch (error) {
      // somebody who has it on the table saved meanwhile, and meets the far store's in turn
      if (error instanceof SaveConflict) return;
      throw error;
    }
    await near.agree(key, { far: theirs.revision, sent: row.sent, base: theirs.plan });
    tell(key);
  }

  #retryLater(): void {
    this.#cancelRetry ??= this.#parts.scheduler.after(this.#retry_ms, () => {
      this.#cancelRetry = null;
      void this.carry();
    });
    this.#retry_ms = Math.min(LAST_RETRY_MS, this.#retry_ms * 2);
  }

  #tell(change: Partial<CourierState>): void {
    this.state = { ...this.state, ...change, waiting: this.#waiting.size };
    this.#onState(this.state);
  }
}

/** Both sides of a work that nobody has on the table, made one; null where both changed the same. */
function mergeWorks(mine: NearWork, theirs: SavedWork): Omit<SavedWork, "revision"> | null {
  const [a, b] = [unpackHistory(mine.history, mine.plan), unpackHistory(theirs.history, theirs.plan)];
  if (a === null || b === null) return null;
  const base = checkPlan(mine.base);
  const history = meetHistories(a.history, b.history, base.ok ? base.plan : null);
  return history && { plan: history.steps[history.at].plan, history: packHistory(history, a.opened) };
}
