/** The closed cube of CIE 171:2006 case 5.8: 4 m, all walls alike, 10,000 lm isotropic at the centre. */
import {
  behindPlates,
  cutFace,
  directOnPatches,
  gatherPatches,
  SceneBuilder,
  solveExitance,
  Tracer,
} from "../src/engine/index.ts";

export function cubeWithPoint(rho: number): Tracer {
  const b = new SceneBuilder();
  const wall = [rho, rho, rho] as const;
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
      distribution: null,
    });
  }
  return new Tracer(b.build());
}

/** Area mean of the illuminance that arrives after at least one reflection, lx. */
export function meanIndirect(rho: number): number {
  const t = cubeWithPoint(rho);
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
