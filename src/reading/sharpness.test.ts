import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import { stagePerson } from "../staging/index.ts";
import { project, viewfinder } from "./camera-rays.ts";
import { toWorld } from "./head-axes.ts";
import { eyesPart, sharpness } from "./sharpness.ts";

function plan(camera: object = {}, head: object = {}): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    people: [{ name: "cellist", position: [0, 0], head }],
    camera: { position: [0, -2.5, 1.6], direction: { bearing: 0, tilt: 0 }, focalLength: 100, ...camera },
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

function eyes(of: Plan): number[][] {
  const staged = stagePerson(of.people[0], of);
  const { leftEye, rightEye } = staged.shape.head;
  return [leftEye, rightEye].map((eye) => toWorld(staged, eye.corneaCentre));
}

describe("what is sharp", () => {
  it("[RD18] the focus lies in the nearer eye, and the limits are the thin lens's at that distance", () => {
    const turned = plan({}, { turn: 30 });
    const found = sharpness(turned, 0);
    if (found === null) throw new Error("nothing is sharp");
    // the camera looks straight into the set: depth is y; turned to the own left, the right eye is the nearer one
    const [left, right] = eyes(turned).map((eye) => eye[1] + 2.5);
    expect(right).toBeLessThan(left);
    expect(found.focus_m).toBeCloseTo(right, 12);
    const s = found.focus_m * 1000;
    const c = Math.hypot(36, 24) / 1500;
    // at both limits rays through the rim of the pupil are apart by the circle, scaled up to the plane of focus
    for (const limit of [found.near_m, found.far_m].map((m) => m * 1000)) {
      const spread = ((100 / 8) * Math.abs(limit - s)) / limit;
      expect((spread * 100) / (s - 100)).toBeCloseTo(c, 9);
    }
  });

  it("[RD18] a stop down is 1.41 times as deep, near enough at portrait distances", () => {
    const deep = (fNumber: number) => {
      const found = sharpness(plan({ fNumber }), 0);
      return found === null ? Number.NaN : found.far_m - found.near_m;
    };
    expect(deep(8 * Math.SQRT2) / deep(8)).toBeCloseTo(Math.SQRT2, 2);
  });

  it("[RD18] from the hyperfocal distance on the far limit is infinite; what is behind the camera is not sharp", () => {
    expect(sharpness(plan({ focalLength: 14, fNumber: 16 }), 0)?.far_m).toBe(Number.POSITIVE_INFINITY);
    expect(sharpness(plan({ direction: { bearing: 180, tilt: 0 } }), 0)).toBe(null);
    expect(sharpness(plan(), 3)).toBe(null);
  });

  it("[RD18] the part round the eyes holds both with room for the lids, and stays within the picture", () => {
    for (const of of [
      plan(),
      plan({}, { turn: 40 }),
      plan({ roll: 12 }),
      plan({ direction: { bearing: 3, tilt: 4 } }),
    ]) {
      const part = eyesPart(of, 0);
      if (part === null) throw new Error("not seen");
      expect(Math.min(part.left, part.top)).toBeGreaterThanOrEqual(0);
      expect(Math.max(part.right, part.bottom)).toBeLessThanOrEqual(1);
      expect(part.right - part.left).toBeCloseTo(part.bottom - part.top, 12);
      const view = viewfinder(of.camera, 1000, part);
      for (const eye of eyes(of)) {
        const [x, y] = project(view, eye) ?? [Number.NaN, Number.NaN];
        expect(x).toBeGreaterThan(100);
        expect(x).toBeLessThan(900);
        expect(y).toBeGreaterThan(0.2 * view.height);
        expect(y).toBeLessThan(0.8 * view.height);
      }
    }
    expect(eyesPart(plan({ direction: { bearing: 40, tilt: 0 } }), 0)).toBe(null);
  });
});
