/** How a light from somewhere would fall on the figure's own face: what fills in for skin that the camera does not see. */
import { buildBvh, SceneBuilder, Tracer, Walker } from "../engine/index.ts";
import type { FaceMask } from "./face-mask.ts";
import type { Angles } from "./types.ts";

/** Rays leave the skin so far off it, metres, and go past any head. */
const LIFT = 5e-4;
const REACH = 0.5;
/** A light is taken as a disc of this half angle: a metre across at three metres, between bare heads and near softboxes. */
const HALF_ANGLE = 10;
/** Rings and spokes of rays to it. */
const RINGS = 2;
const SPOKES = 6;
const DEGREE = Math.PI / 180;

let tracerOf: { mask: FaceMask; tracer: Tracer } | null = null;

/** Cosine times what of the light is seen, one number a sample.
 * Shape   light: head axes; degrees */
export function litBy(mask: FaceMask, light: Angles): Float64Array {
  if (tracerOf?.mask !== mask) tracerOf = { mask, tracer: tracerFor(mask) };
  const { tracer } = tracerOf;
  const { count, position: p, normal: n } = mask.samples;
  const ways = disc(light);
  const out = new Float64Array(count);
  for (let s = 0; s < count; s++) {
    const [x, y, z] = [0, 1, 2].map((k) => p[3 * s + k] + LIFT * n[3 * s + k]);
    let sum = 0;
    for (let w = 0; w < ways.length; w += 3) {
      const facing = ways[w] * n[3 * s] + ways[w + 1] * n[3 * s + 1] + ways[w + 2] * n[3 * s + 2];
      if (facing <= 0) continue;
      if (!tracer.occluded(x, y, z, ways[w], ways[w + 1], ways[w + 2], REACH, -1)) sum += facing;
    }
    out[s] = (3 * sum) / ways.length;
  }
  return out;
}

/** Unit vectors to a disc, xyz each: rings of equal area. */
function disc({ azimuth, elevation }: Angles): Float64Array {
  const [ca, sa] = [Math.cos(azimuth * DEGREE), Math.sin(azimuth * DEGREE)];
  const [ce, se] = [Math.cos(elevation * DEGREE), Math.sin(elevation * DEGREE)];
  const out: number[] = [];
  for (let ring = 0; ring < RINGS; ring++) {
    const off = HALF_ANGLE * DEGREE * Math.sqrt((ring + 0.5) / RINGS);
    for (let spoke = 0; spoke < SPOKES; spoke++) {
      const turn = (2 * Math.PI * (spoke + ring / RINGS)) / SPOKES;
      const along = Math.cos(off);
      const aside = Math.sin(off) * Math.cos(turn);
      const up = Math.sin(off) * Math.sin(turn);
      out.push(
        along * ce * ca - aside * sa - up * se * ca,
        along * ce * sa + aside * ca - up * se * sa,
        along * se + up * ce,
      );
    }
  }
  return Float64Array.from(out);
}

function tracerFor({ head }: FaceMask): Tracer {
  const { positions, normals, triangles } = head.mesh;
  let reach = 0;
  for (let v = 0; v < positions.length; v += 3)
    reach = Math.max(reach, Math.hypot(positions[v], positions[v + 1], positions[v + 2]));
  const mesh = {
    walker: new Walker(buildBvh(positions, triangles)),
    positions,
    normals,
    triangles,
    tileOfTriangle: new Int32Array(triangles.length / 3).fill(-1),
    rotation: Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1),
    offset: new Float64Array(3),
    sphere: Float64Array.of(0, 0, 0, reach),
  };
  return new Tracer({ ...new SceneBuilder().build(), meshes: [mesh] });
}
