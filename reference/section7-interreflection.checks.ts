/** CIE 171:2006 case 5.8: a closed cube, 10,000 lm isotropic at the centre. */
import {
  behindPlates,
  cutFace,
  directOnPatches,
  gatherPatches,
  SceneBuilder,
  solveExitance,
  Tracer,
} from "../src/engine/index.ts";
import type { Check } from "./checks.ts";

const SOURCE =
  "CIE 171:2006 case 5.8, mean indirect illuminance Phi rho / (S (1 - rho)), exact for the area mean";
const rows: [number, number][] = [
  [0.05, 5.48246],
  [0.1, 11.5741],
  [0.2, 26.0417],
  [0.3, 44.6429],
  [0.5, 104.167],
  [0.7, 243.056],
  [0.8, 416.667],
  [0.9, 937.5],
];

function meanIndirect(rho: number): number {
  const b = new SceneBuilder();
  const wall = [rho, rho, rho] as const;
  b.addRoom([4, 4, 4], [wall, wall, wall, wall, wall, wall], true, 1);
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
  const t = new Tracer(b.build());
  const g = gatherPatches(t, 12);
  const visible = behindPlates(g, t.scene.emitters);
  let mean = 0;
  for (const light of [0, 1]) {
    const direct = directOnPatches(t, light, cutFace(t.scene.emitters[light], 1), 16);
    const { arriving } = solveExitance(t, g, visible, direct);
    for (let p = 0; p < t.scene.patches.count; p++)
      mean += (5000 * arriving[3 * p] * t.scene.patches.area[p]) / 96;
  }
  return mean;
}

export const checks: Check[] = rows.map(([rho, published]) => ({
  id: `7 5.8 ${rho}`,
  what: `mean indirect illuminance in a 4 m cube, reflectance ${rho}, lx`,
  source: SOURCE,
  published,
  ours: () => meanIndirect(rho),
  tolerance: 0.02,
  why: "interreflection is asked to 2 %",
}));
