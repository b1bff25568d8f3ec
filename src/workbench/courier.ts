/** Carries works between the store beside the hand and the one that may be away: here first, there when it answers.
 * What both sides changed is made one where it can be, else whoever has the work on the table is asked. */
import { checkPlan } from "../plan/index.ts";
import { SaveConflict, StoreAway, WorkError } from "./errors.ts";
import { meetHistories, packHistory, unpackHistory } from "./kept-history.ts";
import { isWaiting, type NearStore, type NearWork } from "./near-store.ts";
import type { KeptWork, PlanStore, SavedWork } from "./ports.ts";
import type { Meeting, Scheduler } from "./session.ts";

export interface FarStore extends PlanStore {
  /** Errors  StoreAway where nobody answers */
  ping(): Promise<void>;
}

export interface CourierParts {
  readonly near: NearStore;
  /** null where there is only the store beside the hand */
  readonly far: FarStore | null;
  readonly scheduler: Scheduler;
  /** names this browser in what it saves */
  readonly self: string;
  /** shows the far store's state of a work to whoever has it on the table */
  readonly meet: (key: string, theirs: SavedWork, base: unknown) => Promise<Meeting>;
}

/** How the far store stands; `trouble` is what it answers when it cannot keep something. */
export interface CourierState {
  readonly reach: "none" | "here" | "away";
  readonly waiting: number;
  readonly trouble: { readonly problem: string; readonly cure: string } | null;
}

/** A work and where it lies. A clash was changed on both sides, in the same place. */
export interface FoundWork extends KeptWork {
  readonly place: "both" | "near" | "far";
  readonly isClash: boolean;
}

const FIRST_RETRY_MS = 1000;
const LAST_RETRY_MS = 30_000;

export class Courier {
  readonly #parts: CourierParts;
  readonly #far: FarStore | null;
  readonly #waiting = new Set<string>();
  /** somebody is asked about these, or has to be once they are opened */
  readonly #asked = new Set<string>();
  readonly #clashes = new Set<string>();
  readonly #listeners = new Set<() => void>();
  #state: CourierState;
  #running: Promise<void> | null = null;
  #retry_ms = FIRST_RETRY_MS;
  #cancelRetry: (() => void) | null = null;

  constructor(parts: CourierParts, reach: "here" | "away" = "here") {
    this.#parts = parts;
    this.#far = parts.far;
    this.#state = { reach: parts.far === null ? "none" : reach, waiting: 0, trouble: null };
    if (reach === "away") this.#retryLater();
  }

  get(): CourierState {
    return this.#state;
  }

  subscribe(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  async load(key: string): Promise<SavedWork | null> {
    const { near } = this.#parts;
    const here = near.load(key);
    let there: SavedWork | null = null;
    try {
      there = (await this.#far?.load(key)) ?? null;
    } catch (error) {
      this.#note(error);
      // what lies beside the hand is as good as what cannot be reached; where there is nothing, the reason counts
      if ((await here) === null && !(error instanceof StoreAway)) throw error;
    }
    const known = await here;
    const isNews = there !== null && (known === null || (!isWaiting(known) && there.revision > known.far));
    if (!isNews || there === null) return known;
    await near.adopt(key, there);
    return near.load(key);
  }

  async save(key: string, work: SavedWork): Promise<void> {
    await this.#parts.near.save(key, work);
    if (this.#far === null) return;
    this.#waiting.add(key);
    void this.carry();
  }

  async list(): Promise<FoundWork[]> {
    const [rows, there] = await Promise.all([
      this.#parts.near.rows(),
      this.#far?.list().catch((error: unknown) => {
        this.#note(error);
        return [];
      }) ?? [],
    ]);
    const found = new Map<string, FoundWork>();
    for (const work of there) found.set(work.key, { ...work, place: "far", isClash: false });
    for (const row of rows) {
      const other = found.get(row.key);
      const newest = other === undefined || isWaiting(row) || row.savedAt > other.savedAt ? row : other;
      const { key, title, savedAt } = newest;
      const isClash = this.#clashes.has(key);
      found.set(key, { key, title, savedAt, place: other === undefined ? "near" : "both", isClash });
    }
    return [...found.values()].sort((a, b) => b.savedAt.localeCompare(a.savedAt));
  }

  /** The plan of a work, unchecked, without bringing anything over. */
  async peek(key: string): Promise<unknown> {
    const known = await this.#parts.near.load(key);
    return known?.plan ?? (await this.#far?.load(key))?.plan ?? null;
  }

  /** A work has come onto the table: what clashed can be asked about now. */
  look(key: string): void {
    if (!this.#clashes.delete(key)) return;
    this.#waiting.add(key);
    void this.carry();
  }

  /** Finds what still waits here from before, and asks whether the far store answers. */
  async wake(): Promise<void> {
    if (this.#far === null) return;
    for (const row of await this.#parts.near.rows()) if (isWaiting(row)) this.#waiting.add(row.key);
    await this.carry();
  }

  /** Takes there what waits. Resolves when nothing can be done any more for now. */
  carry(): Promise<void> {
    this.#running ??= this.#carryAll().finally(() => {
      this.#running = null;
    });
    return this.#running;
  }

  async #carryAll(): Promise<void> {
    const far = this.#far;
    if (far === null) return;
    this.#cancelRetry?.();
    this.#cancelRetry = null;
    try {
      if (this.#state.reach === "away" || this.#waiting.size === 0) await far.ping();
      for (let key = this.#next(); key !== undefined; key = this.#next()) await this.#carryOne(key, far);
      this.#retry_ms = FIRST_RETRY_MS;
      this.#tell({ reach: "here", trouble: null });
    } catch (error) {
      this.#note(error);
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
      // an own save whose answer was lost
      return near.agree(key, { far: theirs.revision, sent: Number(which), base: theirs.plan });
    }
    this.#asked.add(key);
    void this.#settle(key, row, theirs).finally(() => {
      this.#asked.delete(key);
      if (this.#waiting.size > 0) void this.carry();
    });
  }

  async #settle(key: string, row: NearWork, theirs: SavedWork): Promise<void> {
    const { near, meet } = this.#parts;
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
    await near.save(key, { ...joined, revision: row.revision + 1 }).catch((error: unknown) => {
      if (!(error instanceof SaveConflict)) throw error;
    });
    await near.agree(key, { far: theirs.revision, sent: row.sent, base: theirs.plan });
  }

  #note(error: unknown): void {
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

  #retryLater(): void {
    this.#cancelRetry ??= this.#parts.scheduler.after(this.#retry_ms, () => {
      this.#cancelRetry = null;
      void this.carry();
    });
    this.#retry_ms = Math.min(LAST_RETRY_MS, this.#retry_ms * 2);
  }

  #tell(change: Partial<CourierState>): void {
    this.#state = { ...this.#state, ...change, waiting: this.#waiting.size };
    for (const listener of [...this.#listeners]) listener();
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
