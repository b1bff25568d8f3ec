import { describe, expect, it } from "vitest";
import { cubeWithPoint, meanIndirect } from "../../reference/cube.ts";
import { cutFace } from "./faces.ts";
import { behindPlates } from "./gather.ts";
import { directOnPatches, gatherPatches, solveExitance } from "./interreflection.ts";

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
    const t = cubeWithPoint(0);
    const g = gatherPatches(t, 1);
    const direct = directOnPatches(t, 0, cutFace(t.scene.emitters[0], 1), 4);
    const { bounced } = solveExitance(t, g, behindPlates(g, t.scene.emitters), direct);
    expect(Math.max(...bounced)).toBe(0);
  });
});
