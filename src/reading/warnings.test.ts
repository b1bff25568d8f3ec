import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import { cautionsFor } from "../safety/index.ts";
import { stagePerson } from "../staging/index.ts";
import type { TryReading } from "./try-reading.ts";
import { tryWarnings } from "./warnings.ts";

const NOTHING_READ = { headroomStops: null, litCheeks: [] } as Partial<TryReading> as TryReading;

function planOf(light: object, more: object = {}): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    room: { width: 4, depth: 5, height: 2.4 },
    camera: { position: [2, 1, 1.5], direction: { bearing: 0, tilt: 0 }, focalLength: 85 },
    lights: [{ name: "key", output: { lumenSeconds: 1000 }, ...light }],
    ...more,
  });
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}

const said = (light: object) =>
  tryWarnings(planOf(light), NOTHING_READ).map(({ margin, state }) => [state, margin]);

describe("[SF18] the ceiling", () => {
  const strip = { shape: "rectangle", width: 0.3, height: 1.2 };
  const level = { bearing: 0, tilt: 0 };
  it("a strip on end by its height: 1.80 + 0.60 under 2.40", () => {
    expect(said({ position: [2, 3, 1.8], direction: level, face: strip })).toEqual([
      ["key may touch the ceiling", "0.00 m of air, less than the 0.05 m that is kept"],
    ]);
    expect(said({ position: [2, 3, 1.8], direction: level, face: strip, roll: 90 })).toEqual([]);
  });
  it("straight down a wide front is no higher than its middle", () => {
    const wide = { shape: "disc", width: 1.5 };
    expect(said({ position: [2, 3, 2.3], direction: { bearing: 0, tilt: -90 }, face: wide })).toEqual([]);
    expect(said({ position: [2, 3, 2.3], direction: level, face: wide })).toHaveLength(1);
  });
  it("5 cm are kept, to the millimetre", () => {
    const at = (z: number) => said({ position: [2, 3, z], direction: level, face: { shape: "point" } });
    expect([at(2.35), at(2.351)].map(({ length }) => length)).toEqual([0, 1]);
  });
});

describe("[SF9] [SF19] what is over somebody is told by one rule", () => {
  const people = [
    { name: "cellist", position: [2, 3] },
    { name: "page turner", position: [3.2, 3], pose: "seated" },
  ];
  const down = { bearing: 0, tilt: -90 };
  const panels = [{ name: "scrim", position: [3.2, 3.5, 1.6], direction: down, width: 1, height: 1 }];
  it.each([1.5, 1.75, 2.2])("readings and cautions name the same pairs, a front %f m up", (z) => {
    for (const x of [0.85, 0.95, 2, 3.05, 3.15]) {
      const face = { shape: "rectangle", width: 1, height: 1 };
      const plan = planOf({ position: [x, 3, z], direction: down, face }, { people, panels });
      const staged = plan.people.map((person) => ({ staged: stagePerson(person, plan) }));
      const cautions = cautionsFor(plan, staged, "metric").filter(({ kind }) => kind === "overhead");
      const warned = tryWarnings(plan, NOTHING_READ).filter(({ state }) => / over /.test(state));
      const pairs = cautions.flatMap(({ path, people: under }) => under.map((name) => [path, name]));
      expect(warned.map(({ path, state }) => [path, state.replace(/^.* over /, "")])).toEqual(pairs);
      expect(warned.every(({ about }) => about === "place")).toBe(true);
      // the scrim is over the one who sits, whatever the light does
      expect(pairs).toContainEqual(["panels[0]", "page turner"]);
      // 1.1 m from the mark to the front's middle, 0.5 m of it front: 0.6 m are told, 0.7 are not
      expect(pairs.some(([path, name]) => path === "lights[0]" && name === "cellist")).toBe(
        z > 1.7 && Math.abs(x - 2) < 1.11,
      );
    }
  });
});
