import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  formatForce,
  formatMoment,
  formatWeight,
  type LengthUnits,
  parseWeight,
  QuantityError,
} from "./index.ts";

describe("[UN9] weights in kilograms, or in pounds beside feet", () => {
  // a pound is 0.45359237 kg: international yard and pound agreement, 1959
  it.each<[string, LengthUnits, number]>([
    ["1 lb", "metric", 0.45359237],
    ["1", "feet", 0.45359237],
    ["1", "metric", 1],
    ["22.0462 lb", "metric", 10],
    ["5.5 LBS", "feet", 2.494758],
    ["4,2 kg", "feet", 4.2],
    ["450 g", "feet", 0.45],
    ["2 pounds", "metric", 0.907185],
    ["−3", "metric", -3],
  ])("%s, %s in use, is %f kg", (text, units, kg) => expect(parseWeight(text, units)).toBeCloseTo(kg, 4));
  it.each(["heavy", "", "kg", "1e3", "5 lb 8", "1 m", "NaN"])("%j is refused with the cure", (text) => {
    expect(() => parseWeight(text)).toThrow(QuantityError);
    expect(() => parseWeight(text)).toThrow(/2\.6 kg or 5\.7 lb/);
  });
  it.each<[number, LengthUnits, "scale" | "sum", string]>([
    [0.75, "metric", "scale", "0.75 kg"],
    [0.75, "feet", "scale", "1.7 lb"],
    [10, "metric", "scale", "10 kg"],
    [10, "feet", "scale", "22 lb"],
    [10, "feet", "sum", "22.0 lb"],
    [6, "metric", "sum", "6.0 kg"],
    [-0.01, "feet", "scale", "0 lb"],
    [-1, "metric", "scale", "−1 kg"],
    [Number.NaN, "feet", "scale", "no weight"],
  ])("%f kg, %s, %s: %s", (kg, units, of, text) => expect(formatWeight(kg, units, of)).toBe(text));
  it("reads back what it writes, to half of the last digit", () => {
    fc.assert(
      fc.property(fc.double({ min: -200, max: 200, noNaN: true }), (kg) => {
        for (const of of ["scale", "sum"] as const) {
          const back = (units: LengthUnits) => parseWeight(formatWeight(kg, units, of), units);
          expect(Math.abs(back("metric") - kg)).toBeLessThanOrEqual((of === "sum" ? 0.05 : 0.005) + 1e-6);
          expect(Math.abs(back("feet") - kg)).toBeLessThanOrEqual(0.05 * 0.45359237 + 1e-6);
        }
      }),
      { seed: 9, numRuns: 100 },
    );
  });
});

describe("[UN10] pushes and moments go with the lengths", () => {
  // a pound-force is 4.4482216 N, a pound-force foot 1.3558179 N·m: NIST SP 811, appendix B.8, from memory
  it.each<[number, LengthUnits, string, string]>([
    [10, "metric", "10.0 N", "10.0 N·m"],
    [44.482216, "feet", "10.0 lbf", "32.8 lbf·ft"],
    [135.58179, "feet", "30.5 lbf", "100.0 lbf·ft"],
  ])("%f, %s", (value, units, force, moment) => {
    expect(formatForce(value, units)).toBe(force);
    expect(formatMoment(value, units)).toBe(moment);
  });
});
