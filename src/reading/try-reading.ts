/** What a search, a hold zone or a move asks of a set-up: less than a whole reading, in a small part of its time. The same
 * names mean the same things as in FaceReading and CameraReading. */
import type { Plan } from "../plan/index.ts";
import { type PlanReading, readPlan } from "./index.ts";
import type { Effort } from "./lighting.ts";
import type { Memory } from "./memory.ts";
import type { Pattern } from "./types.ts";

export interface TryReading {
  readonly pattern: Pattern;
  readonly between: Pattern | null;
  readonly litSide: "left" | "right" | "even";
  readonly litCheek: number;
  readonly shadowCheek: number;
  readonly ratioStops: number | null;
  readonly side: "broad" | "short" | "square";
  /** degrees in the head's axes */
  readonly light: { readonly azimuth: number | null; readonly elevation: number | null };
  readonly shadowEdgeMillimetres: number | null;
  /** lights that show in an eye */
  readonly catchlights: readonly { eye: "left" | "right"; light: string; clock: number }[];
  readonly backgroundStops: number | null;
  readonly headroomStops: number | null;
  /** lit cheeks of everybody, lx.s, in the plan's order */
  readonly litCheeks: readonly number[];
}

/** What takes its time; whoever reads many hundred set-ups may leave it out, and finds null there, or nobody. */
export type Costly =
  | "shadowEdgeMillimetres"
  | "catchlights"
  | "backgroundStops"
  | "headroomStops"
  | "litCheeks";

/** Reads variations of one plan: lights, camera, panels and where people stand and how they hold their heads may differ
 * from it; room, backdrop and what people look like may not. */
export interface Trier {
  read(plan: Plan, leaveOut?: readonly Costly[]): TryReading;
}

/** The slow road: everything traced, by the whole reading. */
export function fullTrier(person: number, effort: Effort, memory: Memory): Trier {
  return { read: (plan) => tryReadingOf(readPlan(plan, effort, memory), person) };
}

/** What a whole reading says of it. */
export function tryReadingOf(reading: PlanReading, person: number): TryReading {
  const { face } = reading.people[person];
  return {
    pattern: face.pattern,
    between: face.between,
    litSide: face.litSide,
    litCheek: face.litCheek,
    shadowCheek: face.shadowCheek,
    ratioStops: face.ratioStops,
    side: face.side,
    light: face.light,
    shadowEdgeMillimetres: face.shadowEdgeMillimetres,
    catchlights: face.catchlights
      .filter((c) => c.visible && c.kind === "light")
      .map(({ eye, light, clock }) => ({ eye, light, clock })),
    backgroundStops: reading.camera.backgroundStops,
    headroomStops: reading.camera.headroomStops,
    litCheeks: reading.people.map((p) => p.face.litCheek),
  };
}
