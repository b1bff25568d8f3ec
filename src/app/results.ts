import type { Plan } from "../plan/index.ts";
import type { FieldMap, MapRequest, PlanReading } from "../reading/index.ts";
import type { Computer, FramePicture, Quality } from "../workbench/index.ts";
import { Refiner } from "./refiner.ts";
import { Store } from "./store.ts";

export interface Results {
  readonly reading: PlanReading | null;
  /** the plan that the reading belongs to */
  readonly readingOf: Plan | null;
  readonly readingQuality: Quality;
  readonly frame: FramePicture | null;
  /** the light over the floor and from the side; null where no layer is shown */
  readonly floorMap: FieldMap | null;
  readonly sideMap: FieldMap | null;
  readonly busy: Readonly<Record<"reading" | "frame" | "floorMap" | "sideMap", boolean>>;
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
  floorMap: null,
  sideMap: null,
  busy: { reading: false, frame: false, floorMap: false, sideMap: false },
  frameDone: null,
  failure: null,
};

interface MapInput {
  readonly plan: Plan;
  readonly request: MapRequest;
}

/** What the layers need; null where none is shown. */
export interface AskedMaps {
  readonly floor: MapRequest | null;
  readonly side: MapRequest | null;
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
  readonly #maps: Readonly<Record<keyof AskedMaps, Refiner<MapInput, FieldMap, Quality>>>;
  #asked: { plan: Plan; maps: AskedMaps } | null = null;

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
    const mapRefiner = (part: "floorMap" | "sideMap") =>
      new Refiner<MapInput, FieldMap, Quality>({
        ...common,
        levels: QUALITIES,
        compute: ({ plan, request }, quality, signal) =>
          readings.map(plan, { ...request, quality }, { signal }),
        show: (map) => this.store.update({ [part]: map }),
        onBusy: busy(part),
      });
    this.#maps = { floor: mapRefiner("floorMap"), side: mapRefiner("sideMap") };
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

  /** A map that is null is not computed, and what was shown of it goes. */
  ask(plan: Plan, maps: AskedMaps): void {
    const before = this.#asked;
    this.#asked = { plan, maps };
    if (before?.plan !== plan) {
      this.#reading.ask(plan);
      this.#frame.ask(plan);
    }
    for (const sheet of ["floor", "side"] as const) {
      const request = maps[sheet];
      const known = before?.plan === plan ? before.maps[sheet] : null;
      if (request === null) {
        this.#maps[sheet].clear();
        this.store.update(sheet === "floor" ? { floorMap: null } : { sideMap: null });
      } else if (!sameRequest(known, request)) this.#maps[sheet].ask({ plan, request });
    }
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
    this.ask(asked.plan, asked.maps);
  }

  clear(): void {
    this.#asked = null;
    this.#reading.clear();
    this.#frame.clear();
    this.#maps.floor.clear();
    this.#maps.side.clear();
    this.store.set(NOTHING);
  }
}

function sameRequest(a: MapRequest | null, b: MapRequest): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
