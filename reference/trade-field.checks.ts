/** Facts that people who light portraits go by, about the source itself and its size: where it gives most, where its light
 * comes from, how wide the edge of the nose's shadow is. */
import { Memory, readPlan } from "../src/reading/index.ts";
import type { Check } from "./checks.ts";
import { type Held, once, type Point, planOf, readHeld } from "./plans.ts";

const SOURCE = "common practice, no published source";
const DEGREE = Math.PI / 180;

const HANGS = 5;
const RIM = 0.75;
const front = {
  position: [0, 0, HANGS],
  direction: { bearing: 0, tilt: -90 },
  face: { shape: "polygon", sides: 8, width: 2 * RIM },
  output: { lumenSeconds: 1000 },
};
const DEPTHS = [0.05, 0.25, 0.5, 1, 2, 4] as const;
const ASIDE = [0, 0.2, 0.4, 0.6, 0.8, 1, 1.5, 2, 3, 6] as const;
/** Toward the middle of a side, toward a corner, and between. */
const ROUND = [0, 22.5, 100] as const;

interface Place {
  readonly depth: number;
  readonly aside: number;
  readonly round: number;
  readonly position: Point;
}
const grid = once(() => {
  const places: Place[] = ROUND.flatMap((round) =>
    DEPTHS.flatMap((depth) =>
      ASIDE.map((aside): Place => {
        const a = round * DEGREE;
        const position: Point = [aside * Math.sin(a), aside * Math.cos(a), HANGS - depth];
        return { depth, aside, round, position };
      }),
    ),
  );
  const held = places.map(({ position }): Held => ({ position, direction: { bearing: 0, tilt: 90 } }));
  const readings = readHeld({ lights: [front] }, held);
  return places.map((place, i) => ({ ...place, reading: readings[i] }));
});

/** Where the light vector meets the plane of the front, in apothems of the octagon: 1 on its outline. */
function meetsAt({ position, reading }: ReturnType<typeof grid>[number]): number {
  const { bearing, tilt } = reading.vector;
  if (bearing === null || tilt === null || !(tilt > 0)) return Number.POSITIVE_INFINITY;
  const run = (HANGS - position[2]) / Math.tan(tilt * DEGREE);
  const x = position[0] + run * Math.sin(bearing * DEGREE);
  const y = position[1] + run * Math.cos(bearing * DEGREE);
  const sides = Array.from({ length: 8 }, (_, k) => (k * Math.PI) / 4);
  return Math.max(...sides.map((a) => (x * Math.sin(a) + y * Math.cos(a)) / RIM));
}

/** The manual's starting place: 4 ft from the sitter, 2 ft above the eyes, 45 degrees round from the lens. */
const EYES: Point = [3.5, 4.4, 1.55];
const KEY: Point = [EYES[0] + 1.05 * Math.SQRT1_2, EYES[1] - 1.05 * Math.SQRT1_2, EYES[2] + 0.61];
function edge(width: number): number {
  const plan = planOf({
    lights: [
      {
        position: KEY,
        direction: { at: EYES },
        face: { shape: "disc", width },
        output: { lumenSeconds: 1000 },
      },
    ],
    people: [{ position: [3.5, 4.5], eyeHeight: EYES[2] }],
    camera: { position: [3.5, 1.6, 1.55], direction: { at: EYES } },
  });
  return readPlan(plan, "fine", new Memory()).people[0].face.shadowEdgeMillimetres ?? Number.NaN;
}
const edges = new Map([0.3, 0.6, 1.2].map((width) => [width, once(() => edge(width))]));
const edgeOf = (width: number) => edges.get(width)?.() ?? Number.NaN;

/** Close to a front its light hardly changes: direct light is right to 0.5 %, so that much of a rise is none. */
const READ_AGAIN = 1.005;

const none = (id: string, what: string, ours: () => number): Check => ({
  id: `trade ${id}`,
  what,
  source: SOURCE,
  published: 0,
  ours,
  tolerance: 0,
  why: "no place may be otherwise",
});

export const checks: Check[] = [
  none(
    "falls aside",
    "places before a front of 1.5 m where a step aside from its axis does not take light away",
    () => {
      const found = grid();
      return found.filter((here, i) => {
        const next = found[i + 1];
        const goesOn = next?.depth === here.depth && next.round === here.round;
        return goesOn && !(next.reading.vector.luxSeconds < READ_AGAIN * here.reading.vector.luxSeconds);
      }).length;
    },
  ),
  none("falls away", "places on the axis where a step away from the front does not take light away", () => {
    const axis = grid().filter(({ aside, round }) => aside === 0 && round === 0);
    return axis.filter(
      ({ reading }, i) => i > 0 && !(reading.vector.luxSeconds < axis[i - 1].reading.vector.luxSeconds),
    ).length;
  }),
  none(
    "points back",
    "places before the front from where the light vector misses its outline",
    () => grid().filter((place) => !(meetsAt(place) < 1)).length,
  ),
  ...(
    [
      [0.3, 0.6],
      [0.6, 1.2],
    ] as const
  ).map(
    ([small, large]): Check => ({
      id: `trade edge ${large}`,
      what: `shadow's edge on the cheek under a source of ${large} m over that under ${small} m`,
      source: SOURCE,
      published: 2,
      ours: () => edgeOf(large) / edgeOf(small),
      tolerance: 0.99,
      absolute: true,
      why: "wider, and not more than three times as wide for a source of twice the size",
    }),
  ),
];
