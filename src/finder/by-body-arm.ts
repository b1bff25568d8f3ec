/** A straight arm from the mark to what is touched: what of it is there, and how much people of one stature differ by it. */
import { armLength, type Landmark, reachOf } from "../figure/index.ts";
import type { Person, Vec3 } from "../plan/index.ts";
import type { StagedPerson } from "../staging/index.ts";
import type { Touch } from "./by-body-target.ts";

/** How the mark is found again: what is done, and how far off people of that stature end along the floor. */
export interface Way {
  readonly words: string;
  /** the smaller, the sooner it is chosen: fingers of gap, and what a stance is worth in them */
  readonly cost: number;
  /** metres, one standard deviation */
  readonly spread_m: number;
  /** along the floor to what is touched: unit length */
  readonly toward: readonly [number, number];
}

export interface Shoulder {
  readonly stance: string;
  readonly at: Readonly<Vec3>;
  /** what it is worth in fingers to hold the arm there; null where it does not go there */
  readonly costOf: (dx: number, dy: number) => number | null;
}

/** A wider gap is no longer judged by fingers, of two hands side by side. */
const MOST_FINGERS = 8;
/** Where the arm is steeper a step along the floor hardly changes what the fingers touch. */
const STEEPEST_DEG = 65;
/** How far an arm goes to its own side of straight ahead and across the chest, degrees (common practice, no source). */
const OUTWARD_DEG = 110;
const ACROSS_DEG = 30;
/** The arm of the side that it is on comes before the one that crosses the chest by more than this. */
const OWN_SIDE_DEG = 5;
const ACROSS_COST = 4;
/** Level up to so many degrees. */
const LEVEL_DEG = 15;
/** The shoulders lie so far behind the ears, over stature: as the figure's body has it. */
const BEHIND = 0.022 / 1.7;
/** Nobody turns aside to spare a finger. */
const SIDE_ON_COST = 6;

const DEGREE = Math.PI / 180;

/** The two shoulders as somebody stands on the mark, and the one of somebody who turns side-on to `to`. */
export function shouldersOf(person: Person, staged: StagedPerson, to: Readonly<Vec3>): Shoulder[] {
  const { stature, position } = person;
  const reach = reachOf(stature);
  const z = staged.shape.earHeight - reach.shoulderUnderEars;
  const [x, y] = position;
  // the body's own axes on the floor: columns of its rotation
  const r = staged.bodyRotation;
  const along = (dx: number, dy: number) => [dx * r[0] + dy * r[3], dx * r[1] + dy * r[4]];
  const arms = ([1, -1] as const).map((side): Shoulder => {
    const [aside, behind] = [side * reach.shoulderAside, BEHIND * stature];
    const at: Vec3 = [x + aside * r[1] - behind * r[0], y + aside * r[4] - behind * r[3], z];
    const costOf = (dx: number, dy: number) => {
      const [ahead, left] = along(dx, dy);
      const outward_deg = Math.atan2(side * left, ahead) / DEGREE;
      if (outward_deg > OUTWARD_DEG || outward_deg < -ACROSS_DEG) return null;
      return outward_deg < -OWN_SIDE_DEG ? ACROSS_COST : 0;
    };
    return { stance: `${side > 0 ? "left" : "right"} arm`, at, costOf };
  });
  const [dx, dy] = [to[0] - x, to[1] - y];
  const far = Math.hypot(dx, dy);
  if (!(far > 0)) return arms;
  const out = reach.shoulderAsideHeldOut / far;
  const at: Vec3 = [x + out * dx, y + out * dy, z];
  return [...arms, { stance: "side-on to it, near arm", at, costOf: () => SIDE_ON_COST }];
}

/** Null where no part of the arm is there, or where it tells nothing of the floor. */
export function onArm(stature: number, { stance, costOf, at }: Shoulder, touch: Touch): Way | null {
  const d = [0, 1, 2].map((k) => touch.point[k] - at[k]);
  const cost = costOf(d[0], d[1]);
  if (cost === null) return null;
  const [level, far] = [Math.hypot(d[0], d[1]), Math.hypot(d[0], d[1], d[2])];
  const up_deg = Math.atan2(d[2], level) / DEGREE;
  if (Math.abs(up_deg) > STEEPEST_DEG) return null;
  const { finger, shoulderSpread } = reachOf(stature);
  const held = Math.abs(up_deg) <= LEVEL_DEG ? "level" : up_deg > 0 ? "raised" : "lowered";
  for (const [rank, to] of (["fingertips", "fist", "wrist"] as const).entries()) {
    const { length, spread } = armLength(stature, to, up_deg);
    const fingers = Math.round((far - length) / finger);
    if (fingers < 0) continue;
    if (fingers > MOST_FINGERS) return null;
    // what is left of the gap lies anywhere within half a finger either way
    const off = Math.hypot(spread, (d[2] / far) * shoulderSpread, finger / Math.sqrt(12));
    return {
      words: `${stance} ${held}: ${contactWords(to, fingers, touch.name)}`,
      cost: cost + touch.cost + fingers + rank,
      // a step along the floor changes the length by the cosine of how far the arm is raised
      spread_m: off * (far / level),
      toward: [d[0] / level, d[1] / level],
    };
  }
  return null;
}

export function fingersWords(fingers: number): string {
  return `${fingers} ${fingers === 1 ? "finger" : "fingers"}`;
}

function contactWords(to: Landmark, fingers: number, name: string): string {
  const gap = fingersWords(fingers);
  if (to === "fingertips")
    return fingers === 0
      ? `fingertips just touch the ${name}`
      : `fingertips stop ${gap} short of the ${name}`;
  if (to === "fist")
    return fingers === 0 ? `the ${name} lies in the closed fist` : `the ${name} lies ${gap} past the fist`;
  return fingers === 0 ? `the ${name} meets the wrist` : `the ${name} lies ${gap} past the wrist`;
}
