import { describe, expect, it } from "vitest";
import {
  ADOBE_RGB,
  apply,
  D50_XYZ,
  DISPLAY_P3,
  inverse,
  LINEAR_SRGB,
  SRGB,
  srgbFromD50,
} from "./icc-space.ts";

/** Published values have 4 to 7 digits, and white points in them are rounded differently. */
const TOLERANCE = 0.0005;

function expectNear(seen: readonly number[], printed: readonly number[]): void {
  for (const [i, value] of printed.entries())
    expect(Math.abs(seen[i] - value), `entry ${i}`).toBeLessThan(TOLERANCE);
}

describe("colour spaces", () => {
  it("[PF2] sRGB at D50 is the matrix of its published profile", () => {
    // IEC 61966-2-1 adapted by Bradford, as the ICC's own sRGB profile and Lindbloom's tables have it
    const printed = [
      0.4360747, 0.3850649, 0.1430804, 0.2225045, 0.7168786, 0.0606169, 0.0139322, 0.0971045, 0.7141733,
    ];
    expectNear(inverse(srgbFromD50()), printed);
  });

  it("[PF2] Adobe RGB (1998) at D50 is the matrix of its specification", () => {
    // Adobe RGB (1998) Color Image Encoding, 2005-05, 4.3.5.2
    const printed = [0.60974, 0.20528, 0.14919, 0.31111, 0.62567, 0.06322, 0.01947, 0.06087, 0.74457];
    const d50 = [0, 1, 2].map((i) =>
      apply(
        inverse(srgbFromD50()),
        [0, 3, 6].map((row) => ADOBE_RGB.toSrgb[row + i]),
      ),
    );
    expectNear(
      [0, 1, 2].flatMap((row) => d50.map((column) => column[row])),
      printed,
    );
  });

  it("[PF2] wider spaces reach linear sRGB by the published matrices", () => {
    // CSS Color Module Level 4, sample code: products of its D65 matrices
    const p3 = [1.2249402, -0.2249402, 0, -0.0420569, 1.0420569, 0, -0.0196376, -0.0786361, 1.0982735];
    const adobe = [1.3983557, -0.3983557, 0, 0, 1, 0, 0, -0.042929, 1.042929];
    expectNear(DISPLAY_P3.toSrgb, p3);
    expectNear(ADOBE_RGB.toSrgb, adobe);
  });

  it("[PF2] white stays white and grey grey in each", () => {
    for (const { toSrgb } of [SRGB, DISPLAY_P3, ADOBE_RGB, LINEAR_SRGB])
      expectNear(apply(toSrgb, [1, 1, 1]), [1, 1, 1]);
    expectNear(apply(srgbFromD50(), D50_XYZ), [1, 1, 1]);
  });

  it("[PF2] curves are those of the standards", () => {
    // IEC 61966-2-1: 118 is 0.1812; Adobe RGB: 2 + 51/256
    expect(SRGB.curves[0](118 / 255)).toBeCloseTo(0.1812, 4);
    expect(ADOBE_RGB.curves[0](0.5)).toBeCloseTo(0.5 ** 2.19921875, 12);
  });
});
