/** The narrow ports between the use cases and what surrounds them. */
import type { Plan } from "../plan/index.ts";
import type { FieldMap, PlanReading } from "../reading/types.ts";

/** coarse: quick enough to drag; fine: what a person may write down */
export type Quality = "coarse" | "fine";

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
  frame(
    plan: Plan,
    request: { width: number; quality: Quality },
    options?: WorkOptions,
  ): Promise<FramePicture>;
  /** `height` in metres above the floor; `person` is the index of the one who is taken away and read against */
  map(
    plan: Plan,
    request: { height: number; person: number; quality: Quality },
    options?: WorkOptions,
  ): Promise<FieldMap>;
}

/** One working plan with its undo history, saved as it changes. */
export interface SavedWork {
  readonly plan: unknown;
  /** opaque to the store: the undo history as the workbench writes it */
  readonly history: unknown;
  /** grows by one with each save, so that two windows notice each other */
  readonly revision: number;
}

export interface PlanStore {
  load(key: string): Promise<SavedWork | null>;
  save(key: string, work: SavedWork): Promise<void>;
  list(): Promise<{ key: string; title: string; savedAt: string }[]>;
}
