import type { Plan } from "../plan/index.ts";
import { type FieldMap, GLANCE_WIDTH, type MapRequest, type PlanReading } from "../reading/index.ts";
import type { Computer, FramePicture, Quality } from "../workbench/index.ts";
import { Refiner } from "./refiner.ts";
import { Store } from "./store.ts";

export interface Results {
  readonly reading: PlanReading | null;
  /** the plan that the reading belongs to */
  readonly readingOf: Plan | null;
  readonly readingQuality: Quality;
  readonly frame: FramePicture | null;
  /** the plan that the frame belongs to */
  readonly frameOf: Plan | null;
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
  readingQuality: "glance",
  frame: null,
  frameOf: null,
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

/** Half size first, so that the full picture does not come from nowhere. */
const FRAME_LEVELS: readonly FrameLevel[] = [
  { quality: "coarse", share: 0.5 },
  { quality: "fine", share: 1 },
];
const STILL_MS = 160;

/** What is seen of a plan while it is dragged: both from one worker, in which they share nearly all of the work. */
interface Glance {
  readonly reading: PlanReading;
  readonly frame: FramePicture;
}

/** Keeps reading, frame and maps following the plan: a glance at once, everything fine when still. The glance has one
 * computer to itself while something is dragged, so that nothing holds it up: coarse maps and larger frames go to the
 * other one. */
export class ResultsFollower {
  readonly store = new Store<Results>(NOTHING);
  #frameWidth = 360;
  readonly #glance: Refiner<Plan, Glance, "glance">;
  readonly #reading: Refiner<Plan, PlanReading, "fine">;
  readonly #frame: Refiner<Plan, FramePicture, FrameLevel>;
  readonly #maps: Readonly<Record<keyof AskedMaps, Refiner<MapInput, FieldMap, Quality>>>;
  #asked: { plan: Plan; maps: AskedMaps } | null = null;
  #still: ReturnType<typeof setTimeout> | undefined;
  /** until the first glance is there: building figures takes a processor a second, and there may be few */
  #mapsWait = true;

  constructor(readings: Computer, frames: Computer) {
    const fail = (error: unknown) => {
      this.store.update({ failure: error instanceof Error ? error.message : String(error) });
    };
    const common = { fail, still_ms: STILL_MS };
    this.#glance = new Refiner({
      levels: ["glance"],
      ...common,
      compute: async (plan, quality) => {
        const [reading, frame] = await Promise.all([
          readings.read(plan, quality),
          readings.frame(plan, { quality, width: GLANCE_WIDTH }),
        ]);
        return { reading, frame };
      },
      show: ({ reading, frame }, readingQuality, readingOf) => {
        this.store.update({ reading, readingQuality, readingOf, frame, frameOf: readingOf, failure: null });
        const asked = this.#asked;
        if (readingOf === asked?.plan) this.#refineWhenStill(readingOf);
        if (asked !== null && this.#mapsWait) {
          this.#mapsWait = false;
          this.#askMaps(asked.plan, asked.maps, null);
        }
      },
      fail: (error) => {
        this.#busy({ reading: false, frame: false });
        fail(error);
      },
      onBusy: () => {},
    });
    this.#reading = new Refiner({
      levels: ["fine"],
      ...common,
      compute: (plan, quality, signal) => readings.read(plan, quality, { signal }),
      show: (reading, readingQuality, readingOf) =>
        this.store.update({ reading, readingQuality, readingOf, failure: null }),
      onBusy: (reading) => this.#busy({ reading }),
    });
    const mapRefiner = (part: "floorMap" | "sideMap") =>
      new Refiner<MapInput, FieldMap, Quality>({
        levels: ["coarse", "fine"],
        ...common,
        compute: ({ plan, request }, quality, signal) =>
          (quality === "fine" ? readings : frames).map(plan, { ...request, quality }, { signal }),
        show: (map) => this.store.update({ [part]: map }),
        onBusy: (busy) => this.#busy({ [part]: busy }),
      });
    this.#maps = { floor: mapRefiner("floorMap"), side: mapRefiner("sideMap") };
    this.#frame = new Refiner({
      levels: FRAME_LEVELS,
      fail,
      still_ms: 0,
      compute: (plan, { quality, share }, signal) =>
        frames.frame(
          plan,
          { quality, width: Math.max(48, Math.round(this.#frameWidth * share)) },
          { signal, onProgress: ({ done }) => share === 1 && this.store.update({ frameDone: done }) },
        ),
      show: (frame, _, frameOf) => this.store.update({ frame, frameOf, frameDone: null }),
      onBusy: (frame) => this.#busy({ frame }),
    });
  }

  #busy(parts: Partial<Results["busy"]>): void {
    const { busy } = this.store.get();
    const now = { ...busy, ...parts };
    if (JSON.stringify(now) !== JSON.stringify(busy)) this.store.update({ busy: now });
  }

  /** A map that is null is not computed, and what was shown of it goes. */
  ask(plan: Plan, maps: AskedMaps): void {
    const before = this.#asked;
    this.#asked = { plan, maps };
    if (before?.plan !== plan) {
      clearTimeout(this.#still);
      this.#reading.clear();
      this.#frame.clear();
      this.#busy({ reading: true, frame: true });
      this.#glance.ask(plan);
    }
    if (!this.#mapsWait) this.#askMaps(plan, maps, before?.plan === plan ? before.maps : null);
  }

  #askMaps(plan: Plan, maps: AskedMaps, before: AskedMaps | null): void {
    for (const sheet of ["floor", "side"] as const) {
      const request = maps[sheet];
      const known = before?.[sheet] ?? null;
      if (request === null) {
        this.#maps[sheet].clear();
        const part = sheet === "floor" ? "floorMap" : "sideMap";
        if (this.store.get()[part] !== null) this.store.update({ [part]: null });
        this.#busy({ [part]: false });
      } else if (!sameRequest(known, request)) this.#maps[sheet].ask({ plan, request });
    }
  }

  #refineWhenStill(plan: Plan): void {
    clearTimeout(this.#still);
    this.#still = setTimeout(() => {
      this.#reading.ask(plan);
      this.#frame.ask(plan);
    }, STILL_MS);
  }

  /** Pixels on the screen that the picture will fill; a larger one is made when it grows. */
  setFrameWidth(width: number): void {
    const rounded = Math.min(720, Math.max(120, Math.round(width)));
    const grows = rounded > this.#frameWidth;
    this.#frameWidth = rounded;
    // before the first glance at a plan this comes by itself
    const { frameOf } = this.store.get();
    if (grows && frameOf !== null && frameOf === this.#asked?.plan) this.#refineWhenStill(frameOf);
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
    clearTimeout(this.#still);
    this.#glance.clear();
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
