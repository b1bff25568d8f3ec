import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type Plan, parsePlan } from "../plan/index.ts";
import { regionRoundHead } from "./index.ts";

function example(name: string): Plan {
  const parsed = parsePlan(readFileSync(`examples/${name}.json`, "utf8"));
  if (!parsed.ok) throw new Error(name);
  return parsed.plan;
}
const middle = (r: { left: number; right: number; top: number; bottom: number }) => [
  (r.left + r.right) / 2,
  (r.top + r.bottom) / 2,
];

describe("the part of the picture that a small frame shows", () => {
  it("[MV12] has the shape asked for and lies round the chosen head, inside the picture", () => {
    const group = example("group");
    const { sensor, focalLength } = group.camera;
    group.people.forEach((person, i) => {
      const region = regionRoundHead(group, i, 1.5);
      const width = (region.right - region.left) * sensor.width;
      expect(width / ((region.bottom - region.top) * sensor.height)).toBeCloseTo(1.5, 9);
      for (const edge of Object.values(region)) expect(edge).toBeGreaterThanOrEqual(0);
      for (const edge of Object.values(region)) expect(edge).toBeLessThanOrEqual(1);
      // level camera at x = 3.95, looking at y: a pinhole puts the head's middle at dx / dy
      const [x, y] = person.position;
      const [across] = middle(region);
      const tangent = (across - 0.5) * (sensor.width / focalLength);
      expect(tangent).toBeCloseTo((x - 3.95) / (y - 1.6), 2);
    });
  });

  it("[MV12] is as much as there is where the head fills the picture, and its middle where nobody is in it", () => {
    const demo = example("cellist");
    const close: Plan = { ...demo, camera: { ...demo.camera, focalLength: 400 } };
    const region = regionRoundHead(close, 0, 1.2);
    expect([region.left, region.right]).toEqual([0, 1]);
    expect(24 / 1.2 / ((region.bottom - region.top) * 36)).toBeCloseTo(1, 9);
    const nobody = regionRoundHead({ ...demo, people: [] }, 0, 1.2);
    expect(middle(nobody)).toEqual([0.5, 0.5]);
    const away: Plan = { ...demo, camera: { ...demo.camera, direction: { bearing: 180, tilt: 0 } } };
    expect(middle(regionRoundHead(away, 0, 1.2))).toEqual([0.5, 0.5]);
  });
});
