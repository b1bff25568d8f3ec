import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { checkPlan, frontCorners, type Plan, type Room } from "../plan/index.ts";
import { measurePlaces } from "../sheet/index.ts";
import { fitInto } from "./replan-fit.ts";
import { ReplanError } from "./replan-types.ts";

function example(name: string): Plan {
  const checked = checkPlan(JSON.parse(readFileSync(`examples/${name}.json`, "utf8")));
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}
const PLANS = ["cellist", "manual-rembrandt", "group"].map((name) => [name, example(name)] as const);
const SIZES = [2.4, 3.1, 4, 8].flatMap((width) =>
  [2.9, 4.4, 6].flatMap((depth) => [2.2, 2.7, 4].map((height) => ({ width, depth, height }))),
);

describe("[SO11] what is carried over stands in the room, with its air, where light came from before", () => {
  it.each(PLANS)("%s, in rooms of every size", (_, plan) => {
    let fitted = 0;
    for (const size of SIZES) {
      const room: Room = { ...(plan.room as Room), ...size };
      const made = tried(plan, room);
      if (made === null) continue;
      fitted++;
      const before = measurePlaces(plan);
      const after = measurePlaces(made.plan);
      for (const [i, light] of made.plan.lights.entries()) {
        for (const [x, y, z] of [light.position, ...frontCorners(light)]) {
          expect(Math.min(x, room.width - x, y, room.depth - y), light.name).toBeGreaterThan(0);
          expect(z, light.name).toBeLessThan(room.height);
        }
        const was = before.lights.find(({ name }) => name === light.name)?.nose;
        const is = after.lights[i]?.nose;
        if (made.left.length > 0 || plan.people.length > 1 || was == null || is == null) continue;
        // drawn nearer along its own line, in whole centimetres
        expect(is.distance_m).toBeLessThanOrEqual(was.distance_m + 0.01);
        expect(Math.abs(is.side_deg - was.side_deg), `${light.name} ${JSON.stringify(size)}`).toBeLessThan(
          1.5,
        );
        expect(Math.abs(is.elevation_deg - was.elevation_deg)).toBeLessThan(1.5);
      }
    }
    expect(fitted).toBeGreaterThan(10);
  });

  it("with room enough nothing comes nearer, and readings of the other room stay behind", () => {
    const plan = example("cellist-measured");
    const {
      drawn,
      left,
      plan: moved,
    } = fitInto(plan, { ...(plan.room as Room), width: 9, depth: 11, height: 3.4 }, 0);
    expect([drawn, left]).toEqual([[], []]);
    expect(plan.readings.length).toBeGreaterThan(0);
    expect(moved.readings).toEqual([]);
    expect(moved.people[0]?.position).toEqual([4.5, 5.6]);
  });

  it("open space has no walls to fit between", () => {
    const plan = example("cellist");
    expect(fitInto(plan, null, 0).plan).toEqual({ ...plan, room: null });
  });
});

function tried(plan: Plan, room: Room) {
  try {
    return fitInto(plan, room, 0);
  } catch (error) {
    expect(error).toBeInstanceOf(ReplanError);
    return null;
  }
}
