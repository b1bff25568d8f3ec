/** The closed cube of CIE 171:2006 case 5.8: 4 m, all walls alike, 10,000 lm isotropic at the centre. */
import {
  askedFace,
  behindPlates,
  directOnTiles,
  gatherPatches,
  SceneBuilder,
  solveExitance,
  TILES,
  Tracer,
  viewFactors,
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
  const { count, area } = t.scene.patches;
  const g = gatherPatches(t, 12);
  const visible = behindPlates(g, t.scene.emitters);
  const views = viewFactors(g, visible, t.scene.patches);
  let mean = 0;
  for (const light of [0, 1]) {
    const point = askedFace(t.scene.emitters[light], 1, 1);
    const direct = new Float64Array(TILES * count);
    for (let p = 0; p < count; p++) directOnTiles(t, light, point, p, direct);
    const { arriving } = solveExitance(t, g, visible, views, direct);
    for (let p = 0; p < count; p++) mean += (5000 * arriving[3 * p] * area[p]) / 96;
  }
  return mean;
}
