import { describe, expect, it } from "vitest";
import { directAtMeter, type Emitter, intensityPerLumen, SceneBuilder, Tracer } from "../engine/index.ts";
import { exposureOfReading, METER_CONSTANT } from "../photometry/index.ts";
import { checkPlan, type Plan } from "../plan/index.ts";
import { emitterOf, luminousEnergyOf } from "./lights.ts";

function lamp(vertical: number[], horizontal: number[], planes: number[][], opening = "0 0 0"): string {
  return [
    "IES:LM-63-2019",
    "TILT=NONE",
    `1 -1 1 ${vertical.length} ${horizontal.length} 1 2 ${opening}`,
    "1 1 0",
    vertical.join(" "),
    horizontal.join(" "),
    ...planes.map((plane) => plane.join(" ")),
  ].join("\n");
}

/** Faces the far wall from the origin, unless the light says otherwise. */
function staged(text: string, light: object = {}): { plan: Plan; emitter: Emitter; energy: number } {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    photometry: { "lamp.ies": text },
    lights: [
      {
        position: [0, 0, 0],
        direction: { bearing: 0, tilt: 0 },
        beam: { photometry: "lamp.ies" },
        output: { lumenSeconds: 1 },
        ...light,
      },
    ],
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  const { plan } = checked;
  return {
    plan,
    emitter: emitterOf(plan.lights[0], plan),
    energy: luminousEnergyOf(plan.lights[0], plan),
  };
}

/** Exposure of one lumen-second at p on a flat receptor that faces along n, by the engine. */
function exposureAt(emitter: Emitter, p: number[], n: number[]): number {
  const scene = new SceneBuilder();
  scene.addEmitter(emitter);
  const field = { sum: 0, x: 0, y: 0, z: 0 };
  return directAtMeter(new Tracer(scene.build()), 0, p, n, field);
}

/** 400 cd toward horizontal angle 0, 300 at 90, 200 at 180, 100 at 270; the same along each quarter plane. */
const FOUR = lamp(
  [0, 90],
  [0, 90, 180, 270, 360],
  [400, 300, 200, 100, 400].map((cd) => [cd, cd]),
);

describe("[ST1] horizontal angle 0 of a photometric file is the light's up, and 90 its left as seen from behind", () => {
  const SLANT = Math.SQRT1_2;
  const toward = (emitter: Emitter, x: number, z: number) =>
    exposureAt(emitter, [SLANT * x, SLANT, SLANT * z], [-SLANT * x, -SLANT, -SLANT * z]);
  it("looking into the set", () => {
    const { emitter } = staged(FOUR);
    const up = toward(emitter, 0, 1);
    // 1e-9: looked up in the table, nothing in between
    expect(toward(emitter, -1, 0) / up).toBeCloseTo(300 / 400, 9);
    expect(toward(emitter, 0, -1) / up).toBeCloseTo(200 / 400, 9);
    expect(toward(emitter, 1, 0) / up).toBeCloseTo(100 / 400, 9);
    const [s, c] = [Math.sin(Math.PI / 6), Math.cos(Math.PI / 6)];
    expect(toward(emitter, -s, c) / up).toBeCloseTo((400 - 100 / 3) / 400, 9);
  });
  it("roll turns it clockwise seen from behind", () => {
    const { emitter } = staged(FOUR, { roll: 90 });
    const best = toward(emitter, 1, 0);
    expect(toward(emitter, 0, 1) / best).toBeCloseTo(300 / 400, 9);
    expect(toward(emitter, -1, 0) / best).toBeCloseTo(200 / 400, 9);
  });
  it("straight down, as luminaires hang: counterclockwise from above, length along 0", () => {
    const { emitter, plan } = staged(FOUR.replace("2 0 0 0", "2 0.2 0.9 0"), {
      direction: { bearing: 0, tilt: -90 },
    });
    expect(plan.lights[0].face).toEqual({ shape: "rectangle", width: 0.2, height: 0.9 });
    // far enough away for the front to be a point, 0.1 %
    const at = (x: number, y: number) => exposureAt(emitter, [300 * x, 300 * y, -300], [0, 0, 1]);
    expect(at(-1, 0) / at(0, 1)).toBeCloseTo(300 / 400, 3);
    expect(at(1, 0) / at(0, 1)).toBeCloseTo(100 / 400, 3);
  });
});

describe("[ST2] one lumen-second leaves a light with a photometric file, however it is spread", () => {
  const BOTH = lamp(
    [0, 30, 80, 120, 180],
    [0, 60, 180],
    [
      [900, 800, 100, 300, 50],
      [900, 500, 300, 0, 50],
      [900, 700, 200, 90, 50],
    ],
  );
  /** Over all directions, in 400 x 400 patches of the same size. */
  function leaving(emitter: Emitter): number {
    const d = emitter.distribution;
    if (!d) throw new Error("no distribution");
    const n = 400;
    let sum = 0;
    for (let i = 0; i < n; i++) {
      const forward = (2 * i + 1) / n - 1;
      const across = Math.sqrt(1 - forward * forward);
      for (let j = 0; j < n; j++) {
        const a = ((j + 0.5) / n) * 2 * Math.PI;
        sum += intensityPerLumen(d, forward, across * Math.cos(a), across * Math.sin(a));
      }
    }
    return (sum * 4 * Math.PI) / (n * n);
  }
  it("all round from a point, forward only from a front (0.02 %, patches of half a degree)", () => {
    const point = staged(BOTH).emitter;
    const front = staged(BOTH, { face: { shape: "disc", width: 1 } }).emitter;
    for (const emitter of [point, front]) expect(Math.abs(leaving(emitter) - 1)).toBeLessThan(2e-4);
    expect(exposureAt(point, [0.3, -2, 0], [0, 1, 0])).toBeGreaterThan(0);
    expect(exposureAt(front, [0.3, -2, 0], [0, 1, 0])).toBe(0);
  });

  it("near a front every part of it spreads so: a plain sum over 300 x 300 squares agrees (0.2 %)", () => {
    const { emitter } = staged(BOTH, { face: { shape: "rectangle", width: 0.8, height: 0.5 } });
    for (const p of [
      [0.1, 0.4, 0.2],
      [-0.9, 0.3, 0.5],
    ]) {
      const n = 300;
      let sum = 0;
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < n; j++) {
          const x = p[0] - 0.8 * ((i + 0.5) / n - 0.5);
          const z = p[2] - 0.5 * ((j + 0.5) / n - 0.5);
          const r = Math.hypot(x, p[1], z);
          const perLumen = intensityPerLumen(emitter.distribution!, p[1] / r, x / r, z / r);
          sum += (perLumen * (p[1] / r)) / (r * r) / (n * n);
        }
      }
      expect(exposureAt(emitter, p, [0, -1, 0]) / sum).toBeCloseTo(1, 2.7);
    }
  });
});

describe("[ST3] output by meter and by guide number is that of the photometric file's axis", () => {
  const COSINE = lamp(
    Array.from({ length: 91 }, (_, v) => v),
    [0],
    [Array.from({ length: 91 }, (_, v) => 1000 * Math.max(0, Math.cos((v * Math.PI) / 180)))],
  );
  const NARROW = lamp([0, 20, 90], [0], [[1000, 100, 0]]);
  const disc = { face: { shape: "disc", width: 1 } };
  const lobe = { beam: { exponent: 1 } };
  it.each([
    ["a guide number", { guideNumber: 32, stopsDown: 1 }],
    ["a flat meter near by", { meter: { fNumber: 8, distance: 0.6 } }],
    ["a dome far away", { meter: { fNumber: 11, distance: 4, receptor: "dome" } }],
  ])("%s: a cosine file is the perfect diffuser of the same front (0.1 %)", (_, output) => {
    const byFile = staged(COSINE, { ...disc, output }).energy;
    const byLobe = staged(COSINE, { ...disc, ...lobe, output }).energy;
    expect(byFile / byLobe).toBeCloseTo(1, 3);
  });
  it("a narrow point: the meter reads again what it read", () => {
    const output = { meter: { fNumber: 8, iso: 200, distance: 3 } };
    const { emitter, energy } = staged(NARROW, { output });
    const read = energy * exposureAt(emitter, [0, 3, 0], [0, -1, 0]);
    expect(read / exposureOfReading(8, 200, METER_CONSTANT.flat)).toBeCloseTo(1, 9);
  });
  it("an output by energy does not ask the file", () => {
    expect(staged(NARROW, { output: { lumenSeconds: 321 } }).energy).toBe(321);
  });
});
