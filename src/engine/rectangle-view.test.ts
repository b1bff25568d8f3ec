import { describe, expect, it } from "vitest";
import { polygonFactor } from "../photometry/index.ts";
import { rectangleView } from "./rectangle-view.ts";

/** A plain sum over so many parts each way. */
const PARTS = 400;
/** Its midpoint error, a ten-thousandth (halving the parts quadruples it). */
const SUMMED = 2e-4;

const CORNER = [-0.4, 0.3, 1.1];
const A = [1.2, 0.1, 0.2];
const B = [-0.05, 0.8, -0.1];

function bySum(p: number[], n: number[]): number[] {
  const cross = [A[1] * B[2] - A[2] * B[1], A[2] * B[0] - A[0] * B[2], A[0] * B[1] - A[1] * B[0]];
  const out = [0, 0, 0, 0, 0];
  for (let i = 0; i < PARTS; i++) {
    for (let j = 0; j < PARTS; j++) {
      const d = [0, 1, 2].map(
        (k) => CORNER[k] + (A[k] * (i + 0.5)) / PARTS + (B[k] * (j + 0.5)) / PARTS - p[k],
      );
      const r = Math.hypot(...d);
      const angle = Math.abs(d[0] * cross[0] + d[1] * cross[1] + d[2] * cross[2]) / (PARTS * PARTS * r ** 3);
      out[0] += angle;
      for (let k = 0; k < 3; k++) out[1 + k] += (angle * d[k]) / r;
      out[4] += (angle * Math.max(0, d[0] * n[0] + d[1] * n[1] + d[2] * n[2])) / r;
    }
  }
  return out;
}

describe("[EN6] what a point sees of a rectangle", () => {
  it.each([
    ["in front, facing", [0.1, 0.6, 0], [0, 0, 1]],
    ["behind it", [0.1, 0.6, 2.5], [0, 0, -1]],
    ["aside, cut by the horizon", [1.5, 0.2, 0.9], [-0.5, 0.6, 0.62]],
    ["facing away", [0.1, 0.6, 0], [0, 0, -1]],
  ])("%s: as a plain sum over %#", (_, p, n) => {
    const out = new Float64Array(5);
    const length = Math.hypot(...n);
    const unit = n.map((x) => x / length);
    rectangleView(CORNER, A, B, 0, 0, 1, 1, p, unit, out);
    const sum = bySum(p, unit);
    for (let k = 0; k < 5; k++)
      expect(Math.abs(out[k] - sum[k])).toBeLessThan(SUMMED * Math.max(1e-3, sum[0]) * 5);
  });

  it("parts add up to the whole, and the flat part is Lambert's polygon", () => {
    const p = [0.2, 0.1, 0.3];
    const n = [0.36, 0.48, 0.8];
    const whole = new Float64Array(5);
    const part = new Float64Array(5);
    const sum = new Float64Array(5);
    rectangleView(CORNER, A, B, 0, 0, 1, 1, p, n, whole);
    for (let i = 0; i < 4; i++)
      for (let j = 0; j < 4; j++) {
        rectangleView(CORNER, A, B, i / 4, j / 4, 0.25, 0.25, p, n, part);
        for (let k = 0; k < 5; k++) sum[k] += part[k];
      }
    for (let k = 0; k < 5; k++) expect(sum[k]).toBeCloseTo(whole[k], 12);
    const at = (u: number, v: number) => [0, 1, 2].map((k) => CORNER[k] + u * A[k] + v * B[k]) as never;
    const factor = polygonFactor([at(0, 0), at(1, 0), at(1, 1), at(0, 1)], p as never, n as never);
    expect(whole[4] / Math.PI).toBeCloseTo(factor, 12);
  });

  it("a point in its plane sees nothing of it", () => {
    const out = new Float64Array(5).fill(1);
    rectangleView([0, 0, 0], [1, 0, 0], [0, 1, 0], 0, 0, 1, 1, [0.5, 0.5, 0], [0, 0, 1], out);
    expect(Array.from(out)).toEqual([0, 0, 0, 0, 0]);
  });
});
