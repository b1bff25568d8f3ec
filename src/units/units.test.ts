import { describe, expect, it } from "vitest";
import { formatFStops, formatLength, formatShutter, formatStops, parseFStops, parseLength } from "./index.ts";

describe("[UN1] exposures are engraved stop plus tenths", () => {
  // published: exact f-numbers of f/8 + k/10 (APEX, published-checks section 3)
  it.each([
    [8, "f/8 + 0.0"],
    [8.03, "f/8 + 0.0"],
    [8.28212, "f/8 + 0.1"],
    [9.18959, "f/8 + 0.4"],
    [10.9283, "f/8 + 0.9"],
    [11.3137, "f/11 + 0.0"],
    [11.2, "f/11 + 0.0"],
    [0.75, "f/0.7 + 0.2"],
  ])("%f is %s", (n, text) => expect(formatFStops(n)).toBe(text));
  it("nothing is no reading", () => {
    expect(formatFStops(0)).toBe("no reading");
    expect(formatFStops(Number.NaN)).toBe("no reading");
  });
  it("reads back what it writes, and refuses a bare decimal", () => {
    expect(parseFStops("f/8 + 0.4")).toBeCloseTo(9.18959, 4);
    expect(parseFStops("8.4")).toBeNull();
  });
});

describe("[UN2] lengths in metres or feet and inches", () => {
  it.each([
    ["1.5", 1.5],
    ["150cm", 1.5],
    ["1,5 m", 1.5],
    ["4'11\"", 1.4986],
    ["4 ft 11 in", 1.4986],
    ['59"', 1.4986],
    ["4′ 11½″", 1.5113],
  ])("%s", (text, metres) => expect(parseLength(text)).toBeCloseTo(metres, 6));
  it("a bare number is in the units in use", () => expect(parseLength("4", "feet")).toBeCloseTo(1.2192, 6));
  it("refuses words with the cure", () => expect(() => parseLength("close")).toThrow(/150cm/));
  it("writes both", () => {
    expect(formatLength(1.4986, "metric")).toBe("1.50 m");
    expect(formatLength(1.4986, "feet")).toBe("4′ 11″");
  });
});

it("[UN3] stops carry a true minus and shutters are fractions", () => {
  expect(formatStops(-2.14)).toBe("−2.1");
  expect(formatStops(0.01)).toBe("0.0");
  expect(formatShutter(0.00625)).toBe("1/160");
});
