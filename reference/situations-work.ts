/** Searches for situations of the trade. */
import { Clearances, placedAt } from "../src/finder/search-place.ts";
import { stage } from "../src/staging/index.ts";
import { createComputer, findSetUps, type SearchFinder } from "../src/workbench/index.ts";
import { grey, planOf } from "./plans.ts";

const OCTA = { name: "octa 90", face: { shape: "polygon", sides: 8, width: 0.9 } };
const HEAD = { name: "head", full: { wattSeconds: 400 }, dial: { range: 8 }, fronts: [OCTA] };

/** The steepest that a front 0.9 m across may stand 1.2 m from somebody's bridge under a ceiling, degrees. */
export function steepest(bridge_m: number, ceiling_m: number): number {
  const plan = planOf({
    room: { width: 6, depth: 7, height: ceiling_m },
    people: [{ position: [3, 4], eyeHeight: bridge_m, pose: "seated", seatHeight: 0.3 }],
    camera: { position: [3, 1.6, 1.4], direction: { at: [3, 4, 1.4] } },
    lights: [
      {
        name: "key",
        position: [3, 2, 1],
        direction: { at: [3, 4, 1] },
        face: OCTA.face,
        output: { lumenSeconds: 1 },
      },
    ],
    brief: { clear: { people: 0 } },
  });
  const { people } = stage(plan);
  const clear = new Clearances(plan);
  const stand = { lowest: 0, highest: 10, boom: 1 };
  let best = Number.NaN;
  for (let elevation_deg = -10; elevation_deg < 80; elevation_deg += 0.1) {
    const spot = { azimuth_deg: 60, elevation_deg, distance_m: 1.2, past_m: 0 };
    if (clear.obstacle(placedAt(people[0], plan.lights[0], spot), stand) === null) best = elevation_deg;
  }
  return best;
}

const alone = (): SearchFinder => ({ ...createComputer(), hold: async () => null as never });

export const lowCeiling = () =>
  findSetUps(
    planOf({
      room: { width: 5, depth: 6, height: 2.4, reflectance: grey(0.3) },
      people: [{ position: [2.5, 3.4], eyeHeight: 1.6 }],
      camera: { position: [2.5, 1, 1.5], direction: { at: [2.5, 3.4, 1.5] } },
      brief: { want: { pattern: "butterfly" }, gear: { lights: [HEAD] } },
    }),
    [alone()],
  );

export const whiteRoom = () =>
  findSetUps(
    planOf({
      room: { width: 4, depth: 5, height: 2.7, reflectance: { ...grey(0.85), floor: 0.4 } },
      people: [{ position: [2, 3], eyeHeight: 1.6, pinned: true }],
      camera: { position: [2, 0.8, 1.6], direction: { at: [2, 3, 1.6] }, pinned: true },
      brief: {
        // no nearer than an arm's length: close by, a key makes the contrast itself
        clear: { people: 0.7 },
        want: { pattern: "rembrandt", ratioStops: { from: 2.5, to: 3.5 } },
        gear: { lights: [HEAD], panels: [{ name: "black", width: 1.2, height: 2.4, reflectance: 0.04 }] },
      },
    }),
    [alone()],
  );

export const twoRows = () =>
  findSetUps(
    planOf({
      room: { width: 5, depth: 5.4, height: 3, reflectance: grey(0.3) },
      people: [
        { name: "front", position: [2.1, 3.9], pose: "seated" },
        { name: "back", position: [2.9, 4.5] },
      ],
      camera: { position: [2.5, 0.6, 1.4], direction: { at: [2.5, 4.2, 1.4] }, orientation: "landscape" },
      brief: { want: { spreadStops: 0.34 }, gear: { lights: [HEAD] } },
    }),
    [alone()],
  );
