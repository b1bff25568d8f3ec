import { describe, expect, it } from "vitest";
import { formatFraction, parseFraction } from "./index.ts";

describe("[AP50] power in fractions is the fraction at or below and tenths of a stop over it", () => {
  it.each([
    [0, "full"],
    [1, "1/2"],
    [2.2, "1/8 + 0.8"],
    [1.7, "1/4 + 0.3"],
    [0.04, "full"],
    [0.05, "1/2 + 0.9"],
    [5.96, "1/64"],
    [10, "1/1024"],
  ])("%f stops down is %s", (down, text) => expect(formatFraction(down)).toBe(text));
  it.each([
    ["full", 0],
    ["1/1", 0],
    ["1/8", 3],
    ["1/8 + 0.8", 2.2],
    ["1/8+.8", 2.2],
    ["1/4 − 0.2", 2.2],
    ["1/4 - 0.2", 2.2],
    ["1/1 + 0.3", -0.3],
  ])("%s is read", (text, down) => expect(parseFraction(text)).toBeCloseTo(down, 12));
  it.each(["1/3", "2.2", "1/0", "1/4 + 3", "", "1/", "a quarter"])("%j is refused", (text) =>
    expect(parseFraction(text)).toBeNull(),
  );
  it("reads back what it writes, to half a tenth of a stop", () => {
    for (let down = 0; down < 12; down += 0.013) {
      const back = parseFraction(formatFraction(down)) as number;
      expect(Math.abs(back - down)).toBeLessThanOrEqual(0.05 + 1e-9);
    }
  });
});
