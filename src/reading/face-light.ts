/** Exposure of every sample of a face, per light, direct and bounced apart. */
import {
  type AskedFace,
  askedFace,
  behindPlates,
  cutFace,
  directByShare,
  directFlat,
  type Gather,
  SUBSETS,
  scatterFace,
  shareSeen,
} from "../engine/index.ts";
import type { StagedPerson } from "../staging/index.ts";
import { recallDirect } from "./direct-memory.ts";
import { type FaceSamples, faceSamples } from "./face-samples.ts";
import { type Lighting, WORK } from "./lighting.ts";
import { liftedPoints, lookRound } from "./skin-rays.ts";

/** Per light, on or off: lx.s per lm.s at each sample. */
export interface FaceShares {
  readonly samples: FaceSamples;
  readonly direct: readonly Float64Array[];
  /** rgb per sample */
  readonly bounced: readonly Float64Array[];
}

/** Rays from skin start this far off it, so that facets do not shade each other (the sagitta of a 3 mm facet
 * on a head is 0.02 mm; the nose's shadow does not move by a visible amount). */
const SKIN_LIFT = 5e-4;

/** Samples of one person in world coordinates: lifted position and normal, 6 numbers each. */
export function worldSamples(person: StagedPerson, samples: FaceSamples): Float64Array {
  const { position, normal, count } = samples;
  return liftedPoints(person.headRotation, person.headOffset, position, normal, count, SKIN_LIFT);
}

export function faceShares(lighting: Lighting, person: number): FaceShares {
  const staged = lighting.stage.people[person];
  const samples = faceSamples(staged.shape.head, WORK[lighting.quality].spacing);
  return { samples, ...sharesOnSkin(lighting, `face ${person}`, worldSamples(staged, samples)) };
}

/** The same at any points of skin: lifted position and normal in the world, 6 numbers each, told apart by `slot`. */
export function sharesOnSkin(
  lighting: Lighting,
  slot: string,
  world: Float64Array,
): Pick<FaceShares, "direct" | "bounced"> {
  const { stage, memory, stillKey, lightKey, exitance } = lighting;
  return memory.recall(slot, lightKey, () => {
    const gather = memory.recall(`${slot} gather`, stillKey, () => gatherSkin(lighting, world));
    const visible = behindPlates(gather, stage.scene.emitters);
    const direct = stage.lights.map((_, l) => {
      const out = directOnSkin(lighting, slot, l, world).slice();
      addThrough(gather, visible, world, exitance[l].through, out);
      return out;
    });
    return { direct, bounced: exitance.map((e) => weigh(gather, visible, world, e.bounced, 3)) };
  });
}

/** Light that comes straight from one lamp: lx.s per lm.s at each point. */
export function directOnSkin(
  lighting: Lighting,
  slot: string,
  light: number,
  world: Float64Array,
): Float64Array {
  const { memory, stage } = lighting;
  return recallDirect(memory, lighting, stage, light, `${slot} direct`, {
    name: "",
    count: world.length / 6,
    width: 1,
    points: world,
    stride: 6,
    prepare: () => {
      if (lighting.effort === "glance") return glanceOnSkin(lighting, light, world);
      const face = skinFace(lighting, light, world.length / 6);
      return (s, out) => {
        const k = 6 * s;
        out[s] = directByShare(
          stage.tracer,
          light,
          face,
          world[k],
          world[k + 1],
          world[k + 2],
          world[k + 3],
          world[k + 4],
          world[k + 5],
        );
      };
    },
  });
}

const GLANCE_RINGS = 2;
const GLANCE_POINTS = 8;

/** Neighbours ask other points of the light: what one misses of it another sees, and a cheek's mean is right. */
function glanceOnSkin({ stage }: Lighting, light: number, world: Float64Array) {
  const emitter = stage.scene.emitters[light];
  const whole = cutFace(emitter, GLANCE_RINGS);
  const points = scatterFace(emitter, SUBSETS * GLANCE_POINTS);
  const every = Math.min(SUBSETS, points.count);
  return (s: number, out: Float64Array) => {
    const [x, y, z, nx, ny, nz] = world.subarray(6 * s, 6 * s + 6);
    const open = directFlat(stage.tracer, light, whole, 0, 1, x, y, z, nx, ny, nz, false);
    const seen = () => shareSeen(stage.tracer, light, points, s % every, every, x, y, z, nx, ny, nz);
    out[s] = open > 0 ? open * seen() : 0;
  };
}

/** A light's face as points of skin ask it: the fewer they are, the more of it each may ask. */
function skinFace(lighting: Lighting, light: number, count: number): AskedFace {
  const { faceRings, skinPoints } = WORK[lighting.quality];
  const each = Math.max(LEAST_POINTS, Math.min(MOST_POINTS, 2 ** Math.floor(Math.log2(skinPoints / count))));
  return askedFace(
    lighting.stage.scene.emitters[light],
    each >= MOST_POINTS ? 2 * faceRings : faceRings,
    each,
  );
}

const LEAST_POINTS = 32;
const MOST_POINTS = 256;

/** What each point of skin sees all round. */
export function gatherSkin(lighting: Lighting, world: Float64Array): Gather {
  return lookRound(lighting.stage.tracer, world, WORK[lighting.quality].faceGather);
}

function addThrough(
  g: Gather,
  visible: Int32Array,
  world: Float64Array,
  through: Float64Array,
  out: Float64Array,
) {
  // nothing shines through where no panel lets light through
  if (!through.some((x) => x > 0)) return;
  const extra = weigh(g, visible, world, through, 1);
  for (let s = 0; s < out.length; s++) out[s] += extra[s];
}

/** Cosine-weighted mean of a patch quantity over the rays of each sample. */
export function weigh(
  g: Gather,
  visible: Int32Array,
  world: Float64Array,
  values: Float64Array,
  stride: 1 | 3,
): Float64Array {
  const out = new Float64Array(stride * g.receivers);
  for (let s = 0; s < g.receivers; s++) {
    const n = 6 * s + 3;
    let weight = 0;
    for (let k = s * g.raysEach; k < (s + 1) * g.raysEach; k++) {
      const at = 6 * k + 3;
      const w = Math.abs(
        g.rays[at] * world[n] + g.rays[at + 1] * world[n + 1] + g.rays[at + 2] * world[n + 2],
      );
      weight += w;
      const p = visible[k];
      if (p < 0) continue;
      for (let c = 0; c < stride; c++) out[stride * s + c] += w * values[stride * p + c];
    }
    for (let c = 0; c < stride; c++) out[stride * s + c] /= weight;
  }
  return out;
}

/** All lights and the ambient together: lx.s of luminance at each sample. */
export function faceExposure(lighting: Lighting, shares: FaceShares): Float64Array {
  const { lights, ambient } = lighting.stage;
  const out = new Float64Array(shares.samples.count).fill(ambient);
  lights.forEach((light, l) => {
    if (!light.on) return;
    const direct = shares.direct[l];
    const bounced = shares.bounced[l];
    const [r, g, b] = light.meterWeights;
    for (let s = 0; s < out.length; s++) {
      out[s] +=
        light.lumenSeconds *
        ((r + g + b) * direct[s] + r * bounced[3 * s] + g * bounced[3 * s + 1] + b * bounced[3 * s + 2]);
    }
  });
  return out;
}
