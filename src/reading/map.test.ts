/** Maps of power and direction, in both planes. */
import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import { fieldsAt, totalField } from "./field.ts";
import { computeMap, type FieldMap, type MapRequest, Memory } from "./index.ts";
import { lightUp } from "./lighting.ts";
import { turnedDome } from "./map.ts";
import { evenOut, FIELD } from "./map-even.ts";

function made(parts: object): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    camera: { position: [3, 1, 1.5], direction: { bearing: 0, tilt: 0 }, focalLength: 85, fNumber: 8 },
    ...parts,
  });
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}

const ROOM = { width: 6, depth: 8, height: 3 };
const [ACROSS, HEIGHT] = [3.05, 1.525];

const studio = (parts: object = {}) =>
  made({
    room: ROOM,
    lights: [
      {
        name: "key",
        position: [4.2, 3, 2.3],
        direction: { at: [3, 4.4, 1.5] },
        face: { shape: "polygon", sides: 8, width: 1.2 },
        output: { lumenSeconds: 900 },
      },
    ],
    panels: [
      {
        name: "V-flat",
        position: [2.2, 4.4, 1.2],
        direction: { bearing: 100, tilt: 0 },
        width: 1.2,
        height: 2.4,
        reflectance: 0.04,
      },
    ],
    people: [{ name: "sitter", position: [3.4, 4.6], stature: 1.7, facing: 180 }],
    meters: [
      { name: "paper", position: [3, 6.5, 1.4], direction: { bearing: 180 }, receptor: "dome" },
      { name: "inside", position: [3.4, 4.6, 1.55], direction: { bearing: 180 }, receptor: "dome" },
    ],
    ...parts,
  });

const memory = new Memory();
const map = (plan: Plan, part: Partial<MapRequest>, quality: "coarse" | "fine" = "fine") =>
  computeMap(
    plan,
    { plane: "floor", at: HEIGHT, person: 0, reference: { kind: "person", index: 0 }, ...part, quality },
    memory,
  );

const RADIANS = Math.PI / 180;
function way(m: FieldMap, cell: number): number[] {
  const [b, t] = [m.bearing[cell] * RADIANS, m.tilt[cell] * RADIANS];
  return [Math.cos(t) * Math.sin(b), Math.cos(t) * Math.cos(b), Math.sin(t)];
}

/** Exposure and vector at a point, read straight between the four cells round it. */
function near(m: FieldMap, across: number, up: number): number[] {
  const [i, j] = [(across - m.across0) / m.dAcross, (up - m.up0) / m.dUp];
  const [i0, j0] = [Math.floor(i), Math.floor(j)];
  const out = [0, 0, 0, 0];
  for (const [di, dj] of [
    [0, 0],
    [1, 0],
    [0, 1],
    [1, 1],
  ]) {
    const cell = (j0 + dj) * m.columns + i0 + di;
    const weight = Math.abs(1 - di - (i - i0)) * Math.abs(1 - dj - (j - j0));
    // dome = sum / 2 + vector / 2, and ratio = vector / (sum / 4)
    const sum = (2 * m.luxSeconds[cell]) / (1 + m.vectorScalarRatio[cell] / 4);
    const vector = (sum * m.vectorScalarRatio[cell]) / 4;
    out[0] += weight * m.luxSeconds[cell];
    way(m, cell).forEach((value, k) => {
      out[1 + k] += weight * vector * value;
    });
  }
  return out;
}

describe("a map", () => {
  it("[AP32] of the Floor agrees with one of the Side where the planes cross", () => {
    const plan = studio();
    const floor = map(plan, {});
    const side = map(plan, { plane: "side", at: ACROSS });
    let parted = 0;
    for (let y = 0.3; y < 7.8; y += 0.1) {
      const a = near(floor, ACROSS, y);
      const b = near(side, y, HEIGHT);
      const apart = b.reduce((sum, value, k) => sum + (value - a[k]) ** 2, 0) ** 0.5 / b[0];
      // sum and vector, from two grids that look round in other directions: a tenth of a stop is 7 %
      expect(apart).toBeLessThan(0.07);
      parted = Math.max(parted, apart);
    }
    expect(parted).toBeGreaterThan(0);
  });

  it("[AP32] of a bare point in open space is the inverse square law, and leads to the point, in both planes", () => {
    const point = [2, 3, 2.2];
    const plan = made({
      lights: [
        {
          name: "bare",
          position: point,
          direction: { bearing: 0, tilt: 0 },
          face: { shape: "point" },
          beam: { exponent: 0 },
          output: { lumenSeconds: 1000 },
        },
      ],
    });
    for (const [plane, at] of [
      ["floor", 1.5],
      ["side", 3],
    ] as const) {
      const m = map(plan, { plane, at });
      let ahead = 0;
      for (let j = 0; j < m.rows; j++)
        for (let i = 0; i < m.columns; i++) {
          const [across, up] = [m.across0 + i * m.dAcross, m.up0 + j * m.dUp];
          const p = plane === "floor" ? [across, up, at] : [at, across, up];
          const to = point.map((value, k) => value - p[k]);
          const d = Math.hypot(...to);
          const cell = j * m.columns + i;
          // exponent 0 sends evenly into the half in front: 1000 lm.s over 2 pi
          const expected = to[1] < 0 ? 1000 / (2 * Math.PI * d * d) : 0;
          if (Math.abs(to[1]) < 1e-6) continue;
          expect(m.luxSeconds[cell]).toBeCloseTo(expected, 4);
          if (expected === 0) continue;
          ahead++;
          expect(m.vectorScalarRatio[cell]).toBeCloseTo(4, 4);
          way(m, cell).forEach((value, k) => void expect(value).toBeCloseTo(to[k] / d, 4));
        }
      expect(ahead).toBeGreaterThan(500);
    }
  });

  it("[AP31] from another reference differs in its stops by one amount, and in nothing else", () => {
    const plan = studio();
    const face = map(plan, {}, "coarse");
    const meter = map(plan, { reference: { kind: "meter", index: 0 } }, "coarse");
    const shift = meter.stops[0] - face.stops[0];
    // the paper is darker than the face, so everything is more stops above it
    expect(shift).toBeGreaterThan(0.5);
    face.stops.forEach((stops, i) => void expect(meter.stops[i] - stops).toBeCloseTo(shift, 5));
    expect(meter.luxSeconds).toEqual(face.luxSeconds);
    expect(meter.bearing).toEqual(face.bearing);
    expect(meter.referenceFStops).not.toBe(face.referenceFStops);
  });

  it("[AP31] says no reading where no light arrives at its reference", () => {
    const dark = studio();
    dark.lights[0].on = false;
    expect(map(dark, {}, "coarse").referenceFStops).toBe("no reading");
    expect(map(studio(), {}, "coarse").referenceFStops).toMatch(/^f\/\d/);
  });
});

describe("[AP33] grain", () => {
  it("is a fiftieth of a stop, and nowhere a tenth, against walls and panels taken tile by tile in closed form", () => {
    const plan = studio();
    const lighting = lightUp(plan, "fine", memory, 0);
    for (const [plane, at] of [
      ["floor", HEIGHT],
      ["side", ACROSS],
    ] as const) {
      const m = map(plan, { plane, at });
      const cells: number[] = [];
      for (let j = 2; j < m.rows; j += 8)
        for (let i = j % 7; i < m.columns; i += 8) cells.push(m.columns * j + i);
      const spots = cells.map((cell) => {
        const across = m.across0 + (cell % m.columns) * m.dAcross;
        const up = m.up0 + Math.floor(cell / m.columns) * m.dUp;
        const position = plane === "floor" ? ([across, up, at] as const) : ([at, across, up] as const);
        return { position, direction: [0, 0, 1] as const };
      });
      const true_ = fieldsAt(lighting, `true ${plane}`, spots, 1024, "meter");
      const off = cells.map((cell, k) =>
        Math.abs(Math.log2(m.luxSeconds[cell] / turnedDome(totalField(lighting, true_[k])))),
      );
      const rms = Math.sqrt(off.reduce((sum, value) => sum + value * value, 0) / off.length);
      expect(off.length).toBeGreaterThan(50);
      expect(rms).toBeLessThan(0.02);
      off.sort((a, b) => a - b);
      expect(off[Math.floor(0.95 * off.length)]).toBeLessThan(0.05);
      expect(off.at(-1)).toBeLessThan(0.1);
    }
  });
});

it("[AP32] has cells that are nearly square, 60 x 60 in all when fine", () => {
  for (const m of [map(studio(), {}), map(studio(), { plane: "side", at: ACROSS })]) {
    expect(Math.abs(m.columns * m.rows - 3600)).toBeLessThan(60);
    expect(Math.abs(Math.log2(m.dAcross / m.dUp))).toBeLessThan(0.05);
  }
});

describe("[AP33] evening out", () => {
  const [columns, rows] = [60, 60];
  const open = Uint8Array.from({ length: 3600 }, (_, k) => (k % 60 < 59 ? 1 : 0) | (k < 3540 ? 2 : 0));
  const filled = (value: (i: number, j: number) => number) => {
    const out = new Float64Array(FIELD * 3600);
    for (let k = 0; k < 3600; k++) out.fill(value(k % 60, Math.floor(k / 60)), FIELD * k, FIELD * (k + 1));
    return out;
  };
  const three = (values: Float64Array, ways = open) => {
    evenOut(values, { columns, rows }, ways, 3);
    return values;
  };

  it("leaves what rises evenly as it is, to the very edge", () => {
    const slope = (i: number, j: number) => 100 + 3 * i - 1.2 * j;
    const before = filled(slope);
    three(filled(slope)).forEach((value, k) => void expect(value).toBeCloseTo(before[k], 9));
  });

  it("moves no line by a twentieth of the way to the next, even round a bright patch a metre and a half off", () => {
    // cells of a room 7 m by 9 m; the whole of the light counts as bounced
    const glow = (i: number, j: number) =>
      1 / (1.5 ** 2 + (7 * (i / 60 - 0.5)) ** 2 + (9 * (j / 60 - 0.5)) ** 2);
    const before = filled(glow);
    const after = three(filled(glow));
    const moved = after.map((value, k) => Math.abs(Math.log2(value / before[k])));
    expect(Math.max(...moved)).toBeLessThan(0.05);
    // and it does even out: a chequer of a tenth all but goes
    const rough = three(filled((i, j) => 1 + ((i + j) % 2 ? 0.1 : -0.1)));
    expect(Math.abs(rough[FIELD * (60 * 30 + 30)] - 1)).toBeLessThan(0.001);
  });

  it("carries nothing through a sheet", () => {
    const shut = open.slice();
    for (let j = 0; j < rows; j++) shut[60 * j + 29] &= ~1;
    const after = three(
      filled((i) => (i < 30 ? 1 : 100)),
      shut,
    );
    for (let k = 0; k < 3600; k++) expect(after[FIELD * k]).toBe(k % 60 < 30 ? 1 : 100);
  });
});
