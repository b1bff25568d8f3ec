import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import { CROPS } from "../reading/index.ts";
import { sortCrops } from "./frame-crops.ts";
import { depthWords, limitsWords } from "./frame-depth.ts";

function plan(camera: object = {}, change: object = {}): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    people: [{ name: "cellist", position: [0, 0] }],
    camera: { position: [0, -2.5, 1.6], direction: { bearing: 0, tilt: 0 }, focalLength: 100, ...camera },
    ...change,
  });
  if (!checked.ok) throw new Error(checked.problems[0]?.what);
  return checked.plan;
}

describe("what is sharp, in words", () => {
  it("[AP45] a unit that both have stands once; feet and endless depth have words of their own", () => {
    const limits = { near_m: 2.21, far_m: 2.384, focus_m: 2.3, circle_mm: 0.03 };
    expect(limitsWords(limits, "metric")).toBe("2.21 to 2.38 m");
    expect(limitsWords(limits, "feet")).toBe("7′ 3″ to 7′ 9¾″");
    expect(limitsWords({ ...limits, far_m: Infinity }, "metric")).toBe("from 2.21 m on");
  });

  it("[AP45] millimetres wide open, centimetres in a bust, all behind with a short lens; nobody, nothing", () => {
    const strong = (camera: object) => depthWords(plan(camera), 0, "metric")?.strong;
    expect(strong({ focalLength: 200, fNumber: 1.4, position: [0, -1.4, 1.6] })).toMatch(/^\d and \d mm$/);
    expect(strong({})).toMatch(/^\d+ and \d+ cm$/);
    expect(strong({ focalLength: 14, fNumber: 16 })).toMatch(/ and all$/);
    expect(depthWords(plan(), 0, "metric")?.rest).toBe("sharp before and behind the eyes");
    const two = [
      { name: "cello", position: [0, 0] },
      { name: "viola", position: [0.6, 0.3] },
    ];
    expect(depthWords(plan({}, { people: two }), 1, "metric")?.rest).toMatch(/the viola's eyes$/);
    expect(depthWords(plan({}, { people: [] }), 0, "metric")).toBe(null);
  });
});

describe("crops over the picture", () => {
  it("[AP43] every crop is either within the picture, the largest first, or named as beyond it", () => {
    const near = sortCrops(plan(), 0);
    expect(near.within.map(({ crop }) => crop)).toEqual(["head and shoulders", "head"]);
    expect(near.beyond).toEqual(["half", "three-quarter", "full"]);
    const wide = sortCrops(plan({ focalLength: 24, direction: { bearing: 0, tilt: -12 } }), 0);
    expect(wide.within.map(({ crop }) => crop)).toEqual([...CROPS].reverse());
    expect(sortCrops(plan({}, { people: [] }), 0)).toEqual({ within: [], beyond: [] });
  });
});
