/** Plans made for checks, and any number of meters read in them. */
import { checkPlan, type Plan } from "../src/plan/index.ts";
import { Memory, type MeterReading, readPlan } from "../src/reading/index.ts";

export type Point = readonly [number, number, number];

/** A meter without its name. */
export interface Held {
  readonly position: Point;
  readonly direction: { readonly bearing: number; readonly tilt?: number } | { readonly at: Point };
  readonly receptor?: "flat" | "dome";
}

/** Errors  Error with the first problem: the checks' own plans are meant to be right */
export function planOf(parts: object): Plan {
  const checked = checkPlan({ format: "tapemark/plan", version: 1, ...parts });
  if (!checked.ok) throw new Error(`${checked.problems[0].path}: ${checked.problems[0].what}`);
  return checked.plan;
}

/** A plan holds 64 meters: more are read in turns that share what was traced. */
const TURN = 64;

export function readHeld(parts: object, held: readonly Held[], memory = new Memory()): MeterReading[] {
  const out: MeterReading[] = [];
  for (let i = 0; i < held.length; i += TURN)
    out.push(...readPlan(planOf({ ...parts, meters: held.slice(i, i + TURN) }), "fine", memory).meters);
  return out;
}

export const readOne = (parts: object, held: Held): MeterReading => readHeld(parts, [held])[0];

export function sumOf(reading: MeterReading, share: "direct" | "bounced"): number {
  return Object.values(reading.byLight).reduce((sum, of) => sum + of[share], 0);
}

export const grey = (r: number) => ({ floor: r, ceiling: r, near: r, far: r, left: r, right: r });

/** Two half-space points back to back: the same all round. */
export function isotropic(position: Point, lumens: number) {
  return [90, -90].map((tilt) => ({
    position,
    direction: { bearing: 0, tilt },
    face: { shape: "point" },
    beam: { exponent: 0 },
    output: { lumenSeconds: lumens / 2 },
  }));
}

/** For readings that several rows of a table share. */
export function once<T>(make: () => T): () => T {
  let made: { value: T } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
