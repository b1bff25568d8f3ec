/** A staged plan with its lights switched through: what every surface sends back, per light. */
import {
  behindPlates,
  cutFace,
  directOnPatches,
  type Exitance,
  type FaceParts,
  type Gather,
  gatherPatches,
  solveExitance,
} from "../engine/index.ts";
import type { Plan } from "../plan/index.ts";
import { type Stage, stage } from "../staging/index.ts";
import type { Memory } from "./memory.ts";

export type Quality = "coarse" | "fine";

export interface Lighting {
  readonly stage: Stage;
  readonly quality: Quality;
  readonly memory: Memory;
  /** names everything that gather rays depend on */
  readonly stillKey: string;
  /** names everything that direct rays depend on */
  readonly lightKey: string;
  /** the same, and which lights are on */
  readonly litKey: string;
  /** per light; null where it is off */
  readonly exitance: readonly (Exitance | null)[];
  /** the faces cut for one face or picture sample */
  readonly parts: readonly FaceParts[];
}

/** Work per quality. Rays are counted so that a fine reading stays within a second and a half on two cores
 * and a coarse one within a tenth of a second; docs/performance.md has the measured times. */
export const WORK = {
  coarse: {
    raysPerPatchPoint: 3,
    patchRings: 1,
    patchPoints: 4,
    faceRings: 2,
    faceGather: 40,
    spacing: 0.007,
  },
  fine: {
    raysPerPatchPoint: 10,
    patchRings: 2,
    patchPoints: 8,
    faceRings: 4,
    faceGather: 96,
    spacing: 0.0045,
  },
} as const;

export function lightUp(plan: Plan, quality: Quality, memory: Memory, without = -1): Lighting {
  const work = WORK[quality];
  const staged = stage(plan, without);
  const stillKey = JSON.stringify([
    quality,
    without,
    plan.room,
    plan.backdrop,
    plan.panels,
    plan.people,
    plan.people.some((p) => p.head.follows === "camera") ? plan.camera.position : 0,
  ]);
  const lightKey = JSON.stringify([
    stillKey,
    plan.lights.map((l) => [l.position, l.direction, l.roll, l.face, l.beam]),
  ]);
  const emitters = staged.scene.emitters;
  const gather = memory.recall("patch gather", stillKey, () =>
    gatherPatches(staged.tracer, work.raysPerPatchPoint),
  );
  const visible = memory.recall("patch view", lightKey, () => behindPlates(gather, emitters));
  const solved = memory.recall("exitance", lightKey, () => new Map<number, Exitance>());
  const exitance = staged.lights.map((light, i) => {
    if (!light.on) return null;
    let one = solved.get(i);
    if (!one) {
      one = solveOne(staged, i, gather, visible, work);
      solved.set(i, one);
    }
    return one;
  });
  return {
    stage: staged,
    quality,
    memory,
    stillKey,
    lightKey,
    litKey: lightKey + staged.lights.map((l) => (l.on ? 1 : 0)).join(""),
    exitance,
    parts: emitters.map((e) => cutFace(e, work.faceRings)),
  };
}

function solveOne(
  staged: Stage,
  light: number,
  gather: Gather,
  visible: Int32Array,
  work: (typeof WORK)[Quality],
): Exitance {
  const parts = cutFace(staged.scene.emitters[light], work.patchRings);
  const direct = directOnPatches(staged.tracer, light, parts, work.patchPoints);
  return solveExitance(staged.tracer, gather, visible, direct);
}
