/** What the window and a worker say to each other. Plain data only; every message names its job. */
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
import type { Plan } from "../plan/index.ts";
import type { FieldMap, MapRequest, PlanReading } from "../reading/index.ts";
import type { Calibration, CalibrationFrame, FrameComparison } from "../testframe/index.ts";
import type {
  AboutPerson,
  FrameOfPerson,
  FramePicture,
  FrameRequest,
  Progress,
  Quality,
} from "../workbench/index.ts";

export type Job =
  | { readonly kind: "read"; readonly quality: Quality; readonly studied?: readonly number[] }
  | ({ readonly kind: "frame" } & FrameRequest)
  | ({ readonly kind: "map"; readonly quality: Quality } & MapRequest)
  | { readonly kind: "ready" }
  | { readonly kind: "search"; readonly task: SearchTask }
  | { readonly kind: "settle"; readonly candidate: Candidate }
  | { readonly kind: "hold"; readonly person: number }
  | ({ readonly kind: "steps" } & AboutPerson)
  | { readonly kind: "reach" }
  | ({ readonly kind: "remedies"; readonly ask: Ask } & AboutPerson)
  | { readonly kind: "calibrate"; readonly frames: readonly CalibrationFrame[] }
  | ({ readonly kind: "compare" } & FrameOfPerson);

export interface JobResults {
  read: PlanReading;
  frame: FramePicture;
  map: FieldMap;
  ready: null;
  search: SearchResult;
  settle: SetUp;
  hold: HoldZone;
  steps: TriedSteps;
  reach: ReachEffect[];
  remedies: Remedy[];
  calibrate: Calibration;
  compare: FrameComparison;
}
export type JobResult = JobResults[keyof JobResults];

/** `stop` is a shared flag where the page is isolated: a running job sees it without a message. */
export type ToWorker =
  | {
      readonly type: "start";
      readonly id: number;
      readonly job: Job;
      readonly plan: Plan;
      readonly stop: SharedArrayBuffer | null;
    }
  | { readonly type: "cancel"; readonly id: number };

export type FromWorker =
  | { readonly type: "progress"; readonly id: number; readonly progress: Progress }
  | { readonly type: "done"; readonly id: number; readonly result: JobResult }
  | { readonly type: "cancelled"; readonly id: number }
  | { readonly type: "failed"; readonly id: number; readonly problem: Failure };

/** An error as data: what `Error` loses on the way through postMessage is kept here. */
export interface Failure {
  readonly name: string;
  readonly message: string;
}

export function describeFailure(error: unknown): Failure {
  if (error instanceof Error) return { name: error.name, message: error.message };
  return { name: "Error", message: String(error) };
}

/** The buffers of a result. They change owner with the message: the sender must not keep them. */
export function transferList(result: JobResult): ArrayBuffer[] {
  const buffers = new Set<ArrayBuffer>();
  for (const value of Object.values(result ?? {})) {
    if (ArrayBuffer.isView(value) && value.buffer instanceof ArrayBuffer) buffers.add(value.buffer);
  }
  return [...buffers];
}
