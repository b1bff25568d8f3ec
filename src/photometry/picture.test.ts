import { describe, expect, it } from "vitest";
import { clippingExposure, decodeSrgb, encodeSrgb, pictureLevel } from "./index.ts";

/** The rule as the plan format words it, with nothing shared with the code. */
function byTheRule(hf: number, s: number, headroom: number): number {
  const x = (0.1812 * hf * s) / 10;
  const xc = 0.1812 * 2 ** headroom;
  if (hf >= (10 / s) * 2 ** headroom) return 255;
  let v = x;
  if (xc > 1 && x > 0.5) v = 0.5 + 0.5 * (1 - (1 - Math.min(1, (x - 0.5) / (xc - 0.5))) ** (2 * (xc - 0.5)));
  const srgb = v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055;
  return Math.min(254, Math.round(255 * srgb));
}

describe("[PH2] the picture rule", () => {
  it("the middle level is 118, whatever the speed", () => {
    for (const iso of [50, 100, 6400]) expect(pictureLevel(10 / iso, iso, 2.96)).toBe(118);
  });
  it("255 from the clipping exposure on, 254 a hair below it", () => {
    for (const headroom of [-3, 0, 1, 2.46, 2.96, 6]) {
      for (const iso of [64, 100, 800]) {
        const clip = clippingExposure(iso, headroom);
        expect(pictureLevel(clip, iso, headroom)).toBe(255);
        expect(pictureLevel(3 * clip, iso, headroom)).toBe(255);
        expect(pictureLevel(clip * (1 - 1e-12), iso, headroom)).toBeLessThanOrEqual(254);
      }
    }
    expect(pictureLevel(clippingExposure(100, 2.96) * (1 - 1e-12), 100, 2.96)).toBe(254);
  });
  it("is the rule as worded, at every exposure and headroom", () => {
    for (const headroom of [0, 1.5, 2.46, 2.4645, 2.96, 4, 8])
      for (let stop = -12; stop < 9; stop += 0.037)
        expect(pictureLevel(0.1 * 2 ** stop, 100, headroom)).toBe(byTheRule(0.1 * 2 ** stop, 100, headroom));
  });
  it("never falls as light rises, and joins its shoulder without a step", () => {
    for (const headroom of [1, 2.46, 2.47, 2.96, 5]) {
      let before = 0;
      for (let x = 0; x < 4; x += 0.0005) {
        const level = pictureLevel(x, 100, headroom);
        expect(level).toBeGreaterThanOrEqual(before);
        before = level;
      }
    }
    // x = 0.5 is level 188 on both sides
    const knee = 5 / (0.1812 * 100);
    expect([knee * 0.9999, knee * 1.0001].map((h) => pictureLevel(h, 100, 2.96))).toEqual([188, 188]);
  });
  it.each([0, -1, Number.NaN])("%f lx.s is 0", (h) => expect(pictureLevel(h, 100, 2.96)).toBe(0));
  it("the sRGB curve and its inverse give every level back", () => {
    for (let i = 0; i <= 255; i++) expect(Math.round(255 * encodeSrgb(decodeSrgb(i / 255)))).toBe(i);
  });
});
