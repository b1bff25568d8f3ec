import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import type { TryReading } from "./try-reading.ts";
import { tryWarnings } from "./warnings.ts";

const NOTHING_READ = { headroomStops: null, litCheeks: [] } as Partial<TryReading> as TryReading;

function planOf(light: object): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    room: { width: 4, depth: 5, height: 2.4 },
    camera: { position: [2, 1, 1.5], direction: { bearing: 0, tilt: 0 }, focalLength: 85 },
    lights: [{ name: "key", output: { lumenSeconds: 1000 }, ...light }],
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
      ["key may touch the ceiling", "top of its front 2.40 m, tilt counted, ceiling 2.40 m"],
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
