import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  formatFStops,
  formatStops,
  parseFStops,
  QuantityError,
  ratioOfStops,
  stopsOfRatio,
} from "./index.ts";

describe("[UN1] exposures are engraved stop plus tenths", () => {
  // published: exact f-numbers of f/8 + k/10 (APEX, reference/section3)
  it.each([
    [8, "f/8 + 0.0"],
    [8.03, "f/8 + 0.0"],
    [8.28212, "f/8 + 0.1"],
    [9.18959, "f/8 + 0.4"],
    [10.9283, "f/8 + 0.9"],
    [11.3137, "f/11 + 0.0"],
    [11.2, "f/11 + 0.0"],
    [0.75, "f/0.7 + 0.2"],
    [0.5, "f/0.5 + 0.0"],
    [200, "f/180 + 0.3"],
  ])("%f is %s", (n, text) => expect(formatFStops(n)).toBe(text));
  it("a full tenth is carried to the next engraved stop", () => {
    const almost = 11.3137 * 2 ** -0.02;
    expect(formatFStops(almost)).toBe("f/11 + 0.0");
  });
  it.each([0, -8, Number.NaN, Number.POSITIVE_INFINITY])("%f is no reading", (n) =>
    expect(formatFStops(n)).toBe("no reading"),
  );
  it("beyond the engraved stops it says on which side", () => {
    expect(formatFStops(0.48)).toBe("under f/0.5");
    expect(formatFStops(400)).toBe("over f/256");
  });
  it("reads back what it writes, to half a tenth of a stop", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 300, noNaN: true }), (n) => {
        const back = parseFStops(formatFStops(n));
        expect(Math.abs(2 * Math.log2((back as number) / n))).toBeLessThanOrEqual(0.05 + 1e-9);
      }),
      { seed: 1, numRuns: 500 },
    );
  });
  it.each(["f/5.6", "5.6", "F 5.6", "f/5.6 + 0.0", " f/5.6+.0 "])("%s is the engraved stop", (text) =>
    expect(parseFStops(text)).toBeCloseTo(5.65685, 5),
  );
  it.each(["8.4", "f/8 + 1.2", "f/8 - 0.3", "f/9", "", "f/", "eight"])("%j is refused", (text) =>
    expect(parseFStops(text)).toBeNull(),
  );
});

describe("[UN3] stops carry their sign", () => {
  it.each([
    [-2.14, "−2.1"],
    [0.61, "+0.6"],
    [0.01, "0.0"],
    [-0.04, "0.0"],
    [Number.NaN, "no reading"],
    [Number.NEGATIVE_INFINITY, "no reading"],
  ])("%f is %s", (stops, text) => expect(formatStops(stops)).toBe(text));
  it("with as many digits as asked", () => expect(formatStops(-0.125, 2)).toBe("−0.13"));
});

describe("[UN4] stops are doublings; nothing is no number of stops", () => {
  it("there and back", () => {
    expect(stopsOfRatio(8)).toBe(3);
    expect(ratioOfStops(-1)).toBe(0.5);
    expect(ratioOfStops(stopsOfRatio(3))).toBeCloseTo(3, 12);
  });
  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])("a ratio of %f is refused", (ratio) =>
    expect(() => stopsOfRatio(ratio)).toThrow(QuantityError),
  );
});
