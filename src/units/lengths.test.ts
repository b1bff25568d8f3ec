import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  formatLength,
  type LengthUnits,
  lengthsIn,
  METRES_PER_INCH,
  parseLength,
  QuantityError,
} from "./index.ts";

describe("[UN2] lengths in metres or feet and inches", () => {
  it.each([
    ["1.5", 1.5],
    ["+1.5", 1.5],
    [".5", 0.5],
    ["−1.5 m", -1.5],
    ["150cm", 1.5],
    ["1500 mm", 1.5],
    ["1,5 m", 1.5],
    ["4'11\"", 1.4986],
    ["4'11", 1.4986],
    ["4 ft 11 in", 1.4986],
    ["4 feet 11 inches", 1.4986],
    ['59"', 1.4986],
    ["4 ft", 1.2192],
    ["4′ 11½″", 1.5113],
    ["4′ ½″", 1.2319],
    ["½″", 0.0127],
    ["-4'", -1.2192],
  ])("%s", (text, metres) => expect(parseLength(text)).toBeCloseTo(metres, 9));
  it("a bare number is in the units in use", () => {
    expect(parseLength("4", "feet")).toBeCloseTo(1.2192, 9);
    expect(parseLength("1.5 m", "feet")).toBe(1.5);
  });
  it.each([
    "close",
    "",
    "m",
    "'",
    "4'\"",
    "4½",
    "1.5.2",
    "1e3",
    "1 m 50",
    "NaN",
    "Infinity",
    "9".repeat(400),
  ])("%j is refused with the cure", (text) => {
    expect(() => parseLength(text)).toThrow(QuantityError);
    expect(() => parseLength(text)).toThrow(/150cm or 4'11"/);
  });
  it.each<[number, LengthUnits, string]>([
    [1.4986, "metric", "1.50 m"],
    [-1.4986, "metric", "−1.50 m"],
    [-0.001, "metric", "0.00 m"],
    [1.4986, "feet", "4′ 11″"],
    [1.2319, "feet", "4′ ½″"],
    [1.5239, "feet", "5′ 0″"],
    [-0.3048, "feet", "−1′ 0″"],
    [-0.001, "feet", "0′ 0″"],
    [Number.NaN, "feet", "no length"],
    [Number.POSITIVE_INFINITY, "metric", "no length"],
  ])("%f in %s is %s", (metres, units, text) => expect(formatLength(metres, units)).toBe(text));
  it("reads back what it writes, to half of the last mark on the tape", () => {
    fc.assert(
      fc.property(fc.double({ min: -50, max: 50, noNaN: true }), (metres) => {
        const metric = parseLength(formatLength(metres, "metric"), "metric");
        const feet = parseLength(formatLength(metres, "feet"), "feet");
        expect(Math.abs(metric - metres)).toBeLessThanOrEqual(0.005 + 1e-9);
        expect(Math.abs(feet - metres)).toBeLessThanOrEqual(METRES_PER_INCH / 8 + 1e-9);
      }),
      { seed: 2, numRuns: 500 },
    );
  });
});

describe("[AP59] a sentence in metres is said in the units in use", () => {
  it.each([
    ["key sinks 12 cm", "key sinks 4¾″"],
    ["its rim comes within 0.30 m of the mark, 2.45 m up", "its rim comes within 11¾″ of the mark, 8′ ½″ up"],
    ["a number from 0 to 7 m; x = 9 m is outside", "a number from 0′ 0″ to 22′ 11½″; x = 29′ 6¼″ is outside"],
    ["fades over 14 mm", "fades over 14 mm"],
    ["0.5 cd/m², 400 m² or 12 meters", "0.5 cd/m², 400 m² or 12 meters"],
  ])("%s", (metric, feet) => {
    expect(lengthsIn(metric, "feet")).toBe(feet);
    expect(lengthsIn(metric, "metric")).toBe(metric);
  });
});
