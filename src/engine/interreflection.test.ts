import { describe, expect, it } from "vitest";
import { cutFace } from "./faces.ts";
import { behindPlates } from "./gather.ts";
import { directOnPatches, gatherPatches, solveExitance } from "./interreflection.ts";
import { type Rgb, SceneBuilder } from "./scene-builder.ts";
import { Tracer } from "./tracer.ts";

function cube(rho: number): Tracer {
  const b = new SceneBuilder();
  const wall: Rgb = [rho, rho, rho];
  b.addRoom([4, 4, 4], [wall, wall, wall, wall, wall, wall], true, 1);
  // two half-space points back to back make an isotropic point
  for (const side of [1, -1]) {
    b.addEmitter({
      shape: "point",
      centre: Float64Array.of(2, 2, 2),
      right: Float64Array.of(1, 0, 0),
      up: Float64Array.of(0, 1, 0),
      forward: Float64Array.of(0, 0, side),
      halfWidth: 0,
      halfHeight: 0,
      sides: 0,
      exponent: 0,
      edgeDrop: 0,
    });
  }
  return new Tracer(b.build());
}

describe("[EN3] interreflection", () => {
  // CIE 171:2006 case 5.8: cube of 4 m, 10,000 lm; published to three figures, exact by Phi rho / (S (1 - rho))
  it.each([
    [0.1, 11.5741],
    [0.5, 104.167],
    [0.8, 416.667],
    [0.9, 937.5],
  ])("mean indirect illuminance in a closed cube, reflectance %f", (rho, published) => {
    const t = cube(rho);
    const g = gatherPatches(t, 12);
    const visible = behindPlates(g, t.scene.emitters);
    let mean = 0;
    for (const light of [0, 1]) {
      const direct = directOnPatches(t, light, cutFace(t.scene.emitters[light], 1), 16);
      const { arriving } = solveExitance(t, g, visible, direct);
      for (let p = 0; p < t.scene.patches.count; p++)
        mean += (5000 * arriving[3 * p] * t.scene.patches.area[p]) / 96;
    }
    expect(Math.abs(mean / published - 1)).toBeLessThan(0.02);
  });

  it("no reflectance, no bounce", () => {
    const t = cube(0);
    const g = gatherPatches(t, 1);
    const direct = directOnPatches(t, 0, cutFace(t.scene.emitters[0], 1), 4);
    const { bounced } = solveExitance(t, g, behindPlates(g, t.scene.emitters), direct);
    expect(Math.max(...bounced)).toBe(0);
  });
});
