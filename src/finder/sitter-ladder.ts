/** A day of heads on paper: how high everything that is set by the face goes, for each stature. */
import type { Plan } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { nextSitter } from "./next-sitter.ts";

export interface LadderRung {
  readonly stature_m: number;
  readonly eyes_m: number;
  /** heights of the middles of lights and panels, and of the lens, by name; empty where it cannot be set up */
  readonly heights: readonly { readonly name: string; readonly height_m: number }[];
  /** why it cannot be set up; null where it can */
  readonly why: string | null;
}

/** Errors  RangeError where there is no such person */
export function sitterLadder(
  plan: Plan,
  index: number,
  statures_m: readonly number[],
  units: LengthUnits = "metric",
): LadderRung[] {
  return statures_m.map((stature_m) => {
    const { made, eyes_m, moves } = nextSitter(plan, index, { stature: stature_m }, units);
    if (!made.ok) return { stature_m, eyes_m, heights: [], why: made.why };
    const { lights, panels, camera } = made.after;
    const heights = [...lights, ...panels, { ...camera, name: "camera" }]
      .filter(({ name }) => moves.includes(name))
      .map(({ name, position }) => ({ name, height_m: position[2] }));
    return { stature_m, eyes_m, heights, why: null };
  });
}
