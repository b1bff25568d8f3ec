import type { Plan } from "../plan/index.ts";
import type { FieldMap, PlanReading } from "../reading/index.ts";
import type { Computer, FramePicture, Quality } from "../workbench/index.ts";
import { Refiner } from "./refiner.ts";
import { Store } from "./store.ts";

export interface Results {
  readonly reading: PlanReading | null;
  /** the plan that the reading belongs to */
  readonly readingOf: Plan | null;
  readonly readingQuality: Quality;
  readonly frame: FramePicture | null;
  readonly map: FieldMap | null;
  readonly busy: { readonly reading: boolean; readonly frame: boolean; readonly map: boolean };
  /** 0 to 1 while the last frame is being made, else null */
  readonly frameDone: number | null;
  /** what the computing part said when it failed */
  readonly failure: string | null;
}

const NOTHING: Results = {
  reading: null,
  readingOf: null,
  readingQuality: "coarse",
  frame: null,
  map: null,
  busy: { reading: false, frame: false, map: false },
  frameDone: null,
  failure: null,
};

interface MapInput {
  readonly plan: Plan;
  readonly height: number;
  readonly person: number;
}

interface FrameLevel {
  readonly quality: Quality;
  /** share of the width on screen */
  readonly share: number;
}

/** While dragging about 90 pixels wide; then half size, so that the full picture does not come from nowhere. */
const FRAME_LEVELS: readonly FrameLevel[] = [
  { quality: "coarse", share: 0.2 },
  { quality: "coarse", share: 0.5 },
  { quality: "fine", share: 1 },
];
const QUALITIES: readonly Quality[] = ["coarse", "fine"];
const STILL_MS = 160;

/** Keeps reading, frame and map following the plan, coarse at once and fine when still. Readings and maps share
 * one computer, frames have the other, so that a long frame never holds up a number. */
export class ResultsFollower {
  readonly store = new Store<Results>(NOTHING);
  #frameWidth = 360;
  readonly #reading: Refiner<Plan, PlanReading, Quality>;
  readonly #frame: Refiner<Plan, FramePicture, FrameLevel>;
  readonly #map: Refiner<MapInput, FieldMap, Quality>;
  #asked: { plan: Plan; map: MapInput | null } | null = null;

  constructor(readings: Computer, frames: Computer) {
    const fail = (error: unknown) =>
      this.store.update({ failure: error instanceof Error ? error.message : String(error) });
    const busy = (part: keyof Results["busy"]) => (value: boolean) => {
      const { busy: all } = this.store.get();
      if (all[part] !== value) this.store.update({ busy: { ...all, [part]: value } });
    };
    const common = { fail, still_ms: STILL_MS };
    this.#reading = new Refiner({
      ...common,
      levels: QUALITIES,
      compute: (plan, quality, signal) => readings.read(plan, quality, { signal }),
      show: (reading, readingQuality, readingOf) =>
        this.store.update({ reading, readingQuality, readingOf, failure: null }),
      onBusy: busy("reading"),
    });
    this.#map = new Refiner({
      ...common,
      levels: QUALITIES,
      compute: ({ plan, height, person }, quality, signal) =>
        readings.map(plan, { height, person, quality }, { signal }),
      show: (map) => this.store.update({ map }),
      onBusy: busy("map"),
    });
    this.#frame = new Refiner({
      ...common,
      levels: FRAME_LEVELS,
      compute: (plan, { quality, share }, signal) =>
        frames.frame(
          plan,
          { quality, width: Math.max(48, Math.round(this.#frameWidth * share)) },
          { signal, onProgress: ({ done }) => share === 1 && this.store.update({ frameDone: done }) },
        ),
      show: (frame) => this.store.update({ frame, frameDone: null }),
      onBusy: busy("frame"),
    });
  }

  /** `map` is null when neither layer is shown: then no map is computed. */
  ask(plan: Plan, map: { height: number; person: number } | null): void {
    const before = this.#asked;
    const mapInput = map === null ? null : { plan, ...map };
    this.#asked = { plan, map: mapInput };
    if (before?.plan !== plan) {
      this.#reading.ask(plan);
      this.#frame.ask(plan);
    }
    if (mapInput === null) {
      this.#map.clear();
      this.store.update({ map: null });
    } else if (!sameMap(before?.map ?? null, mapInput)) this.#map.ask(mapInput);
  }

  /** Pixels on the screen that the picture will fill; a larger one is made when it grows. */
  setFrameWidth(width: number): void {
    const rounded = Math.min(720, Math.max(120, Math.round(width)));
    const grows = rounded > this.#frameWidth;
    this.#frameWidth = rounded;
    if (grows && this.#asked !== null) this.#frame.ask(this.#asked.plan);
  }

  /** After a failure: the same again. */
  again(): void {
    const asked = this.#asked;
    if (asked === null) return;
    this.#asked = null;
    this.store.update({ failure: null });
    this.ask(asked.plan, asked.map);
  }

  clear(): void {
    this.#asked = null;
    this.#reading.clear();
    this.#frame.clear();
    this.#map.clear();
    this.store.set(NOTHING);
  }
}

function sameMap(a: MapInput | null, b: MapInput): boolean {
  return a !== null && a.plan === b.plan && a.height === b.height && a.person === b.person;
}
