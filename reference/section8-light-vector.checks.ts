/** Vector over scalar of a uniform cone: a perfect diffuser seen from its axis is one. */
import { directAtMeter, SceneBuilder, Tracer } from "../src/engine/index.ts";
import { coneVectorScalar } from "../src/photometry/index.ts";
import type { Check } from "./checks.ts";

const SOURCE = "Gershun 1936 (tr. Moon and Timoshenko 1939): 2 (1 + cos a)";
const cones: [number, number][] = [
  [10, 3.96962],
  [20, 3.87939],
  [30, 3.73205],
  [45, 3.41421],
  [60, 3],
];

function discSeenUnder(alpha: number): number {
  const b = new SceneBuilder();
  const r = Math.tan((alpha * Math.PI) / 180);
  b.addEmitter({
    shape: "disc",
    centre: Float64Array.of(0, 0, 1),
    right: Float64Array.of(1, 0, 0),
    up: Float64Array.of(0, -1, 0),
    forward: Float64Array.of(0, 0, -1),
    halfWidth: r,
    halfHeight: r,
    sides: 0,
    exponent: 1,
    edgeDrop: 0,
    distribution: null,
  });
  const f = { sum: 0, x: 0, y: 0, z: 0 };
  directAtMeter(new Tracer(b.build()), 0, [0, 0, 0], [0, 0, 1], f);
  return Math.hypot(f.x, f.y, f.z) / (f.sum / 4);
}

export const checks: Check[] = [
  ...cones.map(([a, published]) => ({
    id: `8 cone ${a}`,
    what: `vector/scalar ratio under a disc of half-angle ${a}°`,
    source: SOURCE,
    published,
    ours: () => discSeenUnder(a),
    tolerance: 0.005,
    why: "direct, unobstructed light is asked to 0.5 %",
  })),
  ...(
    [
      [90, 2],
      [120, 1],
      [180, 0],
    ] as const
  ).map(([a, published]) => ({
    id: `8 form ${a}`,
    what: `vector/scalar ratio of a cone of half-angle ${a}°, closed form`,
    source: SOURCE,
    published,
    ours: () => coneVectorScalar((a * Math.PI) / 180),
    tolerance: 1e-9,
    why: "the formula itself",
  })),
];
