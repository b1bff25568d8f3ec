import { describe, expect, it } from "vitest";
import { type Row, solve } from "./calibrate-solve.ts";

const FREE = { least: [-9], most: [9] };
/** A reading of the one unknown itself. */
const of = (stops: number, uncertaintyStops: number, mayBeWrong = true): Row => ({
  stops,
  uncertaintyStops,
  mayBeWrong,
  predict: ([x]) => x,
  gradient: () => [1],
});

describe("[CA8] with one unknown the answer is the weighted mean", () => {
  it("of three readings and what was known before", () => {
    const known: [number, number][] = [
      [0, 1],
      [0.62, 0.1],
      [0.7, 0.1],
      [0.5, 0.2],
    ];
    const { at, covariance, leftOut, scatter } = solve(
      known.map(([stops, sd], i) => of(stops, sd, i > 0)),
      { start: [0], ...FREE },
    );
    const weights = known.map(([, sd]) => 1 / sd ** 2);
    const all = weights.reduce((a, b) => a + b, 0);
    const mean = known.reduce((sum, [stops], i) => sum + stops * weights[i], 0) / all;
    expect(at[0]).toBeCloseTo(mean, 5);
    expect(covariance[0][0]).toBeCloseTo(scatter / all, 12);
    expect(scatter).toBe(1);
    expect(leftOut).toEqual([]);
  });
});

describe("[CA10] what does not fit is left out", () => {
  it("one among four, and the mean is that of the rest", () => {
    const rows = [of(0, 1, false), of(0.5, 0.1), of(0.55, 0.1), of(1.6, 0.1), of(0.45, 0.1)];
    const { at, leftOut } = solve(rows, { start: [0], ...FREE });
    expect(leftOut).toEqual([[3]]);
    expect(at[0]).toBeCloseTo((1.5 * 100) / 301, 5);
  });
  it("of two that contradict each other neither is believed", () => {
    const { at, covariance, leftOut } = solve([of(0, 1, false), of(0.4, 0.1), of(1.6, 0.1)], {
      start: [0],
      ...FREE,
    });
    expect(leftOut).toEqual([[1, 2]]);
    expect(at[0]).toBeCloseTo(0, 5);
    expect(covariance[0][0]).toBeCloseTo(1, 9);
  });
  it("readings that scatter more than they should make the answer less sure", () => {
    const rows = [of(0, 1, false), ...[-0.25, 0.25, -0.2, 0.2, -0.25, 0.25].map((x) => of(x, 0.1))];
    const { covariance, scatter } = solve(rows, { start: [0], ...FREE });
    // (4 + 33) / (4 + 5)
    expect(scatter).toBeCloseTo(4.11, 1);
    expect(Math.sqrt(covariance[0][0])).toBeCloseTo(Math.sqrt(scatter / 601), 9);
  });
});
