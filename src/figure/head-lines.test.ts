import { describe, expect, test } from "vitest";
import { buildHead } from "./head.ts";
import { MEAN_HEAD_LINES } from "./head-lines.generated.ts";
import { meanHeadLines } from "./head-lines.ts";
import { type HeadView, onPage, rasterHead } from "./head-raster.ts";

const VIEWS: readonly HeadView[] = ["front", "side"];
/** The outline may lie so far off the mesh, mm: half a pixel of what it is found in, and the smoothing of its steps. */
const OFF_MM = 1;

/** Extent of points (stride apart) that lie above a height, mm. */
function extentOf(points: ArrayLike<number>, stride: number, above: number) {
  let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < points.length; i += stride) {
    const [across, up] = [points[i], points[i + 1]];
    if (up < above) continue;
    left = Math.min(left, across);
    right = Math.max(right, across);
    bottom = Math.min(bottom, up);
    top = Math.max(top, up);
  }
  return { left, right, bottom, top };
}

describe("the drawn head", () => {
  test("[AP70] what is written down is what the figure gives", () => {
    expect(MEAN_HEAD_LINES).toEqual(meanHeadLines());
  });

  test.each(VIEWS)("[AP70] %s: as wide and as high as the figure, within 1 mm", (view) => {
    const drawn = extentOf(MEAN_HEAD_LINES[view].outline.flat(), 2, -90);
    const figure = extentOf(onPage(buildHead(), view), 3, -90);
    for (const side of ["left", "right", "top"] as const)
      expect(Math.abs(drawn[side] - figure[side]), side).toBeLessThan(OFF_MM);
  });

  test.each(VIEWS)("[AP70] %s: every point of the outline lies on the rim of the figure's shadow", (view) => {
    const { columns, across0, up0, step, near } = rasterHead(buildHead(), view, 0.25);
    for (const line of MEAN_HEAD_LINES[view].outline)
      for (let i = 0; i < line.length; i += 2) {
        let [covered, open] = [false, false];
        for (let a = -OFF_MM; a <= OFF_MM; a += step)
          for (let u = -OFF_MM; u <= OFF_MM; u += step) {
            const column = Math.round((line[i] + a - across0) / step);
            const row = Math.round((line[i + 1] + u - up0) / step);
            if (Number.isFinite(near[row * columns + column])) covered = true;
            else open = true;
          }
        expect(covered && open, `${line[i]}, ${line[i + 1]}`).toBe(true);
      }
  });

  test("[AP70] the eyes are drawn where the figure's irises are", () => {
    const head = buildHead();
    for (const eye of [head.leftEye, head.rightEye]) {
      const [, aside, up] = eye.centre.map((m) => m * 1000);
      // what lies wholly within an iris' radius of its middle: pupil and iris themselves
      const round = MEAN_HEAD_LINES.front.features.filter((line) =>
        line.every((mm, i) => Math.abs(mm - (i % 2 === 0 ? aside : up)) < 1000 * eye.irisRadius + OFF_MM),
      );
      expect(round.length).toBeGreaterThanOrEqual(2);
      for (const line of round) {
        const { left, right } = extentOf(line, 2, -Infinity);
        expect(Math.abs((left + right) / 2 - aside)).toBeLessThan(OFF_MM);
      }
    }
  });

  test("[AP70] from the front both halves are alike", () => {
    const { features } = MEAN_HEAD_LINES.front;
    const sum = (sign: number) =>
      features.flat().reduce((total, mm, i) => (i % 2 === 0 ? total + Math.max(0, sign * mm) : total), 0);
    expect(Math.abs(sum(1) / sum(-1) - 1)).toBeLessThan(0.05);
  });
});
