/** The light of one lamp on skin as the camera sees it: what glints off its surface, and what goes in and comes out
 * coloured a little beside. Exposures do not know of this; pictures, clipping and headroom do. */
import { cutFace, directFlat, type Emitter, type FaceParts, PART_STRIDE, reach } from "../engine/index.ts";
import { type LobeShares, lobeShare, skinLobe, underShine } from "../photometry/index.ts";
import type { Viewfinder } from "./camera-rays.ts";
import { type FrameSamples, POINT } from "./frame-samples.ts";
import { wander } from "./frame-scatter.ts";
import type { Finish, SkinSamples } from "./frame-skin.ts";
import type { Lighting } from "./lighting.ts";

/** Cuts of a face for the lobe, coarse to fine: a lobe is smooth, so the wider it is the fewer parts will do. */
const RINGS = [1, 2, 4, 8] as const;
/** The first cut does up to this size of the face (see `sizeIn`), each next up to twice that.
 * Accuracy of fine ones 2 % of a sum over 10,000 parts, frame-shine.test.ts; of coarse ones 10 % */
const FIRST_CUT = { fine: 0.5, coarse: 1 } as const;
/** Smooth normals lean away from the eye at outlines; from this cosine on they are turned back. */
const LEAST_VIEW = 0.03;

/** One light on skin, sample by sample as in `SkinSamples.sample`. */
export interface LightOnSkin {
  /** straight from the light with nothing taken off, lx.s per lm.s */
  readonly straight: Float32Array;
  /** from surfaces, rgb */
  readonly bounced: Float32Array;
}

/** Writes pi x luminance of matt skin into `dull`, and what glinting adds to it (less what it takes), rgb.
 * `shine` comes empty, `glints` from `glintsOnSkin`. */
export function lightOnSkin(
  s: FrameSamples,
  skin: SkinSamples,
  finish: readonly (Finish | null)[],
  glints: Float32Array,
  arrives: LightOnSkin,
  dull: Float32Array,
  shine: Float32Array,
) {
  const wandered = afterWandering(skin, arrives.straight);
  for (let k = 0; k < skin.sample.length; k++) {
    const i = skin.sample[k];
    const own = finish[s.index[i]];
    const gloss = own === null ? 0 : own.shine * skin.gloss[k];
    const straight = arrives.straight[k];
    const off = glints[GLINT * k];
    const entering = glints[GLINT * k + 1];
    const leaving = glints[GLINT * k + 2];
    for (let c = 0; c < 3; c++) {
      const albedo = s.albedo[3 * i + c];
      const inside = wandered[skin.grey[k] ? 1 : c][k];
      const bounced = arrives.bounced[3 * k + c];
      const matt = albedo * (inside + bounced);
      dull[3 * k + c] = matt;
      if (!(own && gloss > 0)) continue;
      const under = underShine(albedo, taken(gloss, own) * faceOn(own, skin.lip[k])) * (1 - leaving);
      shine[3 * k + c] = under * (entering * inside + bounced) + off * straight + leaving * bounced - matt;
    }
  }
}

/** Numbers kept per sample: see `Glints`. */
const GLINT = 3;

/** `off`, `entering` and `leaving` of one light for every sample of skin. They depend on that light alone. */
export function glintsOnSkin(
  lighting: Lighting,
  view: Viewfinder,
  s: FrameSamples,
  skin: SkinSamples,
  finish: readonly (Finish | null)[],
  light: number,
): Float32Array {
  const out = new Float32Array(GLINT * skin.sample.length);
  const glints = new Glints(lighting, view, light);
  for (let k = 0; k < skin.sample.length; k++) {
    const i = skin.sample[k];
    const own = finish[s.index[i]];
    if (own === null || own.shine === 0) continue;
    glints.look(s.points, POINT * i, own.shine * skin.gloss[k], skin.lip[k] ? own.lip : own.skin);
    out[GLINT * k] = glints.off;
    out[GLINT * k + 1] = glints.entering;
    out[GLINT * k + 2] = glints.leaving;
  }
  return out;
}

function faceOn(own: Finish, lip: number): number {
  return lobeShare(lip ? own.lip : own.skin, 1);
}

/** What ambient light, which comes evenly from all round, adds by glinting: reflectance that is shown less `albedo`. */
export function ambientShine(
  view: Viewfinder,
  s: FrameSamples,
  skin: SkinSamples,
  finish: readonly (Finish | null)[],
): Float32Array {
  const out = new Float32Array(3 * skin.sample.length);
  const eye = new Float64Array(6);
  for (let k = 0; k < skin.sample.length; k++) {
    const i = skin.sample[k];
    const own = finish[s.index[i]];
    if (own === null || own.shine === 0) continue;
    const gloss = own.shine * skin.gloss[k];
    const shares = skin.lip[k] ? own.lip : own.skin;
    const glint = gloss * lobeShare(shares, lookBack(view, s.points, POINT * i, eye));
    for (let c = 0; c < 3; c++) {
      const albedo = s.albedo[3 * i + c];
      const under = underShine(albedo, taken(gloss, own) * faceOn(own, skin.lip[k]));
      out[3 * k + c] = glint + (1 - glint) * under - albedo;
    }
  }
  return out;
}

/** Shine that is taken off the reflectance given. What glints more than the person's skin as a whole (oil, moisture) lies
 * on top of it: else dark lips would lose nearly all of their green and blue. */
export function taken(gloss: number, own: Finish): number {
  return Math.min(gloss, own.shine);
}

/** Per channel; the middle one alone where all skin is grey. Samples of outlines take the change of a pixel beside. */
function afterWandering({ sample, net, beside, grey }: SkinSamples, straight: Float32Array): Float32Array[] {
  const { count } = net;
  if (!straight.some((v) => v > 0)) return [straight, straight, straight];
  const coloured = grey.includes(0);
  const pixels = straight.subarray(0, count);
  const out = [0, 1, 2].map((c) => {
    const all = straight.slice();
    if (!coloured && c !== 1) return all;
    all.set(wander(net, pixels, c));
    for (let k = count; k < sample.length; k++) {
      const near = beside[k - count];
      if (near >= 0) all[k] = Math.max(0, straight[k] + all[near] - straight[near]);
    }
    return all;
  });
  return coloured ? out : [out[1], out[1], out[1]];
}

/** Writes the direction to the eye and a normal that it can see into out; gives the cosine between them. */
function lookBack(view: Viewfinder, points: Float32Array, at: number, out: Float64Array): number {
  const [ox, oy, oz] = view.position;
  let x = ox - points[at];
  let y = oy - points[at + 1];
  let z = oz - points[at + 2];
  const d = 1 / Math.sqrt(x * x + y * y + z * z);
  x *= d;
  y *= d;
  z *= d;
  let nx = points[at + 3];
  let ny = points[at + 4];
  let nz = points[at + 5];
  let cosine = nx * x + ny * y + nz * z;
  if (cosine < LEAST_VIEW) {
    const turn = LEAST_VIEW - cosine;
    nx += turn * x;
    ny += turn * y;
    nz += turn * z;
    const n = 1 / Math.sqrt(nx * nx + ny * ny + nz * nz);
    nx *= n;
    ny *= n;
    nz *= n;
    cosine = nx * x + ny * y + nz * z;
  }
  out[0] = x;
  out[1] = y;
  out[2] = z;
  out[3] = nx;
  out[4] = ny;
  out[5] = nz;
  return cosine;
}

/** How much of the lobe a face fills, by its apparent radius: mirrors lean half as far as light; and how much of the half
 * of all directions that lies above the horizon. */
function sizeIn(slope: number, radius: number): number {
  return radius / (2 * slope) + radius / 2;
}

/** What one light's face does on one point of skin, as shares of the light that comes straight from it. */
export class Glints {
  /** pi x luminance of the glint over that light */
  off = 0;
  /** share that goes in, over the mean of all directions */
  entering = 1;
  /** share of what would come out that the surface keeps in; the same part of even light glints off */
  leaving = 0;
  private readonly eye = new Float64Array(6);
  private readonly cuts: (FaceParts | undefined)[] = [];
  private readonly emitter: Emitter;
  private readonly radius: number;

  constructor(
    private readonly lighting: Lighting,
    private readonly view: Viewfinder,
    private readonly light: number,
  ) {
    this.emitter = lighting.stage.scene.emitters[light];
    this.radius = reach(this.emitter);
  }

  look(points: Float32Array, at: number, shine: number, shares: LobeShares) {
    const { eye, emitter } = this;
    this.leaving = shine * lobeShare(shares, lookBack(this.view, points, at, eye));
    this.off = 0;
    const x = points[at];
    const y = points[at + 1];
    const z = points[at + 2];
    const even = 1 - shine * shares.mean;
    // light that has wandered here went in close by, where it came in flat
    this.entering = (1 - shine * lobeShare(shares, 0)) / even;
    const [cx, cy, cz] = emitter.centre;
    const away = Math.sqrt((cx - x) ** 2 + (cy - y) ** 2 + (cz - z) ** 2);
    const parts = this.cutFor(sizeIn(shares.slope, this.radius / away));
    const nx = points[at + 3];
    const ny = points[at + 4];
    const nz = points[at + 5];
    const d = parts.data;
    const { tracer } = this.lighting.stage;
    let all = 0;
    let glint = 0;
    let entering = 0;
    for (let p = 0; p < parts.count; p++) {
      const brings =
        d[PART_STRIDE * p + 3] *
        directFlat(tracer, this.light, parts, p, parts.count, x, y, z, nx, ny, nz, false);
      if (!(brings > 0)) continue;
      let lx = d[PART_STRIDE * p] - x;
      let ly = d[PART_STRIDE * p + 1] - y;
      let lz = d[PART_STRIDE * p + 2] - z;
      const r = 1 / Math.sqrt(lx * lx + ly * ly + lz * lz);
      lx *= r;
      ly *= r;
      lz *= r;
      all += brings;
      glint += brings * skinLobe(shares.slope, eye[3], eye[4], eye[5], eye[0], eye[1], eye[2], lx, ly, lz);
      entering += brings * (1 - shine * lobeShare(shares, nx * lx + ny * ly + nz * lz));
    }
    if (!(all > 0)) return;
    this.off = (Math.PI * shine * glint) / all;
    this.entering = entering / all / even;
  }

  private cutFor(size: number): FaceParts {
    const k =
      this.emitter.shape === "point"
        ? 0
        : Math.min(3, Math.max(0, Math.ceil(Math.log2(size / FIRST_CUT[this.lighting.quality]))));
    let made = this.cuts[k];
    if (!made) {
      made = cutFace(this.emitter, RINGS[k]);
      this.cuts[k] = made;
    }
    return made;
  }
}
