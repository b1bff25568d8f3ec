/** Rays that look round from points of skin, cloth or paper: lifted position and normal in the world, 6 numbers a point. */
import { emptyGather, type Gather, rotate, type Tracer, traceGatherRay } from "../engine/index.ts";
import { writeSpherePoint } from "../math/index.ts";

/** Points of a body set into the world: xyz lifted `lift` metres off the surface, then the unit normal. */
export function liftedPoints(
  rotation: Float64Array,
  offset: Float64Array,
  positions: Float64Array,
  normals: Float64Array,
  count: number,
  lift: number,
): Float64Array {
  const out = new Float64Array(6 * count);
  for (let i = 0; i < count; i++) {
    rotate(rotation, positions, 3 * i, out, 6 * i);
    rotate(rotation, normals, 3 * i, out, 6 * i + 3);
    for (let k = 0; k < 3; k++) out[6 * i + k] += offset[k] + lift * out[6 * i + 3 + k];
  }
  return out;
}

/** What each point sees in one set of directions, the same for all: its error is smooth over a surface and shows no
 * grain. A direction below the horizon is turned over: its opposite is above, and the weight is |cos| either way. With several `sets` of directions, which fall between each other,
 * neighbours take turns: grain that is evened out by whoever takes means over them. */
export function lookRound(tracer: Tracer, world: Float64Array, rays: number, sets = 1): Gather {
  const count = world.length / 6;
  const g = emptyGather(count, rays);
  for (let i = 0; i < count; i++) lookFrom(tracer, g, world, i, sets);
  return g;
}

const direction = new Float64Array(3);

/** The same of one point, into its place. */
export function lookFrom(tracer: Tracer, g: Gather, world: Float64Array, i: number, sets: number): void {
  const { raysEach } = g;
  const k = 6 * i;
  for (let r = 0; r < raysEach; r++) {
    writeSpherePoint(direction, 0, r * sets + (i % sets), raysEach * sets);
    const [dx, dy, dz] = direction;
    const sign = dx * world[k + 3] + dy * world[k + 4] + dz * world[k + 5] < 0 ? -1 : 1;
    traceGatherRay(
      tracer,
      g,
      i * raysEach + r,
      world[k],
      world[k + 1],
      world[k + 2],
      sign * dx,
      sign * dy,
      sign * dz,
    );
  }
}
