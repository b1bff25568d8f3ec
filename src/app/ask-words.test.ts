import { describe, expect, it } from "vitest";
import type { TriedStep, TriedSteps } from "../finder/index.ts";
import { type Plan, parsePlan } from "../plan/index.ts";
import type { TryReading } from "../reading/index.ts";
import { askWords, parseStops, stepCells, stopsRefusal } from "./ask-words.ts";

const parsed = parsePlan('{"format":"tapemark/plan","version":1}');
if (!parsed.ok) throw new Error("an empty plan does not parse");
const PLAN: Plan = parsed.plan;

const BEFORE: TryReading = {
  pattern: "loop",
  between: null,
  litSide: "left",
  litCheek: 100,
  shadowCheek: 40,
  ratioStops: 1.3,
  side: "square",
  light: { azimuth: 30, elevation: 30 },
  shadowEdgeMillimetres: null,
  catchlights: [{ eye: "left", light: "key", clock: 1 }],
  backgroundStops: -2,
  headroomStops: 1,
  litCheeks: [100],
};

describe("wishes and steps in words", () => {
  it("[MV35] a wish reads as a sentence", () => {
    expect(askWords({ ask: "pattern", pattern: "rembrandt" })).toBe("the pattern becomes Rembrandt");
    expect(askWords({ ask: "background", byStops: -1 })).toBe("the background changes by −1.0 stop");
    expect(askWords({ ask: "headroom", toStops: 0.3 })).toBe("skin under clipping by 0.3 stop");
    expect(askWords({ ask: "glasses" })).toBe("the glasses are clear");
  });

  it("[MV35] stops are typed with a sign or without, and none is no wish", () => {
    const read = (text: string) => {
      const stops = parseStops(text);
      return stops.ok ? stops.value : stops.why;
    };
    expect(["−0.5 stop", "-0,5", "+1", "2 stops"].map(read)).toEqual([-0.5, -0.5, 1, 2]);
    expect(read("darker")).toMatch(/is no number/);
    expect(stopsRefusal("ratio", 0)).toMatch(/no change/);
    expect(stopsRefusal("headroom", 0)).toBeNull();
    expect(stopsRefusal("exposure", 7)).toMatch(/another set-up/);
  });

  it("[MV38] a step's numbers are what changes, in tenths; the lens counts where the light stays", () => {
    const step = (
      after: Partial<TryReading>,
      path = ["lights", 0, "on"],
      value: unknown = true,
    ): TriedStep => ({
      of: "key",
      ease: "power",
      does: "",
      edit: { kind: "set", label: "", fields: [{ path, value }] },
      why: null,
      after: { ...BEFORE, ...after },
      warns: [],
    });
    const cells = (one: TriedStep, before = BEFORE) =>
      stepCells(PLAN, { before, steps: [] } satisfies TriedSteps, one);
    expect(cells(step({}))).toEqual({
      pattern: "loop",
      isOther: false,
      exposure: "0.0",
      ratio: "0.0",
      background: "0.0",
      headroom: "0.0",
      others: [],
    });
    const other = step({
      pattern: "rembrandt",
      litCheek: 50,
      ratioStops: null,
      backgroundStops: -1.74,
      catchlights: [{ eye: "left", light: "key", clock: 2 }],
      side: "short",
    });
    expect(cells(other)).toEqual({
      pattern: "Rembrandt",
      isOther: true,
      exposure: "−1.0",
      ratio: "none",
      background: "+0.3",
      headroom: "0.0",
      others: ["square to short", "catchlight 1:00 to 2:00"],
    });
    const lens = step({}, ["camera", "fNumber"], PLAN.camera.fNumber / Math.SQRT2);
    expect(cells(lens)?.exposure).toBe("+1.0");
    expect(cells(step({ backgroundStops: null }), { ...BEFORE, backgroundStops: null })?.background).toBe(
      "–",
    );
    expect(cells({ ...step({}), edit: null, after: null, why: "key is pinned" })).toBeNull();
  });
});
