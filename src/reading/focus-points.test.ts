import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import { stage } from "../staging/index.ts";
import { type FocusPlace, focusPoints } from "./focus-points.ts";
import { usedPart } from "./framing.ts";
import { toWorld } from "./head-axes.ts";
import { eyesPart, sharpness } from "./sharpness.ts";

function plan(head: object = {}, change: object = {}): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    people: [{ name: "cellist", position: [0, 0], facing: 180, head }],
    camera: { position: [0, -2.5, 1.6], direction: { at: [0, 0, 1.6] }, focalLength: 100 },
    ...change,
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

/** Of the own left ear, what stands out from the head. */
function earOf(positions: Float64Array): number[][] {
  const out: number[][] = [];
  for (let i = 0; i < positions.length; i += 3) {
    const [x, y, z] = positions.slice(i, i + 3);
    if (y > 0.075 && Math.abs(x) < 0.04 && Math.abs(z) < 0.045) out.push([x, y, z]);
  }
  return out;
}

function found(of: Plan) {
  const points = focusPoints(of, 0);
  if (points === null) throw new Error("nobody to focus on");
  const at = (place: FocusPlace) => {
    const point = points.points.find((each) => each.place === place);
    if (point === undefined) throw new Error(`no ${place}`);
    return point;
  };
  return { ...points, at };
}

describe("[US4] the places that focus is judged at", () => {
  it("the focus is where the depth of field takes it", () => {
    for (const turn of [-40, 0, 25]) {
      const of = plan({ turn });
      expect(found(of).focus_m).toBeCloseTo(sharpness(of, 0)?.focus_m ?? Number.NaN, 12);
    }
  });
  it("straight: nose before eyes, eyes before ears; both ears as far", () => {
    const { at } = found(plan());
    expect(at("nose").depth_m).toBeLessThan(at("nearer eye").depth_m);
    expect(at("farther eye").depth_m).toBeCloseTo(at("nearer eye").depth_m, 3);
    expect(at("farther ear").depth_m).toBeCloseTo(at("nearer ear").depth_m, 3);
    // a mean head: about 9 cm from the eye to the ear opening, 2 to 4 cm from the nose's tip to the eye
    const back = at("nearer ear").depth_m - at("nearer eye").depth_m;
    expect(back).toBeGreaterThan(0.06);
    expect(back).toBeLessThan(0.11);
    const ahead = at("nearer eye").depth_m - at("nose").depth_m;
    expect(ahead).toBeGreaterThan(0.02);
    expect(ahead).toBeLessThan(0.05);
  });
  it("turned: one ear comes nearer, the other goes behind the head", () => {
    const straight = found(plan());
    const turned = found(plan({ turn: 40 }));
    expect(turned.at("nearer ear").depth_m).toBeLessThan(straight.at("nearer ear").depth_m);
    expect(turned.at("nearer ear").isHidden).toBe(false);
    expect(turned.at("farther ear").isHidden).toBe(true);
    expect(turned.at("farther eye").isHidden).toBe(false);
    expect(found(plan({ turn: 85 })).at("farther eye").isHidden).toBe(true);
  });
  it.each([
    ["farther ear", 8, true],
    ["farther ear", 17, false],
    ["farther eye", 52, true],
    ["farther eye", 66, false],
  ] as const)(
    "the %s, %i° turned, is told as seen (%s) as rays from the camera find it",
    (place, turn, isSeen) => {
      const of = plan({ turn });
      expect(found(of).at(place).isHidden).toBe(!isSeen);
      const { people, tracer } = stage(of);
      const [{ shape }] = people;
      const { centre } = shape.head.leftEye;
      const iris = [-3, 0, 3].map((y) => [centre[0] + 0.0118, centre[1] + y / 1000, centre[2]]);
      const points = place === "farther ear" ? earOf(shape.head.mesh.positions) : iris;
      expect(points.length).toBeGreaterThan(2);
      const [x, y, z] = of.camera.position;
      const seen = points.filter((point) => {
        const to = toWorld(people[0], point).map((p, k) => p - of.camera.position[k]);
        const far = Math.hypot(...to);
        const [dx, dy, dz] = to.map((d) => d / far);
        return !tracer.closest(x, y, z, dx, dy, dz, far - 0.0015, false);
      });
      if (isSeen) expect(seen.length / points.length).toBeGreaterThan(0.3);
      else expect(seen).toEqual([]);
    },
  );
  it("they lie in the picture where the eyes' part of it is", () => {
    const of = plan({ turn: 20 });
    const part = eyesPart(of, 0);
    if (part === null) throw new Error("no eyes");
    const [near, far] = [found(of).at("nearer eye"), found(of).at("farther eye")];
    expect((near.at[0] + far.at[0]) / 2).toBeCloseTo((part.left + part.right) / 2, 9);
    expect((near.at[1] + far.at[1]) / 2).toBeCloseTo((part.top + part.bottom) / 2, 9);
  });
  it("nobody, or somebody behind the camera, is nothing to focus on", () => {
    expect(focusPoints(plan({}, { people: [] }), 0)).toBeNull();
    expect(focusPoints(plan({}, { people: [{ name: "cellist", position: [0, -4] }] }), 0)).toBeNull();
  });
});

describe("[US2] how much of the picture is used", () => {
  const print = { width: 6, height: 3 };
  it("as much as fits, or of a closer crop as much of the width as is given", () => {
    const all = usedPart(plan({}, { print }));
    expect([all.left, all.right]).toEqual([0, 1]);
    // 24 x 36 upright: 24 x 12 are used
    expect(all.bottom - all.top).toBeCloseTo(1 / 3, 12);
    const close = usedPart(plan({}, { print: { ...print, cropWidth: 0.5 } }));
    expect(close.right - close.left).toBeCloseTo(0.5, 12);
    expect(close.bottom - close.top).toBeCloseTo(1 / 6, 12);
    expect(close.left).toBeCloseTo(0.25, 12);
  });
  it("no more than there is", () => {
    const tall = { width: 1, height: 3, cropWidth: 1 };
    const part = usedPart(plan({}, { print: tall }));
    expect(part.bottom - part.top).toBeCloseTo(1, 12);
    expect(part.right - part.left).toBeCloseTo(0.5, 12);
  });
});
