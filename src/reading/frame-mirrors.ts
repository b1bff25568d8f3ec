/** What is seen without being lit: lights' own fronts, and whatever is mirrored in the wet front of an eye or in a
 * spectacle lens. Traced once for a place of camera, lights and things; lights then only weigh. */
import { HIT, TILE_BITS } from "../engine/index.ts";
import { fresnelByCosine } from "../photometry/index.ts";
import { type Viewfinder, writeCameraRay } from "./camera-rays.ts";
import { lensesInView } from "./frame-lenses.ts";
import { acrossOf, downOf, type FrameSamples, POINT } from "./frame-samples.ts";
import type { Lighting } from "./lighting.ts";
import { frontLuminance } from "./spot.ts";

const FAR = 1e6;
/** Refractive index of a cornea, published-checks section 10. */
const CORNEA_INDEX = 1.376;

/** One entry a meeting of a sample with something: a light's front, or a surface that is mirrored. */
export interface Mirrored {
  readonly sample: readonly number[];
  /** share that is mirrored; 1 for a front that is looked at */
  readonly share: readonly number[];
  /** light whose front it is, -1 for none, and pi x its luminance x time per lm.s */
  readonly light: readonly number[];
  readonly front: readonly number[];
  /** tile of a surface, -1 for none */
  readonly tile: readonly number[];
  /** per sample behind a mirroring surface: the share of its own light that still comes through */
  readonly left: ReadonlyMap<number, number>;
}

export function traceMirrored(lighting: Lighting, view: Viewfinder, s: FrameSamples): Mirrored {
  const { tracer } = lighting.stage;
  const [ox, oy, oz] = view.position;
  const ray = new Float64Array(3);
  const left = new Map<number, number>();
  const out = {
    sample: [] as number[],
    share: [] as number[],
    light: [] as number[],
    front: [] as number[],
    tile: [] as number[],
    left,
  };
  const look = (
    i: number,
    share: number,
    x: number,
    y: number,
    z: number,
    dx: number,
    dy: number,
    dz: number,
  ) => {
    const met = tracer.closest(x, y, z, dx, dy, dz, FAR, true);
    const onFront = met && tracer.kind === HIT.emitter;
    out.sample.push(i);
    out.share.push(share);
    out.light.push(onFront ? tracer.index : -1);
    out.front.push(onFront ? Math.PI * frontLuminance(tracer, dx, dy, dz, x, y, z) : 0);
    out.tile.push(met && !onFront ? tracer.tile : -1);
  };
  const mirror: typeof look = (i, share, ...to) => {
    left.set(i, (left.get(i) ?? 1) - share);
    look(i, share, ...to);
  };
  for (let i = 0; i < s.count; i++) {
    if (s.kind[i] !== HIT.emitter) continue;
    writeCameraRay(view, acrossOf(s, i), downOf(s, i), ray);
    look(i, 1, ox, oy, oz, ray[0], ray[1], ray[2]);
  }
  for (const i of s.wet) {
    writeCameraRay(view, acrossOf(s, i), downOf(s, i), ray);
    const [dx, dy, dz] = ray;
    const p = POINT * i;
    const [px, py, pz, nx, ny, nz] = s.points.subarray(p, p + POINT);
    const along = dx * nx + dy * ny + dz * nz;
    if (!(along < 0)) continue;
    const share = fresnelByCosine(-along, CORNEA_INDEX);
    mirror(i, share, px, py, pz, dx - 2 * along * nx, dy - 2 * along * ny, dz - 2 * along * nz);
  }
  lensesInView(lighting, view, s, mirror);
  return out;
}

/** Puts one light's part, pi x luminance x time, over rgb per sample: its front, and what it makes surfaces send out. */
export function addMirrored(lighting: Lighting, m: Mirrored, light: number, all: Float32Array) {
  const { bounced, through } = lighting.exitance[light];
  dim(m, all);
  for (let k = 0; k < m.sample.length; k++) {
    const tile = m.tile[k];
    for (let c = 0; c < 3; c++) {
      const value = tile >= 0 ? bounced[3 * tile + c] + through[tile] : m.light[k] === light ? m.front[k] : 0;
      all[3 * m.sample[k] + c] += m.share[k] * value;
    }
  }
}

/** The same for light that comes evenly from all round: surfaces show their reflectance in it. */
export function addMirroredEven(lighting: Lighting, m: Mirrored, albedo: Float32Array) {
  const { reflectance } = lighting.stage.scene.patches;
  dim(m, albedo);
  for (let k = 0; k < m.sample.length; k++) {
    const tile = m.tile[k];
    if (m.light[k] >= 0) continue;
    for (let c = 0; c < 3; c++)
      albedo[3 * m.sample[k] + c] += m.share[k] * (tile >= 0 ? reflectance[3 * (tile >> TILE_BITS) + c] : 1);
  }
}

function dim(m: Mirrored, all: Float32Array) {
  for (const [i, left] of m.left) for (let c = 0; c < 3; c++) all[3 * i + c] *= left;
}
