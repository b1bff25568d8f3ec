/** Laws that hold whatever the numbers are: mirror, shift, sum, uniform light, nothing there. */
import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import { developFrame, Memory, metersInsideBodies, readPlan, renderFrame } from "./index.ts";

function plan(change: object = {}): Plan {
  const made = checkPlan({
    format: "tapemark/plan",
    version: 1,
    lights: [
      {
        name: "key",
        position: [4, 2, 2.3],
        direction: { at: [3, 3, 1.55] },
        face: { shape: "disc", width: 0.6 },
        output: { lumenSeconds: 2000 },
      },
    ],
    people: [{ name: "sitter", position: [3, 3], stature: 1.7 }],
    camera: { position: [3, 1, 1.55], direction: { at: [3, 3, 1.55] } },
    meters: [{ name: "nose", position: [3, 2.8, 1.55], direction: { at: [4, 2, 2.3] } }],
    ...change,
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.plan;
}

describe("[RD4] laws", () => {
  it("mirror the light and the reading mirrors", () => {
    const right = readPlan(plan(), "fine").people[0].face;
    const mirrored = plan();
    mirrored.lights[0].position[0] = 2;
    const left = readPlan(mirrored, "fine").people[0].face;
    expect(right.litSide).toBe("left");
    expect(left.litSide).toBe("right");
    expect(left.pattern).toBe(right.pattern);
    // the figure is symmetric; its samples, taken in mesh order, are not: two percent
    expect(left.litCheek / right.litCheek).toBeCloseTo(1, 1);
    expect((left.light.azimuth ?? 0) + (right.light.azimuth ?? 0)).toBeCloseTo(0, 1);
  });

  it("shift everything and nothing changes", () => {
    const here = readPlan(plan(), "fine");
    const moved = plan();
    for (const thing of [...moved.lights, ...moved.meters, ...moved.people, moved.camera])
      thing.position[0] += 40;
    for (const thing of [moved.lights[0], moved.camera, moved.meters[0]])
      if ("at" in thing.direction) thing.direction.at[0] += 40;
    const there = readPlan(moved, "fine");
    expect(there.people[0].face.pattern).toBe(here.people[0].face.pattern);
    expect(there.meters[0].luxSeconds / here.meters[0].luxSeconds).toBeCloseTo(1, 4);
  });

  it("two lights are the sum of each alone; a light that is off is not named", () => {
    const second = {
      name: "fill",
      position: [2, 1, 1.6],
      direction: { at: [3, 3, 1.5] },
      face: { shape: "rectangle", width: 1, height: 1 },
      output: { lumenSeconds: 900 },
    };
    const [key] = plan().lights;
    const at = (lights: object[]) => readPlan(plan({ lights }), "coarse").meters[0];
    const both = at([key, second]);
    expect(both.byLight.key.direct).toBeCloseTo(at([key]).byLight.key.direct, 9);
    expect(Object.keys(at([key, { ...second, on: false }]).byLight)).toEqual(["key"]);
  });

  it("uniform ambient light reads as flat, twice that on a dome, and has no direction", () => {
    const dark = { lights: [], people: [], ambient: { lux: 1000 } };
    const [flat, dome] = readPlan(
      plan({
        ...dark,
        meters: [
          { name: "flat", position: [0, 0, 1], direction: { bearing: 0 } },
          { name: "dome", position: [0, 0, 1], direction: { bearing: 0 }, receptor: "dome" },
        ],
      }),
      "fine",
    ).meters;
    expect(flat.luxSeconds).toBeCloseTo(6.25, 9);
    expect(dome.luxSeconds).toBeCloseTo(12.5, 9);
    expect(flat.scalarLuxSeconds).toBeCloseTo(6.25, 9);
    expect(flat.vector.bearing).toBeNull();
    expect(flat.byLight.ambient).toEqual({ direct: 6.25, bounced: 0 });
  });

  it("nothing there: no reading, pattern dark", () => {
    const reading = readPlan(plan({ lights: [] }), "fine");
    expect(reading.meters[0]).toMatchObject({ luxSeconds: 0, fNumber: 0, fStops: "no reading" });
    expect(reading.people[0].face).toMatchObject({ pattern: "dark", litSide: "even", ratioStops: null });
  });

  it("a meter inside a body is named; one in front of the chin is not", () => {
    expect(metersInsideBodies(plan())).toEqual([]);
    const inside = plan();
    inside.meters[0].position = [3, 3, 1.3];
    expect(metersInsideBodies(inside)[0].path).toBe("meters[0].position");
  });
});

describe("[RD5] the frame", () => {
  it("a fine frame of the width that a reading takes its own small coarse one at is fine all the same", () => {
    const after = new Memory();
    readPlan(plan(), "fine", after);
    const frame = renderFrame(plan(), { width: 120, quality: "fine" }, after);
    expect(frame.luminance).toEqual(
      renderFrame(plan(), { width: 120, quality: "fine" }, new Memory()).luminance,
    );
  });
  it("under a large near front every pixel of a wall is within half a percent of a sum of 10,000 parts", () => {
    const soft = plan({
      people: [],
      lights: [
        {
          name: "key",
          position: [3, 3, 1.5],
          direction: { bearing: 0 },
          face: { shape: "disc", width: 1.5 },
          output: { lumenSeconds: 1000 },
        },
      ],
      room: { width: 6, depth: 5, height: 3, reflectance: { far: 0.5 }, bounce: false },
      camera: { position: [4.5, 0.5, 1.5], direction: { at: [4.5, 5, 1.5] }, focalLength: 85 },
    });
    const frame = renderFrame(soft, { width: 24, quality: "fine" }, new Memory());
    for (const [px, py] of [
      [0, 0],
      [12, 18],
      [23, 35],
    ]) {
      // the wall y = 5 is seen square on from 4.5 m: sensor 24 x 36 mm over 85 mm
      const x = 4.5 + 4.5 * (24 / 85) * ((px + 0.5) / 24 - 0.5);
      const z = 1.5 - 4.5 * (36 / 85) * ((py + 0.5) / 36 - 0.5);
      let sum = 0;
      const rings = 50;
      for (let i = 0; i < rings; i++) {
        for (let k = 0; k < 200; k++) {
          const r = 0.75 * Math.sqrt((i + 0.5) / rings);
          const a = (2 * Math.PI * (k + 0.5)) / 200;
          const d2 = (3 + r * Math.cos(a) - x) ** 2 + 4 + (1.5 + r * Math.sin(a) - z) ** 2;
          sum += 4 / (d2 * d2) / (rings * 200);
        }
      }
      const byHand = ((0.5 / Math.PI) * 1000 * sum) / Math.PI;
      expect(Math.abs(frame.luminance[3 * (py * 24 + px)] / byHand - 1)).toBeLessThan(0.005);
    }
  });

  it("a white wall under a known exposure has luminance rho H / pi, and clips exactly at its limit", () => {
    // a point light 4 m before a wall: at the foot of the axis H = I / d^2, I = Q / pi for exponent 1
    const open = plan({
      people: [],
      lights: [
        {
          name: "key",
          position: [3, 1, 1.5],
          direction: { bearing: 0 },
          face: { shape: "point" },
          output: { lumenSeconds: 1000 * Math.PI },
        },
      ],
      room: { width: 6, depth: 5, height: 3, reflectance: { far: 0.5 }, bounce: false },
      camera: { position: [3, 0.5, 1.5], direction: { bearing: 0 }, focalLength: 400 },
    });
    const frame = renderFrame(open, { width: 40, quality: "fine" }, new Memory());
    const middle = 3 * (30 * 40 + 20);
    const byHand = (0.5 * (1000 / 16)) / Math.PI;
    expect(frame.luminance[middle] / byHand).toBeCloseTo(1, 3);
    // Hf = 0.65 L / N^2 against (10 / S) 2^2.96
    const limit = Math.sqrt((0.65 * byHand) / (0.1 * 2 ** 2.96));
    const under = developFrame(frame, { ...open.camera, fNumber: limit * 1.01 });
    const over = developFrame(frame, { ...open.camera, fNumber: limit * 0.99 });
    expect(under.clipped[30 * 40 + 20]).toBe(0);
    expect(over.clipped[30 * 40 + 20]).toBe(1);
    expect(over.rgba[4 * (30 * 40 + 20)]).toBe(255);
    expect(under.rgba[4 * (30 * 40 + 20)]).toBeLessThan(255);
    expect(frame.badSamples).toBe(0);
  });
});
