/** Cameras, lights and heads anywhere: nothing that is told is ever other than a number. */
import { describe, expect, it } from "vitest";
import { Pcg32 } from "../math/index.ts";
import { checkPlan } from "../plan/index.ts";
import { viewfinder } from "./camera-rays.ts";
import { readCatchlights } from "./catchlights.ts";
import { readGlasses } from "./glasses.ts";
import { lightUp } from "./lighting.ts";
import { Memory } from "./memory.ts";

const PLANS = 12;

describe("[CT10] wherever camera, lights and head stand", () => {
  it.each(Array.from({ length: PLANS }, (_, i) => i))("plan %i of a seeded row holds numbers", (seed) => {
    const random = new Pcg32(seed, 71);
    const between = (low: number, high: number) => low + (high - low) * random.next();
    const point = () => [between(0.3, 5.7), between(0.3, 5.7), between(0.2, 2.8)];
    const light = (face: object) => ({
      position: point(),
      direction: { at: [between(2.5, 3.5), between(2.5, 3.5), between(1.2, 1.8)] },
      face,
      output: { lumenSeconds: between(100, 3000) },
    });
    const made = checkPlan({
      format: "tapemark/plan",
      version: 1,
      room: { width: 6, depth: 6, height: 3 },
      lights: [
        light({ shape: "disc", width: between(0.1, 1.5) }),
        light({ shape: "rectangle", width: between(0.1, 1.5), height: between(0.1, 1.5) }),
        light({ shape: "polygon", sides: 3 + (seed % 6), width: between(0.3, 1.5) }),
        light({ shape: "point" }),
      ],
      panels: [{ position: point(), direction: { bearing: between(0, 360) } }],
      backdrop: { kind: "paper", position: [3, 5.5] },
      people: [
        {
          position: [3, 3],
          facing: between(0, 360),
          head: { turn: between(-40, 40), tip: between(-25, 25), tilt: between(-20, 20) },
          glasses: {
            curve: between(0, 10),
            wrap: between(0, 20),
            tilt: between(-5, 15),
            coated: seed % 2 === 0,
          },
        },
      ],
      camera: {
        position: point(),
        direction: { at: [3, 3, 1.6] },
        roll: between(-90, 90),
        focalLength: between(20, 300),
      },
    });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const lighting = lightUp(made.plan, "coarse", new Memory());
    const all = readCatchlights(lighting, 0, viewfinder(made.plan.camera, 1000));
    for (const c of all) {
      expect(c.clock).toBeGreaterThan(0);
      expect(c.clock).toBeLessThanOrEqual(12);
      for (const size of [c.widthMillimetres, c.heightMillimetres]) {
        expect(size).toBeGreaterThanOrEqual(0);
        // an iris is 11.8 mm wide, and an eye seen from aside shows its dome beyond
        expect(size).toBeLessThan(16);
      }
      for (const pixels of [c.widthPixels, c.heightPixels]) expect(Number.isFinite(pixels)).toBe(true);
      for (const [x, y] of c.outline) expect(Math.hypot(x, y)).toBeLessThan(1.5);
      if (c.visible) expect(c.outline.length).toBeGreaterThan(0);
    }
    const glasses = readGlasses(lighting, 0);
    for (const r of glasses?.reflections ?? []) {
      expect(r.share).toBeGreaterThanOrEqual(0);
      expect(r.share).toBeLessThanOrEqual(1);
    }
  });
});
