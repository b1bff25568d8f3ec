/** The plan on the table, sent to every page that looks at it: read, drawn and written once however many look. */

import type { Plan } from "../plan/index.ts";
import { checkPlan } from "../plan/index.ts";
import type { Placed } from "../shoots/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { LiveParts, LivePlan, NewsFeed, PlanShelf, ShootLibrary } from "../workbench/index.ts";
import type { TellFault } from "./fault.ts";
import type { LiveMeters, LiveWork, MetersRead } from "./live-meters.ts";
import { eventOf, HEARTBEAT_MS, type LiveStream } from "./live-stream.ts";

export interface LiveDeskParts {
  readonly store: PlanShelf;
  readonly library: Pick<ShootLibrary, "placed">;
  readonly news: NewsFeed;
  /** the work on the table; null while there is none */
  readonly hand: () => string | null;
  readonly draw: (plan: Plan, around: LiveParts) => LivePlan;
  readonly meters: Pick<LiveMeters, "want" | "rest">;
  readonly elapsed_ms: () => number;
  readonly tellFault: TellFault;
}

/** While a light is dragged: often enough to be followed, seldom enough that the one who drags does not feel it. */
const EVERY_MS = 300;
/** A library that cannot be read for a moment is read again. */
const AGAIN_MS = 1000;

export class LiveDesk {
  readonly #parts: LiveDeskParts;
  readonly #viewers = new Map<LiveStream, LengthUnits>();
  /** of the work on the table, also where it cannot be shown */
  #key: string | null = null;
  #work: LiveWork | null = null;
  #placed: readonly Placed[] = [];
  #read: MetersRead | null = null;
  /** the newest state in each units that somebody looks in */
  #messages = new Map<LengthUnits, Uint8Array>();
  #isKnown = false;
  #isStale = false;
  #isReading = false;
  #readAt_ms = Number.NEGATIVE_INFINITY;
  #timer: NodeJS.Timeout | null = null;
  #beat: NodeJS.Timeout | null = null;
  #unsubscribe: (() => void) | null = null;

  constructor(parts: LiveDeskParts) {
    this.#parts = parts;
  }

  add(viewer: LiveStream, units: LengthUnits): void {
    this.#viewers.set(viewer, units);
    if (this.#viewers.size === 1) this.#wake();
    if (this.#isKnown) viewer.send(this.#message(units));
  }

  remove(viewer: LiveStream): void {
    if (this.#viewers.delete(viewer) && this.#viewers.size === 0) this.#sleep();
  }

  /** The meters of a plan were worked out. */
  meterRead(read: MetersRead): void {
    if (read.key !== this.#work?.key) return;
    this.#read = read;
    this.#tell();
  }

  #wake(): void {
    this.#unsubscribe = this.#parts.news.subscribe((news) => {
      if (news.kind === "hand") this.#refresh();
      else if ((news.kind === "work" || news.kind === "placed") && news.key === this.#key) this.#refresh();
    });
    this.#beat = setInterval(() => {
      for (const viewer of [...this.#viewers.keys()]) viewer.beat();
    }, HEARTBEAT_MS);
    this.#refresh();
  }

  #sleep(): void {
    this.#unsubscribe?.();
    if (this.#beat) clearInterval(this.#beat);
    if (this.#timer) clearTimeout(this.#timer);
    this.#unsubscribe = this.#beat = this.#timer = null;
    this.#isKnown = this.#isStale = false;
    this.#messages.clear();
    this.#parts.meters.rest();
  }

  /** Reads now, or as soon as the last reading is long enough ago; news that comes meanwhile is read with it. */
  #refresh(): void {
    this.#isStale = true;
    if (this.#isReading || this.#timer !== null || this.#viewers.size === 0) return;
    const wait = this.#readAt_ms + EVERY_MS - this.#parts.elapsed_ms();
    if (wait <= 0) void this.#readWork();
    else this.#later(wait);
  }

  #later(wait_ms: number): void {
    this.#timer = setTimeout(() => {
      this.#timer = null;
      void this.#readWork();
    }, wait_ms);
  }

  async #readWork(): Promise<void> {
    this.#isReading = true;
    this.#isStale = false;
    this.#readAt_ms = this.#parts.elapsed_ms();
    try {
      await this.#load();
      this.#isKnown = true;
      this.#tell();
    } catch (error) {
      this.#parts.tellFault("reading the live plan", error);
      if (this.#viewers.size > 0 && this.#timer === null) this.#later(AGAIN_MS);
    } finally {
      this.#isReading = false;
    }
    if (this.#isStale) this.#refresh();
  }

  async #load(): Promise<void> {
    const { store, library, hand, meters } = this.#parts;
    const key = hand();
    this.#key = key;
    const saved = key === null ? null : await store.load(key);
    if (key === null || saved === null) {
      this.#work = this.#read = null;
      return;
    }
    this.#placed = await library.placed(key);
    if (this.#work?.key !== key) this.#read = null;
    if (this.#work?.key !== key || this.#work.revision !== saved.revision) {
      const checked = checkPlan(saved.plan);
      this.#work = checked.ok ? { key, revision: saved.revision, plan: checked.plan } : null;
    }
    if (this.#work !== null && this.#viewers.size > 0) meters.want(this.#work);
  }

  #tell(): void {
    this.#messages.clear();
    for (const [viewer, units] of this.#viewers) viewer.send(this.#message(units));
  }

  #message(units: LengthUnits): Uint8Array {
    let message = this.#messages.get(units);
    if (message === undefined) {
      message = eventOf(this.#state(units));
      this.#messages.set(units, message);
    }
    return message;
  }

  #state(units: LengthUnits) {
    if (this.#work === null) return { kind: "nothing" };
    const { key, revision, plan } = this.#work;
    const reading = this.#read;
    const around = { key, revision, units, placed: this.#placed, reading, readOf: reading?.revision ?? null };
    return { kind: "plan", plan: this.#parts.draw(plan, around) };
  }
}
