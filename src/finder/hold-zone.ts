/** How far somebody may drift from the mark, turn and tip the head, with the light on the face as asked. */
import type { Plan } from "../plan/index.ts";
import {
  type KeepGoing,
  type Memory,
  type Moved,
  MovedFace,
  readPlan,
  STAYED,
  Stopped,
} from "../reading/index.ts";
import { askedOf, judge } from "./hold-asked.ts";
import { largestCircle } from "./hold-circle.ts";
import { obstaclesOf } from "./hold-obstacles.ts";
import { isSameLimit, type Judged, type Reach, reachOf, type Way } from "./hold-search.ts";
import type { HoldAngles, HoldZone } from "./types.ts";

/** On the floor, metres. A centimetre is what tape is laid to; farther than a metre nobody drifts (common practice, no
 * source). */
const ON_FLOOR: Way = { step: 0.12, finest: 0.0075, most: 1 };
/** Degrees: as the margins of a reading are looked for. */
const TURNED: Way = { step: 4, finest: 0.5, most: 60 };
const TIPPED: Way = { step: 4, finest: 0.5, most: 40 };

/** Directions round the mark to begin with, and at most. */
const DIRECTIONS = 24;
const MOST_DIRECTIONS = 48;
/** Between neighbours that end in different ways, or so far apart, one more is looked along: metres. */
const LEAP_M = 0.12;

const SIDES = ["ahead", "own left", "behind", "own right"] as const;

interface Ray extends Reach {
  /** of the whole round: 0 ahead, a quarter own left */
  readonly round: number;
}

/** The part of the floor that is joined to the mark by straight lines: a patch behind one where the light is not as asked
 * is left out. Lights, camera and all others stay; a head that follows the camera goes on following it.
 * Shape     person: of the plan
 * Errors    Stopped where `keepGoing` returns false; RangeError where there is no such person
 * Accuracy  docs/spec/hold.md */
export function holdZone(plan: Plan, person: number, memory: Memory, keepGoing: KeepGoing): HoldZone {
  const who = plan.people[person];
  if (who === undefined) throw new RangeError(`person ${person} is not in the plan`);
  const reading = readPlan(plan, "coarse", memory, (done) => keepGoing(done / 4));
  const face = new MovedFace(plan, person, memory);
  const asked = askedOf(plan, reading, person);
  const atMark = face.read(STAYED);
  const judged = judge(asked, atMark, reading.camera.headroomStops);
  const here = judged(face.at(STAYED));
  const inTheWay = obstaclesOf(plan, person);
  let looked = 0;
  const look = (way: Way, at: (amount: number) => Judged): Reach => {
    const done = 1 / 4 + (3 / 4) * (looked++ / (MOST_DIRECTIONS + 4));
    if (!keepGoing(done)) throw new Stopped();
    return reachOf(at, here, way);
  };
  const along = (round: number): Ray => {
    const at = (m: number): Judged => {
      const moved = onFloor(round, m);
      const limit = inTheWay(...face.placeOf(moved));
      return limit === null ? judged(face.at(moved)) : { limit, excess: {} };
    };
    return { round, ...look(ON_FLOOR, at) };
  };
  const rays = refined(
    Array.from({ length: DIRECTIONS }, (_, k) => along(k / DIRECTIONS)),
    along,
  );
  const outline = rays.map(({ round, amount, limit }) => {
    const [x, y] = face.placeOf(onFloor(round, amount));
    return { x, y, limit };
  });
  const angles = (of: "turn" | "tip", way: Way): HoldAngles => {
    const most = look(way, (by) => judged(face.at({ ...STAYED, [of]: by })));
    const least = look(way, (by) => judged(face.at({ ...STAYED, [of]: -by })));
    return {
      least: 0 - toHalf(least.amount),
      leastLimit: least.limit,
      most: toHalf(most.amount),
      mostLimit: most.limit,
    };
  };
  return {
    person,
    mark: [who.position[0], who.position[1]],
    asked,
    outline,
    circle: largestCircle(outline, { x: who.position[0], y: who.position[1] }),
    sides: SIDES.map((side, k) => {
      const ray = rays.find(({ round }) => round === k / SIDES.length) as Ray;
      return { side, centimetres: Math.floor(100 * ray.amount), limit: ray.limit };
    }),
    turn: angles("turn", TURNED),
    tip: angles("tip", TIPPED),
  };
}

/** Down to half a degree: no finer than it was looked for. */
function toHalf(degrees: number): number {
  return Math.floor(2 * degrees) / 2;
}

/** So many metres from the mark in a direction. */
function onFloor(round: number, metres: number): Moved {
  const angle = 2 * Math.PI * round;
  return { ...STAYED, ahead: metres * Math.cos(angle), aside: metres * Math.sin(angle) };
}

/** More directions where neighbours do not agree on what ends them. */
function refined(first: readonly Ray[], along: (round: number) => Ray): Ray[] {
  let rays = [...first];
  for (
    let width = 1 / DIRECTIONS;
    rays.length < MOST_DIRECTIONS && width > 1 / (4 * DIRECTIONS);
    width /= 2
  ) {
    const next: Ray[] = [];
    rays.forEach((ray, k) => {
      const after = rays[(k + 1) % rays.length];
      const apart = (after.round - ray.round + 1) % 1;
      next.push(ray);
      const differ = !isSameLimit(ray.limit, after.limit) || Math.abs(after.amount - ray.amount) > LEAP_M;
      if (differ && apart > 0.9 * width && next.length + rays.length - k <= MOST_DIRECTIONS)
        next.push(along((ray.round + apart / 2) % 1));
    });
    rays = next;
  }
  return rays;
}
