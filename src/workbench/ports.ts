/** The narrow ports between the use cases and what surrounds them. */
import type {
  Ask,
  Candidate,
  HoldZone,
  ReachEffect,
  Remedy,
  SearchResult,
  SearchTask,
  SetUp,
  TriedSteps,
} from "../finder/index.ts";
import type { Shelf } from "../gear/index.ts";
import type { Plan } from "../plan/index.ts";
import type { FieldMap, MapRequest, PictureRegion, PlanReading } from "../reading/types.ts";
import type {
  Calibration,
  CalibrationFrame,
  FrameComparison,
  PhotoReading,
  ResponseCurve,
} from "../testframe/index.ts";
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

export interface ReadOptions extends WorkOptions {
  /** whose ways to other patterns and shadow edge a fine reading looks for, by their numbers in the plan: they take a third
   * of its time; everybody's where it is left out */
  readonly studied?: readonly number[];
}

/** The part of AbortSignal that the use cases look at; keeps them free of the DOM. */
export interface AbortSignalLike {
  readonly aborted: boolean;
}

/** Everything that takes time. In the browser it is a worker, in the shell a plain call. */
export interface Computer {
  read(plan: Plan, quality: Quality, options?: ReadOptions): Promise<PlanReading>;
  frame(plan: Plan, request: FrameRequest, options?: WorkOptions): Promise<FramePicture>;
  map(plan: Plan, request: MapRequest & { quality: Quality }, options?: WorkOptions): Promise<FieldMap>;
}

/** The person it is about, and the tape in the hand. */
export interface AboutPerson {
  readonly person: number;
  readonly units: LengthUnits;
}

/** A photograph that was read, and which of its faces is that person's. */
export interface FrameOfPerson {
  readonly person: number;
  readonly photo: PhotoReading;
  readonly face: number;
}

/** What to do about a plan, not only what it does. As `Computer`: each takes time and can be stopped. */
export interface Finder {
  /** gets to know sitter and room before a search is asked for */
  ready(plan: Plan, options?: WorkOptions): Promise<null>;
  search(plan: Plan, request: { task: SearchTask }, options?: WorkOptions): Promise<SearchResult>;
  settle(plan: Plan, request: { candidate: Candidate }, options?: WorkOptions): Promise<SetUp>;
  hold(plan: Plan, request: { person: number }, options?: WorkOptions): Promise<HoldZone>;
  steps(plan: Plan, request: AboutPerson, options?: WorkOptions): Promise<TriedSteps>;
  /** what it does to the light that distances found by the body are a little off */
  reach(plan: Plan, options?: WorkOptions): Promise<ReachEffect[]>;
  remedies(plan: Plan, request: AboutPerson & { ask: Ask }, options?: WorkOptions): Promise<Remedy[]>;
  /** what the plan's readings, and test frames of it, say of lights and room */
  calibrate(
    plan: Plan,
    request: { frames: readonly CalibrationFrame[] },
    options?: WorkOptions,
  ): Promise<Calibration>;
  /** a frame beside the plan, and why it differs: small changes of the plan are read for that, a second or two */
  compare(plan: Plan, request: FrameOfPerson, options?: WorkOptions): Promise<FrameComparison>;
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
}

/** What a list shows of one work. */
export interface WorkGlance {
  /** unchecked; null where it cannot be read */
  readonly plan: unknown;
  /** the plan or its undo history lies there and cannot be read */
  readonly isDamaged: boolean;
}

/** For who only shows a work: its undo history may be megabytes, and is left where it lies. */
export interface PlanShelf {
  load(key: string): Promise<Pick<SavedWork, "plan" | "revision"> | null>;
}

export interface PlanStore {
  load(key: string): Promise<SavedWork | null>;
  save(key: string, work: SavedWork): Promise<void>;
  /** the newest first; nothing of what they hold is read */
  list(): Promise<KeptWork[]>;
}

/** A store that shows a work without handing over its undo history. */
export interface WorkStore extends PlanStore {
  /** null where there is none of that key */
  glance(key: string): Promise<WorkGlance | null>;
}

/** A photograph that was read, as the page shows it. Its picture is asked for by its id. */
export interface TestFrame {
  /** given by the desk; the same file read again (same name, size and time) has the same */
  readonly id: string;
  readonly name: string;
  /** when it was there whole, ISO 8601 */
  readonly arrivedAt: string;
  readonly reading: PhotoReading;
  /** the file is not where it was: where that is, and what to do */
  readonly away?: string;
}

/** A file that is there and could not be read, or that is still being read or written. */
export interface PendingFrame {
  readonly name: string;
  readonly state: "being written" | "being read" | "failed";
  /** what is wrong and what to do, where it failed */
  readonly problem: string | null;
}

/** All of it at one moment. */
export interface DeskState {
  /** grows with every change */
  readonly version: number;
  /** the folder that is watched; null while none is */
  readonly folder: string | null;
  readonly folderProblem: string | null;
  /** in the order they were taken */
  readonly frames: readonly TestFrame[];
  readonly pending: readonly PendingFrame[];
}

/** Where test frames come in and lie: on the server, beside the library that reads them. Files are never changed or deleted. */
export interface FrameDesk {
  /** the state once it is newer than `after`; waits up to half a minute for that */
  state(after: number): Promise<DeskState>;
  /** Errors  WorkError in plain words where the file is no photograph */
  read(name: string, bytes: Uint8Array): Promise<TestFrame>;
  /** Errors  WorkError where there is no such folder */
  watch(folder: string | null): Promise<void>;
  /** takes it off the desk, and out of the library with what was said of it; the file stays */
  forget(id: string): Promise<void>;
}

/** What was learnt of one head with one front. */
export interface KeptLight {
  /** over what its plan says it gives */
  readonly stops: number;
  readonly uncertaintyStops: number;
  readonly measuredOn: string;
  /** of its beam then; left out where a photometric file says how it spreads */
  readonly exponent?: number;
}

/** What was learnt of gear, kept from plan to plan. */
export interface GearBook {
  /** curves of camera bodies by "make model" (and serial where it is known) */
  readonly bodies: Readonly<Record<string, ResponseCurve & { readonly measuredOn: string }>>;
  /** by `bookKey`: the light's name, front and full power */
  readonly lights: Readonly<Record<string, KeptLight>>;
  /** what became of a book that could not be read, for people; not kept */
  readonly notice?: string;
  /** which state of the kept book it was read from: what somebody else learnt since is not undone */
  readonly revision?: number;
  /** what others learnt of the same gear meanwhile and this book, saved after theirs, has otherwise; not kept */
  readonly over?: Pick<GearBook, "bodies" | "lights">;
}

export interface GearStore {
  /** an empty book where none is kept yet */
  load(): Promise<GearBook>;
  /** The book as it is kept now: with what others learnt meanwhile. */
  save(book: GearBook): Promise<GearBook>;
}

/** What somebody owns, as it is kept. */
export interface KeptShelf {
  readonly shelf: Shelf;
  /** nothing was kept yet: this is the one to begin with */
  readonly isStarter: boolean;
  /** what became of a shelf that could not be read, for people; not kept */
  readonly notice?: string;
  /** which state of the kept shelf it was read from: what somebody else changed since is not undone */
  readonly revision?: number;
  /** the shelf as others had left it, where some of what they changed was changed here too and is not in this one; not kept */
  readonly over?: Shelf;
}

export interface ShelfStore {
  /** the one to begin with where none is kept yet */
  load(): Promise<KeptShelf>;
  /** The shelf as it is kept now: with what others changed meanwhile.
   * Errors  WorkError where it is no sound shelf */
  save(shelf: Shelf, revision: number | undefined): Promise<KeptShelf>;
}
