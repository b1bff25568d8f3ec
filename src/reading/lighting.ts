/** A staged plan with its lights switched through: what every surface sends back, per light. Lights that are off are
 * worked out as well, so that switching one on traces nothing. */
import {
  askedFace,
  behindPlates,
  cutFace,
  directOnTiles,
  type Emitter,
  type Exitance,
  type FaceParts,
  gatherPatches,
  POINT_STRIDE,
  SUBSETS,
  solveExitance,
  TILES,
  Tracer,
  viewFactors,
} from "../engine/index.ts";
import type { Light, Plan } from "../plan/index.ts";
import { emitterOf, type Stage, stage, stageLight } from "../staging/index.ts";
import { type DirectKeys, recallDirect } from "./direct-memory.ts";
import type { Memory } from "./memory.ts";
import { type KeepGoing, step } from "./progress.ts";

export type Quality = "coarse" | "fine";
/** How much is asked of the lights themselves. A glance shares what stands still with a coarse reading. */
export type Effort = "glance" | Quality;

export interface Lighting extends DirectKeys {
  readonly stage: Stage;
  /** how finely what stands still is looked at */
  readonly quality: Quality;
  readonly effort: Effort;
  readonly memory: Memory;
  /** names what stands still alone, as finely as it may be looked at */
  readonly thingsKey: string;
  /** names everything that bounced light depends on: what stands still and where the lights are */
  readonly lightKey: string;
  readonly exitance: readonly Exitance[];
  /** the lights' faces cut for a cell of a map */
  readonly parts: readonly FaceParts[];
}

/** Work per quality. Rays are counted so that a fine reading stays within a second and a half on two cores
 * and a coarse one within a tenth of a second; docs/performance.md has the measured times. */
export const WORK = {
  coarse: {
    raysPerPatchPoint: 3,
    patchRings: 1,
    tilePoints: 4,
    faceRings: 2,
    // points of a face that all samples of skin together may ask
    skinPoints: 16_000,
    faceGather: 40,
    spacing: 0.007,
  },
  fine: {
    raysPerPatchPoint: 20,
    patchRings: 2,
    tilePoints: SUBSETS,
    faceRings: 4,
    skinPoints: 262_144,
    faceGather: 96,
    spacing: 0.0045,
  },
} as const;

/** Everything that bounces, solved. `without` leaves one person away.
 * Errors  Stopped where `keepGoing` returns false */
export function lightUp(
  plan: Plan,
  quality: Quality,
  memory: Memory,
  without = -1,
  keepGoing: KeepGoing = () => true,
): Lighting {
  const work = WORK[quality];
  const keys = keysOf(plan, quality, without);
  const staged = stageOf(plan, memory, keys.thingsKey, without);
  const emitters = staged.scene.emitters;
  const lightKey = JSON.stringify([keys.stillKey, keys.ownKeys]);
  const gather = memory.recall("patch gather", keys.stillKey, () =>
    gatherPatches(staged.tracer, work.raysPerPatchPoint, (done) => step(keepGoing, 0.6 * done)),
  );
  const exitance = memory.recall("exitance", lightKey, () => {
    // what patches see of each other depends on the plates alone: a new beam leaves it
    const [visible, views] = memory.recall("patch view", keys.stillKey + keys.plateKeys, () => {
      const seen = behindPlates(gather, emitters);
      return [seen, viewFactors(gather, seen, staged.scene.patches)] as const;
    });
    return emitters.map((_, light) => {
      step(keepGoing, 0.6 + (0.4 * light) / emitters.length);
      const direct = directOnPatches(memory, keys, staged, quality, light);
      return solveExitance(staged.tracer, gather, visible, views, direct);
    });
  });
  return {
    ...keys,
    stage: staged,
    quality,
    effort: quality,
    memory,
    lightKey,
    exitance,
    parts: partsOf(emitters, quality),
  };
}

export function partsOf(emitters: readonly Emitter[], quality: Quality): FaceParts[] {
  return emitters.map((e) => cutFace(e, WORK[quality].faceRings));
}

/** What traced light depends on, by name: no names of things, no pins, and of the camera only where somebody follows it. */
export function keysOf(
  plan: Plan,
  quality: Quality,
  without: number,
): DirectKeys & Pick<Lighting, "thingsKey"> {
  const thingsKey = JSON.stringify([
    without,
    plan.room,
    plan.backdrop && unmarked(plan.backdrop),
    plan.panels.map(unmarked),
    // how much skin glints is weighed, not traced
    plan.people.map((person) => ({ ...unmarked(person), skin: person.skin.reflectance })),
    plan.people.some((p) => p.head.follows === "camera") ? plan.camera.position : 0,
  ]);
  return {
    thingsKey,
    stillKey: quality + thingsKey,
    ownKeys: plan.lights.map(
      (l) => plateKey(l) + JSON.stringify([l.beam, plan.photometry?.[l.beam.photometry ?? ""]]),
    ),
    plateKeys: plan.lights.map(plateKey),
  };
}

/** A thing without what is only written on it. */
function unmarked<T extends object>(thing: T): object {
  return { ...thing, name: undefined, pinned: undefined };
}

/** The stage of a plan; where only lights, exposure or names have changed, what stands still is taken over. */
export function stageOf(plan: Plan, memory: Memory, thingsKey: string, without: number): Stage {
  const kept = memory.recall(`stage ${without}`, thingsKey, () => stage(plan, without));
  if (kept.plan === plan) return kept;
  const people = kept.people.map((person, i) => ({ ...person, name: plan.people[i].name }));
  return { ...withLights(kept, plan), people };
}

/** Has these people stand in for the plan's own in all that is read with this memory: heads of other shapes than the
 * figure's, for tests. */
export function standIn(plan: Plan, memory: Memory, people: Stage["people"]) {
  memory.recall("stage -1", keysOf(plan, "coarse", -1).thingsKey, () => stage(plan, -1, people));
}

/** What stands still as it is, with the lights and the exposure of a plan. */
export function withLights(kept: Stage, plan: Plan): Stage {
  const scene = { ...kept.scene, emitters: plan.lights.map((light) => emitterOf(light, plan)) };
  return {
    ...kept,
    plan,
    scene,
    tracer: new Tracer(scene),
    lights: plan.lights.map((light) => stageLight(light, plan)),
    ambient: plan.ambient.lux * plan.camera.shutter,
  };
}

/** Light that comes straight from one lamp, lx.s per lm.s on every tile. */
export function directOnPatches(
  memory: Memory,
  keys: DirectKeys,
  staged: Stage,
  quality: Quality,
  light: number,
): Float64Array {
  const balls = memory.recall("patch balls", keys.stillKey, () => patchBalls(staged));
  return recallDirect(memory, keys, staged, light, "patches", {
    name: "",
    count: staged.scene.patches.count,
    width: TILES,
    points: balls,
    stride: 4,
    radii: balls.filter((_, i) => i % 4 === 3),
    prepare: () => {
      const emitter = staged.scene.emitters[light];
      const face = askedFace(emitter, WORK[quality].patchRings, WORK[quality].tilePoints);
      return (patch, out) => directOnTiles(staged.tracer, light, face, patch, out);
    },
  });
}

/** Where a light's plate stands and how large it is: all that it does to other lights. */
function plateKey(light: Light): string {
  return JSON.stringify([light.position, light.direction, light.roll, light.face]);
}

/** A ball round the points of every patch: centre and radius. */
function patchBalls({ scene }: Stage): Float64Array {
  const { count, points } = scene.patches;
  const out = new Float64Array(4 * count);
  for (let p = 0; p < count; p++) {
    const first = POINT_STRIDE * TILES * p;
    for (let k = 0; k < TILES; k++)
      for (let c = 0; c < 3; c++) out[4 * p + c] += points[first + POINT_STRIDE * k + c] / TILES;
    for (let k = 0; k < TILES; k++) {
      const at = first + POINT_STRIDE * k;
      const r = Math.hypot(
        points[at] - out[4 * p],
        points[at + 1] - out[4 * p + 1],
        points[at + 2] - out[4 * p + 2],
      );
      out[4 * p + 3] = Math.max(out[4 * p + 3], r);
    }
  }
  return out;
}
