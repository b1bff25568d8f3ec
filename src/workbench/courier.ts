/** Carries works between the store beside the hand and the one that may be away: here first, there when it answers.
 * What both sides changed is made one where it can be, else whoever has the work on the table is asked. What others
 * keep, in another window or on the far side, comes in as soon as there is news of it. */
import { Carrier } from "./carrier.ts";
import type { CourierParts, CourierState, FoundWork } from "./courier-ports.ts";
import { StoreAway } from "./errors.ts";
import { isWaiting, type NearWork } from "./near-store.ts";
import type { PlanStore, SavedWork, WorkGlance } from "./ports.ts";

/** Another window that saved takes it there itself; where it was closed meanwhile, this one does. */
const LEFT_BEHIND_MS = 2000;
/** Of a work that others go on saving: what comes after these is heard of again. */
const MOST_LOOKS = 5;

export class Courier implements PlanStore {
  readonly #parts: CourierParts;
  readonly #carrier: Carrier;
  readonly #listeners = new Set<() => void>();
  /** works that are being fetched, and the revision that there was news of last */
  readonly #hearing = new Map<string, number>();
  readonly #leftBehind = new Map<string, () => void>();

  constructor(parts: CourierParts, reach: "here" | "away" = "here") {
    this.#parts = parts;
    this.#carrier = new Carrier(parts, reach, () => {
      for (const listener of [...this.#listeners]) listener();
    });
  }

  get(): CourierState {
    return this.#carrier.state;
  }

  subscribe(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  async load(key: string): Promise<SavedWork | null> {
    const { near, far } = this.#parts;
    const here = near.load(key);
    let there: SavedWork | null = null;
    try {
      there = (await far?.load(key)) ?? null;
    } catch (error) {
      this.#carrier.note(error);
      // what lies beside the hand is as good as what cannot be reached; where there is nothing, the reason counts
      if ((await here) === null && !(error instanceof StoreAway)) throw error;
    }
    const known = await here;
    const isNews = there !== null && (known === null || (!isWaiting(known) && there.revision > known.far));
    if (!isNews || there === null) return known;
    return this.#adopt(key, there);
  }

  async save(key: string, work: SavedWork): Promise<void> {
    await this.#parts.near.save(key, work);
    this.#parts.tell(key);
    if (this.#parts.far === null) return;
    this.#carrier.add(key);
    void this.#carrier.carry();
  }

  async list(): Promise<FoundWork[]> {
    const [rows, there] = await Promise.all([
      this.#parts.near.rows(),
      this.#parts.far?.list().catch((error: unknown) => {
        this.#carrier.note(error);
        return [];
      }) ?? [],
    ]);
    const found = new Map<string, FoundWork>();
    for (const work of there) found.set(work.key, { ...work, place: "far", isClash: false });
    for (const row of rows) {
      const other = found.get(row.key);
      const newest = other === undefined || isWaiting(row) || row.savedAt > other.savedAt ? row : other;
      const { key, title, savedAt } = newest;
      const isClash = this.#carrier.isClash(key);
      found.set(key, { key, title, savedAt, place: other === undefined ? "near" : "both", isClash });
    }
    return [...found.values()].sort((a, b) => b.savedAt.localeCompare(a.savedAt));
  }

  /** What a list shows of a work, without bringing anything over. */
  async glance(key: string): Promise<WorkGlance | null> {
    const known = await this.#parts.near.load(key);
    if (known !== null) return { plan: known.plan, isDamaged: false };
    return (await this.#parts.far?.glance(key)) ?? null;
  }

  /** A work has come onto the table: what clashed can be asked about now. */
  look(key: string): void {
    if (!this.#carrier.forgetClash(key)) return;
    this.#carrier.add(key);
    void this.#carrier.carry();
  }

  /** Finds what still waits here from before, and asks whether the far store answers. */
  async wake(): Promise<void> {
    if (this.#parts.far === null) return;
    for (const row of await this.#parts.near.rows()) if (isWaiting(row)) this.#carrier.add(row.key);
    await this.carry();
  }

  /** Takes to the far store what waits. Resolves when nothing can be done any more for now. */
  carry(): Promise<void> {
    return this.#carrier.carry();
  }

  /** Another window of the same near store has kept something of a work. */
  async told(key: string): Promise<void> {
    const kept = await this.#parts.near.load(key);
    if (kept === null) return;
    await this.#parts.see(key, kept);
    if (this.#parts.far !== null && isWaiting(kept)) this.#takeWhatIsLeft(key);
  }

  /** The far store has this revision of a work. Without one: it may have anything. */
  async heard(key: string, revision = Number.POSITIVE_INFINITY, by: string | null = null): Promise<void> {
    // who shares the near store has told already
    if (by?.split(" ")[0] === this.#parts.self) return;
    const isFetched = this.#hearing.has(key);
    this.#hearing.set(key, Math.max(revision, this.#hearing.get(key) ?? 0));
    if (isFetched) return;
    try {
      for (let looks = 0; looks < MOST_LOOKS && (await this.#fetch(key)); looks++);
    } catch (error) {
      this.#carrier.note(error);
    } finally {
      this.#hearing.delete(key);
    }
  }

  /** One look at both sides; whether there has to be another. */
  async #fetch(key: string): Promise<boolean> {
    const { near, far, see } = this.#parts;
    const wanted = this.#hearing.get(key) ?? 0;
    const known = await near.load(key);
    // what was never here is asked for when it is opened
    if (far === null || known === null || wanted <= known.far) return false;
    if (isWaiting(known)) {
      if (this.#carrier.isAsked(key)) return false;
      this.#carrier.add(key);
      await this.#carrier.carry();
      return this.#carrier.state.reach === "here" && !this.#carrier.isAsked(key);
    }
    const theirs = await far.load(key);
    const isNews = theirs !== null && theirs.revision > known.far;
    const kept = isNews ? await this.#adopt(key, theirs) : known;
    if (kept !== null) await see(key, kept);
    return (this.#hearing.get(key) ?? 0) > wanted || (kept !== null && isWaiting(kept));
  }

  async #adopt(key: string, theirs: SavedWork): Promise<NearWork | null> {
    const { near, tell } = this.#parts;
    await near.adopt(key, theirs);
    tell(key);
    return near.load(key);
  }

  #takeWhatIsLeft(key: string): void {
    this.#leftBehind.get(key)?.();
    const cancel = this.#parts.scheduler.after(LEFT_BEHIND_MS, () => {
      this.#leftBehind.delete(key);
      this.#carrier.add(key);
      void this.#carrier.carry();
    });
    this.#leftBehind.set(key, cancel);
  }
}
