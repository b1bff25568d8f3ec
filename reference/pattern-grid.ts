/** The pattern that one light draws on the mean head from any side: what the charts in docs/ are printed from. Open space,
 * the head straight, the light 1.5 m from the bridge of the nose and aimed at it. */
import { buildPerson } from "../src/figure/index.ts";
import { checkPlan, type Plan } from "../src/plan/index.ts";
import { Memory, type Pattern, patternOf } from "../src/reading/index.ts";

/** Diameters of the fronts, metres. */
export const SOURCES = { hard: 0.1, medium: 0.6, large: 1.5 } as const;
export type Source = keyof typeof SOURCES;

export const AZIMUTHS = steps(-100, 100);
export const ELEVATIONS = steps(-40, 70).reverse();
const DISTANCE = 1.5;
const STATURE = 1.7;

/** As the charts print them. */
export const LETTER: Readonly<Record<Pattern, string>> = {
  flat: "F",
  butterfly: "B",
  loop: "L",
  rembrandt: "R",
  split: "S",
  rim: "I",
  under: "U",
  dark: "D",
};

function steps(from: number, to: number): number[] {
  return Array.from({ length: (to - from) / 10 + 1 }, (_, i) => from + 10 * i);
}

const person = buildPerson({ stature: STATURE, pose: "standing" });
/** The bridge of the nose of somebody on [0, 5] who faces the camera side. */
const BRIDGE = [
  0,
  5 - person.head.landmarks.noseBridge[0],
  person.earHeight + person.head.landmarks.noseBridge[2],
] as const;

export interface Cell {
  readonly pattern: Pattern;
  readonly between: Pattern | null;
}

/** + azimuth to the own left, + elevation up, degrees from the nose. */
export function gridPlan(source: Source, azimuth: number, elevation: number): Plan {
  const az = (azimuth * Math.PI) / 180;
  const el = (elevation * Math.PI) / 180;
  // somebody who faces -y has the own left at +x
  const way = [Math.sin(az) * Math.cos(el), -Math.cos(az) * Math.cos(el), Math.sin(el)];
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    title: `${source} light, ${azimuth}° round, ${elevation}° up`,
    lights: [
      {
        name: "key",
        position: BRIDGE.map((x, k) => x + DISTANCE * way[k]),
        direction: { at: BRIDGE },
        face: { shape: "disc", width: SOURCES[source] },
        output: { meter: { fNumber: 8, distance: DISTANCE } },
      },
    ],
    people: [
      {
        name: "sitter",
        position: [0, 5],
        stature: STATURE,
        facing: 180,
        skin: { reflectance: { tone: "light" } },
      },
    ],
    // head and collar in a frame of 4 to 5, from before the plane of any light, so that none stands in the way
    camera: {
      position: [0, BRIDGE[1] - 1.2, BRIDGE[2] - 0.035],
      direction: { at: [0, 5, BRIDGE[2] - 0.035] },
      sensor: { width: 30, height: 24 },
      focalLength: 85,
    },
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

const memory = new Memory();

/** One light, read with the limit between lit and shadow where it is and moved by so many stops. */
export function cellsAt(
  source: Source,
  azimuth: number,
  elevation: number,
  shifts: readonly number[] = [0],
): Cell[] {
  return patternOf(gridPlan(source, azimuth, elevation), 0, memory, shifts);
}

export function cellAt(source: Source, azimuth: number, elevation: number): Cell {
  return cellsAt(source, azimuth, elevation)[0];
}
