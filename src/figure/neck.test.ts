import { describe, expect, it } from "vitest";
import { bendNeck, buildHead, headRotation } from "./index.ts";

const head = buildHead();
const height = (p: ArrayLike<number>, v: number) => 0.272 * p[v] + 0.962 * p[v + 2] + 0.1271;
const turned = (m: Float64Array, p: ArrayLike<number>, v: number) =>
  [0, 1, 2].map((k) => m[3 * k] * p[v] + m[3 * k + 1] * p[v + 1] + m[3 * k + 2] * p[v + 2]);

describe("[FG9] the neck bends between head and shoulders", () => {
  it("[FG9] at rest the head is itself", () => expect(bendNeck(head, headRotation(0, 0, 0))).toBe(head));

  it.each([
    [50, 0, 0],
    [0, 20, 0],
    [0, -20, 0],
    [20, 5, 15],
  ])("[FG9] turn %d, tip %d, tilt %d: the foot stays in the collar, the face stays whole", (...pose) => {
    const rotation = headRotation(...pose);
    const bent = bendNeck(head, rotation);
    const before = head.mesh.positions;
    const after = bent.mesh.positions;
    let feet = 0;
    for (let v = 0; v < before.length; v += 3) {
      const moved = Math.hypot(...[0, 1, 2].map((k) => after[v + k] - before[v + k]));
      if (head.front[v / 3] || height(before, v) > 0.06) expect(moved).toBe(0);
      if (height(before, v) > 0) continue;
      feet++;
      // in body axes, the foot is where it was
      turned(rotation, after, v).forEach((x, k) => {
        expect(x).toBeCloseTo(before[v + k], 12);
      });
    }
    expect(feet).toBeGreaterThan(100);
    expect(bent.regions).toBe(head.regions);
    expect(bent.landmarks).toBe(head.landmarks);
  });

  it("[FG9] half-way up, the neck turns by half: worked by hand for a quarter turn", () => {
    // at half the bending height the smooth step is 1/2: 45 of 90 degrees, about the upright axis through the ears
    const rotation = headRotation(90, 0, 0);
    const { positions: after } = bendNeck(head, rotation).mesh;
    const before = head.mesh.positions;
    let tried = 0;
    for (let v = 0; v < before.length; v += 3) {
      if (Math.abs(height(before, v) - 0.03) > 2e-4) continue;
      tried++;
      const body = turned(rotation, after, v);
      const angle = Math.atan2(body[1], body[0]) - Math.atan2(before[v + 1], before[v]);
      const degrees = ((((angle * 180) / Math.PI) % 360) + 360) % 360;
      // 0.2 mm of 30 mm half-way is 0.9 degrees by the step's slope
      expect(Math.abs(degrees - 45)).toBeLessThan(1);
      expect(Math.hypot(body[0], body[1])).toBeCloseTo(Math.hypot(before[v], before[v + 1]), 12);
      expect(body[2]).toBeCloseTo(before[v + 2], 12);
    }
    expect(tried).toBeGreaterThan(3);
  });

  it("[FG9] the same pose is the same mesh; a head on backwards is left whole", () => {
    expect(bendNeck(head, headRotation(10, 0, 0))).toBe(bendNeck(head, headRotation(10, 0, 0)));
    expect(bendNeck(head, headRotation(170, 0, 0))).toBe(head);
  });
});
