/** Variations of a base plan, set up and lit from what is known of the base: heads and hair are turned as they are, not
 * bent anew, and how surfaces see each other is kept. */
import { type Exitance, type Quad, TILE_BITS, TILES } from "../engine/index.ts";
import type { Panel, Plan } from "../plan/index.ts";
import { type Stage, type StagedPerson, stage, stagePerson } from "../staging/index.ts";
import { directAtGlance, lightAtGlance } from "./glance.ts";
import { keysOf, type Lighting, lightUp, type Quality, withLights } from "./lighting.ts";
import { Memory } from "./memory.ts";

export interface TryBase {
  readonly plan: Plan;
  /** the base, lit as a whole reading has it */
  readonly lighting: Lighting;
  /** the base as its variations are lit, for what is carried over by its change */
  readonly quick: Lighting;
  /** what is known of variations */
  readonly memory: Memory;
}

export function tryBase(plan: Plan, quality: Quality, memory: Memory): TryBase {
  const lighting = lightUp(plan, quality, memory);
  const half = { plan, lighting, memory: new Memory() };
  return { ...half, quick: varied(half, plan) };
}

/** A variation, staged and lit. */
export function varied(base: Omit<TryBase, "quick">, plan: Plan): Lighting {
  const memory = base.memory;
  const still = keysOf(plan, "coarse", -1);
  const keys = { ...still, ownKeys: still.ownKeys.map((key) => `glance ${key}`) };
  const staged = stageOf(base, plan, keys.thingsKey);
  const from = likeBase(base, plan, staged);
  const room = lightAtGlance(from, base.lighting.memory);
  return {
    ...room,
    ...keys,
    stage: staged,
    memory,
    lightKey: JSON.stringify([keys.stillKey, keys.ownKeys, keys.plateKeys]),
    exitance: withPanels(staged, room.exitance, movedPanels(from, plan)),
  };
}

function stageOf({ plan: base, lighting, memory }: Omit<TryBase, "quick">, plan: Plan, key: string): Stage {
  const kept = memory.recall("stage", key, () =>
    stage(
      // the base's own backdrop and room: what is made of them is kept
      { ...plan, backdrop: base.backdrop, room: base.room },
      -1,
      plan.people.map((person, i) => {
        const now = stagePerson(person, plan);
        return plan.people.length === base.people.length ? heldAs(lighting.stage.people[i], now) : now;
      }),
    ),
  );
  return kept.plan === plan ? kept : withLights(kept, plan);
}

/** Somebody with the neck as it was bent before, head and body where they are now. */
function heldAs(before: StagedPerson, now: StagedPerson): StagedPerson {
  if (before.shape !== now.shape) return now;
  const { name, shape, headRotation, headOffset, baseRotation, bodyRotation, bodyOffset } = now;
  return {
    name,
    shape,
    headRotation,
    headOffset,
    baseRotation,
    bodyRotation,
    bodyOffset,
    headMesh: before.headMesh,
    hairMesh: before.hairMesh,
  };
}

/** The lights of a variation among the things of the base, as far as these are the same in number and kind. */
function likeBase({ plan: base, lighting }: Omit<TryBase, "quick">, plan: Plan, staged: Stage): Plan {
  const { people } = lighting.stage;
  const isPeople =
    people.length === staged.people.length && staged.people.every((p, i) => p.shape === people[i].shape);
  const isPanels = kindOf(base.panels) === kindOf(plan.panels);
  return {
    ...plan,
    // who follows the camera looks as in the base
    camera: isPeople ? { ...plan.camera, position: base.camera.position } : plan.camera,
    people: isPeople ? base.people : plan.people,
    panels: isPanels ? base.panels : plan.panels,
  };
}

/** All of a panel but where it stands; one that lets light through counts as another wherever it goes. */
function kindOf(panels: readonly Panel[]): string {
  return JSON.stringify(
    panels.map((p) => [
      p.width,
      p.height,
      p.reflectance,
      p.transmittance,
      p.transmittance > 0 ? placeOf(p) : 0,
    ]),
  );
}

function placeOf({ position, direction, roll }: Panel): string {
  return JSON.stringify([position, direction, roll]);
}

function movedPanels(from: Plan, plan: Plan): number[] {
  if (from.panels === plan.panels) return [];
  return plan.panels.flatMap((p, i) => (placeOf(p) === placeOf(from.panels[i]) ? [] : [i]));
}

/** What panels that have moved send back: of the light where they are now. */
function withPanels(staged: Stage, exitance: readonly Exitance[], moved: readonly number[]): Exitance[] {
  return exitance.map((solved, light) => {
    if (moved.length === 0) return solved;
    const bounced = solved.bounced.slice();
    for (const i of moved) relight(staged, staged.scene.quads[i], light, solved, bounced);
    return { ...solved, bounced };
  });
}

function relight({ scene }: Stage, q: Quad, light: number, solved: Exitance, bounced: Float64Array) {
  const cells = q.cellsAcross * q.cellsUp;
  const { bounceReflectance } = scene.patches;
  for (const first of [q.frontPatch, q.backPatch]) {
    const direct = directAtGlance(scene, light, first, cells);
    for (let t = TILES * first; t < TILES * (first + cells); t++)
      for (let c = 0; c < 3; c++) {
        const k = 3 * (t >> TILE_BITS) + c;
        bounced[3 * t + c] = bounceReflectance[k] * (direct[t] + solved.arriving[k]);
      }
  }
}
