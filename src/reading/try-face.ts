/** The light on one face of a variation: straight from each light by few rays or none, and what bounces from a thin set of
 * points. */
import { behindPlates, type Emitter, Tracer } from "../engine/index.ts";
import type { StagedPerson } from "../staging/index.ts";
import { type FaceShares, gatherSkin, weigh, worldSamples } from "./face-light.ts";
import { type FaceSamples, faceSamples } from "./face-samples.ts";
import { type Lighting, WORK } from "./lighting.ts";
import { writeQuickExposure } from "./quick-exposure.ts";
import { quickFace } from "./quick-face.ts";
import { QUICK_RINGS, type QuickLight, quickLight } from "./quick-light.ts";
import { movableEmitter, writeHeadEmitter } from "./quick-place.ts";
import { writeTracedExposure } from "./quick-traced.ts";
import { type Between, thingsBetween } from "./try-between.ts";
import { bouncedOnFace } from "./try-bounce.ts";

/** Samples of a face that is read, and of others, of whom the cheeks count. */
export const SPACING = { read: WORK.coarse.spacing, others: 0.012 } as const;

/** Light on a face, as `FaceShares` has it. `looked`: looked up, not traced, where only the own body is in the way. */
export function triedFace(lighting: Lighting, person: number, spacing: number, looked: boolean): FaceShares {
  const { stage, memory } = lighting;
  const staged = stage.people[person];
  const samples = faceSamples(staged.shape.head, spacing);
  const bounced = bouncedOnFace(lighting, person, samples);
  const direct = stage.lights.map((_, l) => {
    const between = thingsBetween(lighting, person, l);
    const key = JSON.stringify([lighting.ownKeys[l], spacing, placeOf(staged), between.key]);
    return memory.recall(`direct ${person} ${l}`, key, () =>
      directOnFace(lighting, person, l, samples, spacing, between, looked),
    );
  });
  return { samples, direct: withThrough(lighting, person, samples, direct), bounced };
}

function placeOf({ headRotation, headOffset, bodyRotation }: StagedPerson): number[] {
  return [...headRotation, ...headOffset, ...bodyRotation];
}

/** Whether head and shoulders stand to each other as in `before`. */
export function isHeldAs(before: StagedPerson, now: StagedPerson): boolean {
  if (before.shape !== now.shape) return false;
  for (let i = 0; i < 3; i++)
    for (let j = 0; j < 3; j++) {
      let apart = 0;
      for (let k = i, l = j; k < 9; k += 3, l += 3)
        apart += now.bodyRotation[k] * now.headRotation[l] - before.bodyRotation[k] * before.headRotation[l];
      if (Math.abs(apart) > SAME_POSE) return false;
    }
  return true;
}

const SAME_POSE = 1e-9;

function directOnFace(
  { stage }: Lighting,
  person: number,
  light: number,
  samples: FaceSamples,
  spacing: number,
  between: Between,
  looked: boolean,
): Float64Array {
  const staged = stage.people[person];
  const out = new Float64Array(samples.count);
  const e = stage.scene.emitters[light];
  const front = frontOf(e);
  if (looked && between.isNone) {
    const quick = quickFace(staged, spacing);
    const own = movableEmitter(e);
    writeHeadEmitter(own, e, staged);
    writeQuickExposure(quick, own, front, out);
    return out;
  }
  const tracer = new Tracer({ ...stage.scene, meshes: between.meshes, quads: between.quads });
  const points = worldSamples(staged, samples);
  const middle = new Float64Array(3);
  for (let i = 0; i < points.length; i++) if (i % 6 < 3) middle[i % 6] += points[i] / samples.count;
  writeTracedExposure({ samples, points, middle, tracer }, e, front, out, light);
  return out;
}

const fronts = new Map<string, QuickLight>();
const FRONTS_KEPT = 64;

/** A front cut once, whatever way it stands. */
function frontOf(e: Emitter): QuickLight {
  if (e.distribution) return quickLight(e, QUICK_RINGS.search);
  const key = JSON.stringify([e.shape, e.halfWidth, e.halfHeight, e.sides, e.exponent, e.edgeDrop]);
  let front = fronts.get(key);
  if (!front) {
    front = quickLight(e, QUICK_RINGS.search);
    if (fronts.size >= FRONTS_KEPT) fronts.clear();
    fronts.set(key, front);
  }
  return front;
}

/** Light that comes through a panel counts as direct; it is looked for from every sample. */
function withThrough(
  lighting: Lighting,
  person: number,
  samples: FaceSamples,
  direct: readonly Float64Array[],
): readonly Float64Array[] {
  const { stage, exitance, memory, stillKey } = lighting;
  if (!exitance.some((e) => e.through.some((x) => x > 0))) return direct;
  const world = worldSamples(stage.people[person], samples);
  const gather = memory.recall(`through ${person}`, `${stillKey} ${samples.count}`, () =>
    gatherSkin(lighting, world),
  );
  const visible = behindPlates(gather, stage.scene.emitters);
  return direct.map((d, l) => {
    const extra = weigh(gather, visible, world, exitance[l].through, 1);
    return d.map((x, s) => x + extra[s]);
  });
}
