import { describe, expect, it } from "vitest";
import {
  beamAngle,
  checkPlan,
  energyShareOnGrid,
  exponentOfAngle,
  type Light,
  outputOnGrid,
} from "./index.ts";

function light(output: object, exponent = 1): Light {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    lights: [
      {
        position: [0, 0, 2],
        direction: { bearing: 0 },
        face: { shape: "disc", width: 1 },
        beam: { exponent },
        output,
      },
    ],
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan.lights[0];
}

/** Energy of a cos^m lobe of axial intensity 1, added up in rings. */
function energyByRings(exponent: number): number {
  const rings = 20_000;
  let sum = 0;
  for (let i = 0; i < rings; i++) {
    const angle = ((i + 0.5) / rings) * (Math.PI / 2);
    sum += Math.cos(angle) ** exponent * 2 * Math.PI * Math.sin(angle) * (Math.PI / 2 / rings);
  }
  return sum;
}

describe("[AP52] a beam is said by its full angle at half intensity", () => {
  it("a perfect diffuser has 120 degrees, an even half-space 180", () => {
    expect(beamAngle(1)).toBeCloseTo(120, 12);
    expect(exponentOfAngle(120)).toBe(1);
    expect(beamAngle(0)).toBeCloseTo(180, 12);
    expect(exponentOfAngle(180)).toBe(0);
  });
  it.each([20, 40, 60, 90, 150])("half of the axis is left %f degrees across", (angle) => {
    const half = (angle / 2) * (Math.PI / 180);
    expect(Math.cos(half) ** exponentOfAngle(angle)).toBeCloseTo(0.5, 12);
  });
  it("exactly to and fro", () => {
    for (let m = 0.25; m <= 60; m *= 1.3) expect(exponentOfAngle(beamAngle(m)) / m).toBeCloseTo(1, 10);
  });
});

describe("[AP52] a grid keeps the luminance on the axis", () => {
  it.each([
    [1, 4.8188],
    [1, 11.2],
    [3, 1],
  ])("from exponent %f to %f the energy is that of the lobes, ring by ring", (from, to) => {
    // 2e-6: the midpoint rule over 20,000 rings
    expect(energyShareOnGrid(from, to) / (energyByRings(to) / energyByRings(from))).toBeCloseTo(1, 5);
  });
  it("what leaves falls; on and off again is the same light", () => {
    const m = exponentOfAngle(40);
    const bare = light({ lumenSeconds: 800 });
    const { output } = outputOnGrid(bare, m);
    expect(output).toEqual({ lumenSeconds: (800 * 2) / (m + 1) });
    const gridded = { ...bare, output, beam: { ...bare.beam, exponent: m } };
    expect((outputOnGrid(gridded, 1).output as { lumenSeconds: number }).lumenSeconds).toBeCloseTo(800, 9);
  });
  it("of a head it is the share that leaves, never more than all", () => {
    const head = light({ wattSeconds: 400, stopsDown: 2 });
    expect(outputOnGrid(head, 3)).toMatchObject({
      output: { efficiency: 0.275, stopsDown: 2 },
      axisStops: 0,
    });
    const reflector = light({ wattSeconds: 400 }, 9);
    const wide = outputOnGrid(reflector, 1);
    expect(wide.output).toMatchObject({ efficiency: 1 });
    // 5 times 0.55 would have to leave
    expect(wide.axisStops).toBeCloseTo(-Math.log2(2.75), 9);
  });
  it("what is measured on the axis stays", () => {
    for (const output of [{ guideNumber: 40 }, { meter: { fNumber: 8, distance: 2 } }]) {
      const one = light(output);
      expect(outputOnGrid(one, 20).output).toBe(one.output);
    }
  });
});
