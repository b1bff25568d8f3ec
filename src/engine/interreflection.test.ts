import { describe, expect, it } from "vitest";
import { meanIndirect } from "../../reference/cube.ts";
import { behindPlates } from "./gather.ts";
import { gatherPatches, solveExitance } from "./interreflection.ts";
import { TILES } from "./scene.ts";
import { SceneBuilder } from "./scene-builder.ts";
import { Tracer } from "./tracer.ts";
import { viewFactors } from "./view-factors.ts";

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

describe("[EN7] a furnace", () => {
  /** A closed room with a panel in it, everything of one reflectance. */
  function room(rho: number): Tracer {
    const b = new SceneBuilder();
    const look = [rho, rho, rho] as const;
    b.addRoom([5, 4, 3], [look, look, look, look, look, look], true, 1);
    b.addPanel(
      {
        centre: Float64Array.of(2.2, 1.7, 1.3),
        right: Float64Array.of(0.6, 0.8, 0),
        up: Float64Array.of(0, 0, 1),
        forward: Float64Array.of(0.8, -0.6, 0),
      },
      1.2,
      2,
      look,
      0,
      0.45,
    );
    return new Tracer(b.build());
  }

  it.each([0.2, 0.5, 0.9, 0.99])(
    "lit evenly, every surface of reflectance %f receives rho / (1 - rho) more",
    (rho) => {
      const tracer = room(rho);
      const { patches } = tracer.scene;
      const gather = gatherPatches(tracer, 6);
      const visible = behindPlates(gather, []);
      const views = viewFactors(gather, visible, patches);
      // rows that miss closure by a part in a thousand, at 1 / (1 - rho) bounces: the scaling's own accuracy
      for (let i = 0; i < patches.count; i++) expect(Math.abs(views.met[i] - 1)).toBeLessThan(1e-3);
      const even = new Float64Array(TILES * patches.count).fill(1);
      const { arriving } = solveExitance(tracer, gather, visible, views, even);
      const exact = rho / (1 - rho);
      for (let i = 0; i < patches.count; i++)
        expect(Math.abs(arriving[3 * i] / exact - 1)).toBeLessThan(0.005);
    },
  );

  it("what i sends j is what j sends i, area for area", () => {
    const tracer = room(0.5);
    const { patches } = tracer.scene;
    const gather = gatherPatches(tracer, 6);
    const { offset, column, factor } = viewFactors(gather, behindPlates(gather, []), patches);
    const at = new Map<string, number>();
    for (let i = 0; i < patches.count; i++)
      for (let k = offset[i]; k < offset[i + 1]; k++)
        at.set(`${i} ${column[k]}`, patches.area[i] * factor[k]);
    for (const [key, value] of at) {
      const [i, j] = key.split(" ");
      expect(at.get(`${j} ${i}`)).toBeCloseTo(value, 12);
    }
  });
});
