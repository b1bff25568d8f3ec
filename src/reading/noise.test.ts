/** Grain of a fine frame on a face. */
import { expect, it } from "vitest";
import { checkPlan } from "../plan/index.ts";
import { Memory, renderFrame, SEEN } from "./index.ts";

/** A disc that is rolled sends the same light from other sample points: what then differs is grain alone. */
function frameAt(roll: number) {
  const at = [3, 3.6, 1.55];
  const disc = (name: string, position: number[], width: number) => ({
    name,
    position,
    direction: { at },
    roll,
    face: { shape: "disc", width },
    output: { lumenSeconds: 500 },
  });
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    room: { width: 6, depth: 7, height: 3 },
    lights: [disc("key", [4, 2.7, 2.3], 1.2), disc("side", [1.8, 3.9, 1.8], 0.5)],
    people: [{ name: "sitter", position: [3, 3.6], stature: 1.7, facing: 180 }],
    camera: { position: [3, 1, 1.55], direction: { at }, focalLength: 180, fNumber: 8 },
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return renderFrame(checked.plan, { width: 240, quality: "fine" }, new Memory());
}

it("[RD7] a fine frame's grain on a face is under a tenth of a stop", () => {
  const [a, b] = [frameAt(0), frameAt(53)];
  const apart: number[] = [];
  for (let i = 0; i < a.seen.length; i++) {
    if (a.seen[i] !== SEEN.skin) continue;
    apart.push(Math.abs(Math.log2(a.luminance[3 * i] / b.luminance[3 * i])));
  }
  apart.sort((x, y) => x - y);
  const rms = Math.sqrt(apart.reduce((s, x) => s + x * x, 0) / apart.length / 2);
  expect(apart.length).toBeGreaterThan(10_000);
  expect(rms).toBeLessThan(0.02);
  // and nearly everywhere: 99 pixels of 100, of the difference of two frames
  expect(apart[Math.floor(0.99 * apart.length)] / Math.SQRT2).toBeLessThan(0.1);
});
