/** Area sources through the engine itself, not through the closed forms: a meter under a light, nothing between. */
import { directAtMeter, type Emitter, SceneBuilder, Tracer } from "../src/engine/index.ts";
import { axialExposure } from "../src/photometry/index.ts";
import type { Check } from "./checks.ts";
import { centred, corners, HOWELL, lobes, offAxis, tilted } from "./section5.tables.ts";

const DIRECT = { tolerance: 0.005, why: "direct, unobstructed light is asked to 0.5 %" } as const;
const rad = Math.PI / 180;

function face(change: Partial<Emitter>): Emitter {
  return {
    shape: "disc",
    centre: Float64Array.of(0, 0, 1),
    right: Float64Array.of(1, 0, 0),
    up: Float64Array.of(0, -1, 0),
    forward: Float64Array.of(0, 0, -1),
    halfWidth: 1,
    halfHeight: 1,
    sides: 0,
    exponent: 1,
    edgeDrop: 0,
    distribution: null,
    ...change,
  };
}

/** E / (pi L0) at a point of a diffuser of 1 lm.s: pi L0 = (m + 1) / (2 A). */
function factor(e: Emitter, area: number, p: number[], n: number[]): number {
  const b = new SceneBuilder();
  b.addEmitter(e);
  const f = { sum: 0, x: 0, y: 0, z: 0 };
  return (directAtMeter(new Tracer(b.build()), 0, p, n, f) * 2 * area) / (e.exponent + 1);
}

const disc = (r: number, h: number, exponent = 1) =>
  face({ halfWidth: r, halfHeight: r, centre: Float64Array.of(0, 0, h), exponent });
const discArea = (r: number) => Math.PI * r * r;
const row = (id: string, what: string, published: number, ours: () => number, source = HOWELL): Check => ({
  id,
  what,
  source,
  published,
  ours,
  ...DIRECT,
});

const farDisc: [number, number][] = [
  [1, 25],
  [2, 6.25],
  [3, 2.77778],
  [5, 1],
  [10, 0.25],
];
const farSquare: [number, number][] = [
  [1, 32.9302],
  [2, 8.30162],
  [3, 3.69712],
  [5, 1.33246],
  [10, 0.333278],
];

function rectangle(a: number, b: number, x: number, z: number): Emitter {
  return face({
    shape: "rectangle",
    halfWidth: a / 2,
    halfHeight: b / 2,
    centre: Float64Array.of(x, -b / 2, z),
  });
}

export const checks: Check[] = [
  row("5 axis 1,1", "disc on its axis, r 1 h 1", 0.5, () =>
    factor(disc(1, 1), discArea(1), [0, 0, 0], [0, 0, 1]),
  ),
  row("5 axis .5,1", "disc on its axis, r 0.5 h 1", 0.2, () =>
    factor(disc(0.5, 1), discArea(0.5), [0, 0, 0], [0, 0, 1]),
  ),
  ...offAxis.flatMap(([r, h, a, parallel, across]) => [
    row(`5 off ${r},${h},${a}`, `disc off its axis, parallel, r ${r} h ${h} a ${a}`, parallel, () =>
      factor(disc(r, h), discArea(r), [a, 0, 0], [0, 0, 1]),
    ),
    row(`5 across ${r},${h},${a}`, `disc off its axis, element upright, r ${r} h ${h} a ${a}`, across, () =>
      factor(disc(r, h), discArea(r), [a, 0, 0], [-1, 0, 0]),
    ),
  ]),
  ...tilted.map(([h, tilt, f]) =>
    row(`5 tilt ${h},${tilt}`, `disc, element tilted ${tilt}°, h/r ${h} (B-13)`, f, () =>
      factor(disc(1, h), discArea(1), [0, 0, 0], [Math.sin(tilt * rad), 0, Math.cos(tilt * rad)]),
    ),
  ),
  ...corners.flatMap(([a, b, c, parallel, across]) => [
    row(`5 corner ${a},${b},${c}`, `corner rectangle ${a} × ${b} at ${c}, parallel`, parallel, () =>
      factor(rectangle(a, b, a / 2, c), a * b, [0, 0, 0], [0, 0, 1]),
    ),
    row(
      `5 corner upright ${a},${b},${c}`,
      `corner rectangle ${a} × ${b} at ${c}, on the element's own plane`,
      across,
      () => {
        // the rectangle stands at distance c, a high, b wide, its foot on the element's plane
        const e = face({
          shape: "rectangle",
          halfWidth: b / 2,
          halfHeight: a / 2,
          centre: Float64Array.of(c, b / 2, a / 2),
          right: Float64Array.of(0, 1, 0),
          up: Float64Array.of(0, 0, 1),
          forward: Float64Array.of(-1, 0, 0),
        });
        return factor(e, a * b, [0, 0, 0], [0, 0, 1]);
      },
    ),
  ]),
  ...centred.map(([a, b, c, f]) =>
    row(`5 centred ${a},${b},${c}`, `rectangle ${a} × ${b} facing at ${c}`, f, () =>
      factor(rectangle(a, b, 0, c), a * b, [0, -b / 2, 0], [0, 0, 1]),
    ),
  ),
  ...lobes.map(([m, f]) =>
    row(`5 lobe ${m}`, `disc r 0.5 h 1 with lobe exponent ${m}`, f, () =>
      factor(disc(0.5, 1, m), discArea(0.5), [0, 0, 0], [0, 0, 1]),
    ),
  ),
  ...lobes.map(([m, f]) =>
    row(
      `5 axial ${m}`,
      `the same by the one-dimensional sum that sets "output by meter"`,
      f,
      () => (axialExposure({ shape: "disc", width: 1 }, m, 0, 1, "flat") * 2 * discArea(0.5)) / (m + 1),
    ),
  ),
  ...farDisc.map(([k, percent]) =>
    row(
      `6 disc ${k}`,
      `point formula over a disc at ${k} diameters, 1 + error`,
      1 + percent / 100,
      () => ((0.25 / k ** 2 / 4) * 4) / factor(disc(0.5, k), discArea(0.5), [0, 0, 0], [0, 0, 1]),
      "five-times rule, IES definition 9.1.1; error 1 / (4 k^2) exactly",
    ),
  ),
  ...farSquare.map(([k, percent]) =>
    row(
      `6 square ${k}`,
      `point formula over a square at ${k} sides, 1 + error`,
      1 + percent / 100,
      () => 1 / (Math.PI * k * k) / factor(rectangle(1, 1, 0, k), 1, [0, -0.5, 0], [0, 0, 1]),
      "five-times rule, IES definition 9.1.1",
    ),
  ),
];
