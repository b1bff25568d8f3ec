import { describe, expect, it } from "vitest";
import cellist from "../../examples/cellist.json" with { type: "json" };
import type { PhotoReading } from "../testframe/index.ts";
import { factsOfFrame, factsOfPlan, patternCalled } from "./facts.ts";

describe("[LB27] what a shoot is searched by", () => {
  it("of a plan: what a person might remember of it", () => {
    const facts = factsOfPlan({
      ...cellist,
      brief: {
        want: { pattern: "loop" },
        gear: { lights: [{ name: "500 Ws", fronts: [{ name: "octa 120" }] }] },
      },
      readings: [{}, {}],
    });
    expect(facts).toMatchObject({
      ...{ title: "Cellist, season poster", lights: ["key"], room: "7.00 × 9.00 m", pattern: "Loop" },
      ...{ readings: 2, isCalibrated: false },
    });
    for (const word of ["V-flat, black", "cellist", "octagon, 1.50 m", "octa 120", "500 Ws", "chin", "Loop"])
      expect(facts.words.split("\n")).toContain(word);
    const measured = { ...cellist.lights[0], calibration: { stops: 0.1 } };
    expect(factsOfPlan({ ...cellist, lights: [measured] }).isCalibrated).toBe(true);
    expect(factsOfPlan({ ...cellist, room: { ...cellist.room, calibration: {} } }).isCalibrated).toBe(true);
  });
  it.each([
    null,
    7,
    "plan",
    [],
    { lights: 7, room: "large", brief: [], people: [null, { name: 7 }] },
    { lights: [{ face: {} }] },
  ])("what is no plan has nothing to say: %j", (plan) => {
    expect(factsOfPlan(plan)).toEqual({
      ...{ title: "Untitled", words: "", lights: [], room: null, pattern: null },
      ...{ readings: 0, isCalibrated: false },
    });
  });
  it("of a frame: its largest face", () => {
    const face = (width: number, pattern: string | null) => ({
      box: { left: 0, top: 0, width, height: 10 },
      ...{ pattern, ratioStops: width, clippedSkin: 0 },
    });
    const reading = (...faces: object[]) => ({ faces }) as unknown as PhotoReading;
    expect(factsOfFrame(reading(face(5, "loop"), face(9, "rembrandt"), face(7, null)))).toEqual({
      ...{ pattern: "Rembrandt", ratioStops: 9, clippedSkin: 0 },
    });
    expect(factsOfFrame(reading())).toEqual({ pattern: null, ratioStops: null, clippedSkin: null });
    expect(["rembrandt", "Rembrandt", "constructor", null].map(patternCalled)).toEqual([
      "Rembrandt",
      "Rembrandt",
      null,
      null,
    ]);
  });
});
