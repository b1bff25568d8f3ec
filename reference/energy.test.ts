/** Conservation of energy: what leaves a lamp is what surfaces take in. A closed form: 1 = 1. */
import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../src/plan/index.ts";
import { balanceOf } from "./energy.ts";

/** Asked: 0.5 %. */
const TOLERANCE = 0.005;

function grey(r: number) {
  return { floor: r, ceiling: r, near: r, far: r, left: r, right: r };
}

function planOf(parts: object): Plan {
  const checked = checkPlan({ format: "tapemark/plan", version: 1, people: [], ...parts });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

const octagon = (position: number[], at: number[]) => ({
  name: "octagon",
  position,
  direction: { at },
  face: { shape: "polygon", sides: 8, width: 1.5 },
  output: { lumenSeconds: 1 },
});

const rooms: [string, Plan][] = [
  [
    "a white cube, a bare point",
    planOf({
      room: { width: 4, depth: 4, height: 4, reflectance: grey(0.9) },
      lights: [
        {
          name: "point",
          position: [2, 2, 2],
          direction: { bearing: 0, tilt: 90 },
          face: { shape: "point" },
          beam: { exponent: 0 },
          output: { lumenSeconds: 1 },
        },
      ],
    }),
  ],
  [
    "a studio with a V-flat and a scrim",
    planOf({
      room: { width: 7, depth: 9, height: 3.4 },
      lights: [octagon([4.5, 3.6, 2.4], [3.5, 4.6, 1.5])],
      panels: [
        {
          name: "V-flat",
          position: [2.2, 4.7, 1.2],
          direction: { bearing: 100, tilt: 0 },
          width: 1.2,
          height: 2.4,
          reflectance: 0.85,
        },
        {
          name: "scrim",
          position: [3.9, 4.2, 1.9],
          direction: { at: [4.5, 3.6, 2.4] },
          width: 1.2,
          height: 1.2,
          reflectance: 0.3,
          transmittance: 0.6,
        },
      ],
    }),
  ],
  [
    "a studio with a person before paper",
    planOf({
      room: { width: 6, depth: 7, height: 3, reflectance: grey(0.7) },
      lights: [octagon([4, 2.5, 2.2], [3, 3.6, 1.5])],
      backdrop: {
        kind: "paper",
        position: [3, 6.2],
        top: 2.6,
        width: 2.7,
        sweepRadius: 0.4,
        floorLength: 1.2,
        reflectance: 0.5,
      },
      people: [{ name: "sitter", position: [3, 3.8], stature: 1.7, facing: 180 }],
    }),
  ],
];

describe("[RF3] light in is light absorbed", () => {
  it.each(rooms)("%s", (_, plan) => {
    const { direct, absorbed, lost } = balanceOf(plan, 0);
    expect(Math.abs(direct - 1), `direct ${direct}`).toBeLessThan(TOLERANCE);
    expect(Math.abs(absorbed + lost - 1), `absorbed ${absorbed}, lost ${lost}`).toBeLessThan(TOLERANCE);
  });
});
