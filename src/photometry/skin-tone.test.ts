import { describe, expect, it } from "vitest";
import { QuantityError } from "../units/index.ts";
import { LUMINANCE } from "./colour.ts";
import { ita, labRgb, luminousReflectance, type SkinTone, toneLab, toneOf, toneRgb } from "./skin-tone.ts";

const TONES: readonly SkinTone[] = ["very light", "light", "intermediate", "tan", "brown", "dark"];
const luminance = (rgb: readonly number[]) => rgb.reduce((sum, v, c) => sum + v * LUMINANCE[c], 0);

describe("[PH13] skin by class and by measured patch", () => {
  it("a class's colour lies in that class, redder than green, greener than blue, and darker from class to class", () => {
    let before = 1;
    for (const tone of TONES) {
      const [r, g, b] = toneRgb(tone);
      expect(toneOf(ita(toneLab(tone)))).toBe(tone);
      expect(r).toBeGreaterThan(g);
      expect(g).toBeGreaterThan(b);
      expect(luminance([r, g, b])).toBeLessThan(before);
      before = luminance([r, g, b]);
    }
  });

  it("the middle of a closed class is half-way between its limits", () => {
    expect(ita(toneLab("light"))).toBeCloseTo((41 + 55) / 2, 9);
    expect(ita(toneLab("intermediate"))).toBeCloseTo((28 + 41) / 2, 9);
    expect(ita(toneLab("tan"))).toBeCloseTo((10 + 28) / 2, 9);
    expect(ita(toneLab("brown"))).toBeCloseTo((-30 + 10) / 2, 9);
  });

  it("luminance is that of L* to rounding, in the gamut and brought into it; every channel is a share", () => {
    for (const l of [1, 5, 8, 9, 20, 50, 80, 98, 100])
      for (const a of [-20, 0, 20, 60])
        for (const b of [-20, 0, 30, 60]) {
          const rgb = labRgb([l, a, b]);
          expect(luminance(rgb)).toBeCloseTo(luminousReflectance(l), 12);
          for (const v of rgb) expect(v >= 0 && v <= 1).toBe(true);
        }
  });

  it("no colour is grey, to rounding; the straight foot meets the curve at L* = 8", () => {
    for (const l of [3, 40, 100]) {
      const [r, g, b] = labRgb([l, 0, 0]);
      expect(r).toBeCloseTo(g, 12);
      expect(b).toBeCloseTo(g, 12);
    }
    expect(luminousReflectance(8)).toBeCloseTo(luminousReflectance(8 + 1e-9), 9);
  });

  it("what is no skin, or no number, is refused", () => {
    expect(() => ita([60, 10, 0])).toThrow(QuantityError);
    expect(() => labRgb([Number.NaN, 0, 0])).toThrow(QuantityError);
    expect(() => labRgb([101, 0, 0])).toThrow(QuantityError);
  });
});
