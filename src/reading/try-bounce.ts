/** What bounces onto a face: looked for at a thin set of points, and spread over all. */
import { behindPlates, RAY_STRIDE, type Tracer } from "../engine/index.ts";
import type { StagedPerson } from "../staging/index.ts";
import { weigh, worldSamples } from "./face-light.ts";
import { type FaceSamples, faceSamples } from "./face-samples.ts";
import { type Lighting, WORK } from "./lighting.ts";
import { ORIGIN, quickFace, STILL } from "./quick-face.ts";
import { liftedPoints, lookRound } from "./skin-rays.ts";

/** Points so far apart, metres, each of which looks in so many directions, in turn other ones. */
const THIN = 0.022;
const RAYS = 64;
const SETS = 8;
/** Rays start so far off the skin, and have left the person this far off, metres. */
const LIFT = 5e-4;
const FAR_OFF = 100;

/** rgb per sample and light. */
export function bouncedOnFace(lighting: Lighting, person: number, samples: FaceSamples): Float64Array[] {
  const { stage, memory, exitance, stillKey } = lighting;
  const staged = stage.people[person];
  const thin = faceSamples(staged.shape.head, THIN);
  const world = worldSamples(staged, thin);
  const gather = memory.recall(`round ${person}`, stillKey, () => lookRound(stage.tracer, world, RAYS, SETS));
  const visible = behindPlates(gather, stage.scene.emitters);
  const { near, share, open } = spreadOver(staged, samples, thin);
  return exitance.map((e) => {
    const few = weigh(gather, visible, world, e.bounced, 3);
    const out = new Float64Array(3 * samples.count);
    for (let s = 0; s < samples.count; s++)
      for (let k = NEAREST * s; k < NEAREST * (s + 1); k++)
        for (let c = 0; c < 3; c++) out[3 * s + c] += open[s] * share[k] * few[3 * near[k] + c];
    return out;
  });
}

/** A sample takes from so many thin points, by nearness and by how alike they face. */
const NEAREST = 6;
const LEAST_ALIKE = 0.05;
/** What the face's own skin sends back of what surfaces send that it hides. */
const OWN_SHARE = 0.3;

interface Spread {
  readonly near: Uint16Array;
  readonly share: Float64Array;
  /** how much more than those points a sample sees past its own head and body: folds see less */
  readonly open: Float64Array;
}

const spreads = new WeakMap<FaceSamples, Spread>();

/** As the head sits on the shoulders when it is first asked for: they hide little. */
function spreadOver(staged: StagedPerson, samples: FaceSamples, thin: FaceSamples): Spread {
  let made = spreads.get(samples);
  if (!made) {
    const { near, share } = nearest(samples, thin);
    const { tracer } = quickFace(staged, WORK.coarse.spacing);
    const own = openness(tracer, samples, WORK.coarse.faceGather, 1);
    const few = openness(tracer, thin, RAYS, SETS);
    const open = own.map((o, s) => {
      let around = 0;
      for (let k = NEAREST * s; k < NEAREST * (s + 1); k++) around += share[k] * few[near[k]];
      return o / around;
    });
    made = { near, share, open };
    spreads.set(samples, made);
  }
  return made;
}

/** What arrives of an even surround, per sample; its own skin taken in. */
function openness(tracer: Tracer, samples: FaceSamples, rays: number, sets: number): Float64Array {
  const points = liftedPoints(STILL, ORIGIN, samples.position, samples.normal, samples.count, LIFT);
  const gather = lookRound(tracer, points, rays, sets);
  return Float64Array.from({ length: samples.count }, (_, s) => {
    let all = 0;
    let seen = 0;
    for (let k = s * rays; k < (s + 1) * rays; k++) {
      let cosine = 0;
      for (let c = 0; c < 3; c++) cosine += gather.rays[RAY_STRIDE * k + 3 + c] * points[6 * s + 3 + c];
      all += Math.abs(cosine);
      seen += Math.abs(cosine) * (gather.distance[k] > FAR_OFF ? 1 : OWN_SHARE);
    }
    return seen / all;
  });
}

function nearest(samples: FaceSamples, thin: FaceSamples): Pick<Spread, "near" | "share"> {
  const near = new Uint16Array(NEAREST * samples.count);
  const share = new Float64Array(NEAREST * samples.count);
  for (let s = 0; s < samples.count; s++) {
    const weights = Array.from({ length: thin.count }, (_, i) => {
      let d2 = 0;
      let alike = 0;
      for (let c = 0; c < 3; c++) {
        d2 += (samples.position[3 * s + c] - thin.position[3 * i + c]) ** 2;
        alike += samples.normal[3 * s + c] * thin.normal[3 * i + c];
      }
      return { i, weight: Math.max(LEAST_ALIKE, alike) ** 2 / (d2 + (THIN / 4) ** 2) };
    });
    weights.sort((a, b) => b.weight - a.weight || a.i - b.i);
    const taken = weights.slice(0, NEAREST);
    const all = taken.reduce((sum, t) => sum + t.weight, 0);
    taken.forEach((t, k) => {
      near[NEAREST * s + k] = t.i;
      share[NEAREST * s + k] = t.weight / all;
    });
  }
  return { near, share };
}
