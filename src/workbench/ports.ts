/** The narrow ports between the use cases and what surrounds them. */
import type {
  Ask,
  Candidate,
  HoldZone,
  Remedy,
  SearchResult,
  SearchTask,
  SetUp,
  TriedSteps,
} from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import type { FieldMap, MapRequest, PictureRegion, PlanReading } from "../reading/types.ts";
import type { LengthUnits } from "../units/index.ts";

/** glance: within a frame or two of the screen, while something is dragged; coarse: a tenth of a second;
 * fine: what a person may write down */
export type Quality = "glance" | "coarse" | "fine";

export interface FrameRequest {
  /** pixels across what is asked for: the whole picture or its region */
  readonly width: number;
  readonly quality: Quality;
  /** the whole picture when left out */
  readonly region?: PictureRegion;
  /** with 16 bits a channel as well, for saving */
  readonly deep?: boolean;
}

export interface Progress {
  /** 0 to 1 */
  readonly done: number;
  readonly what: string;
}

export interface FramePicture {
  readonly width: number;
  readonly height: number;
  /** sRGB as the camera would show it, 4 bytes a pixel, top row first */
  readonly rgba: Uint8ClampedArray;
  /** per pixel: 0 not clipped, 1 clipped, 2 clipped and skin */
  readonly clipped: Uint8Array;
  /** per pixel: tenths of a stop from the middle level (that of 18 % grey as metered), by luminance; -128 where nothing
   * arrives or more than 12.7 stops under it */
  readonly tenths: Int8Array;
  /** sRGB as `rgba`, 16 bits, 3 numbers a pixel; null where it was not asked for */
  readonly deep: Uint16Array | null;
}

export interface WorkOptions {
  readonly signal?: AbortSignalLike;
  readonly onProgress?: (progress: Progress) => void;
}

/** The part of AbortSignal that the use cases look at; keeps them free of the DOM. */
export interface AbortSignalLike {
  readonly aborted: boolean;
}

/** Everything that takes time. In the browser it is a worker, in the shell a plain call. */
export interface Computer {
  read(plan: Plan, quality: Quality, options?: WorkOptions): Promise<PlanReading>;
  frame(plan: Plan, request: FrameRequest, options?: WorkOptions): Promise<FramePicture>;
  map(plan: Plan, request: MapRequest & { quality: Quality }, options?: WorkOptions): Promise<FieldMap>;
}

/** The person it is about, and the tape in the hand. */
export interface AboutPerson {
  readonly person: number;
  readonly units: LengthUnits;
}

/** What to do about a plan, not only what it does. As `Computer`: each takes time and can be stopped. */
export interface Finder {
  /** gets to know sitter and room before a search is asked for */
  ready(plan: Plan, options?: WorkOptions): Promise<null>;
  search(plan: Plan, request: { task: SearchTask }, options?: WorkOptions): Promise<SearchResult>;
  settle(plan: Plan, request: { candidate: Candidate }, options?: WorkOptions): Promise<SetUp>;
  hold(plan: Plan, request: { person: number }, options?: WorkOptions): Promise<HoldZone>;
  steps(plan: Plan, request: AboutPerson, options?: WorkOptions): Promise<TriedSteps>;
  remedies(plan: Plan, request: AboutPerson & { ask: Ask }, options?: WorkOptions): Promise<Remedy[]>;
}

/** One working plan with its undo history, saved as it changes. */
export interface SavedWork {
  readonly plan: unknown;
  /** opaque to the store: the undo history as the workbench writes it */
  readonly history: unknown;
  /** grows by one with each save, so that two windows notice each other */
  readonly revision: number;
  /** who saved it and which state of theirs it was: a save whose answer was lost is known again */
  readonly by?: string;
}

/** One line of a list of works. */
export interface KeptWork {
  readonly key: string;
  readonly title: string;
  readonly savedAt: string;
  /** it lies there and cannot be read */
  readonly isDamaged?: boolean;
}

export interface PlanStore {
  load(key: string): Promise<SavedWork | null>;
  save(key: string, work: SavedWork): Promise<void>;
  list(): Promise<KeptWork[]>;
}
