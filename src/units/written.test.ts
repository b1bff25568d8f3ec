import { describe, expect, it } from "vitest";
import { formatDegrees, formatRatio, formatShutter } from "./index.ts";

describe("[UN5] angles, times and ratios as people read them; what is none is said in words", () => {
  it.each([
    [0.00625, "1/160"],
    [1 / 8, "1/8"],
    [0.3, "0.3 s"],
    [0.5, "0.5 s"],
    [2, "2 s"],
    [0, "no time"],
    [Number.NaN, "no time"],
  ])("%f s is %s", (seconds, text) => expect(formatShutter(seconds)).toBe(text));
  it.each([
    [12.4, "12°"],
    [-12.6, "−13°"],
    [-0.2, "0°"],
    [Number.NaN, "no angle"],
  ])("%f degrees is %s", (degrees, text) => expect(formatDegrees(degrees)).toBe(text));
  it.each([
    [3, "3:1"],
    [2.41421, "2.4:1"],
    [9.97, "10:1"],
    [16.4, "16:1"],
    [0.4, "1:2.5"],
    [1, "1:1"],
    [0.99, "1:1"],
    [0, "no ratio"],
    [Number.POSITIVE_INFINITY, "no ratio"],
  ])("a ratio of %f is %s", (ratio, text) => expect(formatRatio(ratio)).toBe(text));
});
