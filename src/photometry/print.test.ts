import { describe, expect, it } from "vitest";
import { QuantityError } from "../units/index.ts";
import {
  defocusBlur,
  eyePixelsPerInch,
  eyeResolves,
  flashTenth,
  motionBlur,
  pixelsPerInch,
  smearedTogether,
  unseenFrom,
} from "./print.ts";

describe("[US1] the eye, pixels and inches", () => {
  it("what is told apart at a distance is no longer told apart from that distance on", () => {
    for (const away of [0.25, 1, 3.7, 60]) expect(unseenFrom(eyeResolves(away))).toBeCloseTo(away, 12);
  });
  it("pixels that the eye just sees apart are as many an inch as the eye sees", () => {
    const distance = 1500;
    const across = 2000 / eyeResolves(distance);
    expect(pixelsPerInch(across, 2000)).toBeCloseTo(eyePixelsPerInch(distance), 9);
  });
});

describe("[US3] blur on the sensor", () => {
  /** Both rays through the rim of the pupil, met with the sensor by the lens formula 1 / s + 1 / image = 1 / f. */
  function byRays(f: number, n: number, focus: number, point: number): number {
    const image = (s: number) => 1 / (1 / f - 1 / s);
    const sensor = image(focus);
    const meet = image(point);
    return (f / n) * Math.abs((sensor - meet) / meet);
  }
  it("is that of rays through the rim of the pupil", () => {
    for (const [f, n, focus] of [
      [85, 1.8, 1200],
      [135, 8, 2700],
      [35, 4, 900],
    ])
      for (const away of [-80, -10, 0, 35, 400])
        expect(defocusBlur(f, n, focus, focus + away)).toBeCloseTo(byRays(f, n, focus, focus + away), 10);
  });
  it("a focus within the focal length is refused", () => {
    expect(() => defocusBlur(85, 8, 80, 2000)).toThrow(QuantityError);
  });
  it("what moves goes as far as two places of it lie apart in the picture", () => {
    // 0.4 m/s for 1/50 s: 8 mm, seen by a lens of magnification f / (s - f)
    expect(motionBlur(0.4, 1 / 50, 100, 2600)).toBeCloseTo(8 / 25, 12);
  });
  it("a flash that fades by halves is over a tenth of its peak 3.32 times as long as over half of it", () => {
    const t = flashTenth(0.001);
    // 2 ** (-t / half-life) is a tenth
    expect(2 ** (-t / 0.001)).toBeCloseTo(0.1, 12);
  });
  it("together they are wider than each, and no wider than all after one another", () => {
    const all = smearedTogether(0.3, 0.2, 0.1);
    expect(all).toBeGreaterThan(0.3);
    expect(all).toBeLessThan(0.6);
    expect(smearedTogether(3, 4)).toBe(5);
  });
});
