import { describe, expect, it } from "vitest";
import { contrastLeft, SCATTER_ROUNDS } from "./skin-scatter.ts";

const rounds = (channel: number, k: number) =>
  SCATTER_ROUNDS[channel].reduce((sum, r) => sum + r.share / (1 + r.reach_mm2 * k * k) ** 2, 0);

/** Light x mm inside the shadow's side of a sharp edge: 1/2 - the sine transform of the contrast. */
function acrossEdge(contrast: (k: number) => number, x: number): number {
  const step = 0.005;
  let sum = 0;
  for (let k = step / 2; k < 20; k += step) sum += (contrast(k) / k) * Math.sin(k * x);
  return 0.5 - (sum * step) / Math.PI;
}

describe("[PH15] light that wanders under skin", () => {
  it("none is lost: a wave of no end keeps its contrast, and shares add up to 1", () => {
    for (const channel of [0, 1, 2]) {
      expect(contrastLeft(channel, 0)).toBe(1);
      expect(SCATTER_ROUNDS[channel].reduce((sum, r) => sum + r.share, 0)).toBeCloseTo(1, 9);
    }
  });

  it("the rounds give the dipole's light across a shadow's edge within 0.003", () => {
    for (const channel of [0, 1, 2])
      for (const x of [0.1, 0.3, 0.6, 1, 2, 4, 8]) {
        const dipole = acrossEdge((k) => contrastLeft(channel, k), x);
        expect(Math.abs(acrossEdge((k) => rounds(channel, k), x) - dipole)).toBeLessThan(0.003);
      }
  });

  it("red wanders further than green, green further than blue; a millimetre or two", () => {
    const reach = [0, 1, 2].map((c) => Math.sqrt((2 * (1 - contrastLeft(c, 0.01))) / 0.01 ** 2));
    expect(reach[0]).toBeGreaterThan(reach[1]);
    expect(reach[1]).toBeGreaterThan(reach[2]);
    expect(reach[2]).toBeGreaterThan(0.5);
    expect(reach[0]).toBeLessThan(3);
  });
});
