import { describe, expect, it } from "vitest";
import { meanIndirect } from "../../reference/cube.ts";

describe("[EN3] interreflection", () => {
  // CIE 171:2006 case 5.8: cube of 4 m, 10,000 lm; published to three figures, exact by Phi rho / (S (1 - rho))
  it.each([
    [0.1, 11.5741],
    [0.5, 104.167],
    [0.8, 416.667],
    [0.9, 937.5],
  ])("mean indirect illuminance in a closed cube, reflectance %f", (rho, published) => {
    expect(Math.abs(meanIndirect(rho) / published - 1)).toBeLessThan(0.02);
  });

  it("no reflectance, no bounce", () => {
    expect(meanIndirect(0)).toBe(0);
  });
});
