/** Light at a glance: while somebody drags a light, as little as possible is worked out anew. It depends on the plan
 * alone, not on what was seen before: the same plan gives the same bits. What it misses against a coarse reading:
 * - surfaces are asked at four places a patch, not at sixteen, and what they see of each other is never hidden by the
 *   plates of lights (a large front close to a wall makes that wall's bounce a little too bright);
 * - the nose's bridge is read with the bounce of the room as it is with the person in it;
 * - shadow edges on faces and in the frame have fewer steps. */
import {
  askedFace,
  directFlat,
  type Exitance,
  gatherPatches,
  LIFT,
  POINT_STRIDE,
  type Scene,
  shareSeen,
  solveExitance,
  TILES,
  Tracer,
  viewFactors,
} from "../engine/index.ts";
import type { Plan } from "../plan/index.ts";
import { patchesOf } from "../staging/index.ts";
import { keysOf, type Lighting, partsOf, stageOf, WORK } from "./lighting.ts";
import type { Memory } from "./memory.ts";

/** Everything that bounces, solved at a glance: light by light, so that one that moves leaves the others. */
export function lightAtGlance(plan: Plan, memory: Memory): Lighting {
  const still = keysOf(plan, "coarse", -1);
  const keys = { ...still, ownKeys: still.ownKeys.map((key) => `glance ${key}`) };
  const stage = stageOf(plan, memory, keys.thingsKey, -1);
  const { emitters, patches } = stage.scene;
  const gather = memory.recall("patch gather", keys.stillKey, () =>
    gatherPatches(stage.tracer, WORK.coarse.raysPerPatchPoint),
  );
  const views = memory.recall("glance view", keys.stillKey, () => viewFactors(gather, gather.tile, patches));
  const exitance = emitters.map((_, light) =>
    memory.recall(`glance exitance ${light}`, keys.stillKey + keys.ownKeys[light], () =>
      solveExitance(stage.tracer, gather, gather.tile, views, directAtGlance(stage.scene, light), SETTLED),
    ),
  );
  return {
    ...keys,
    stage,
    quality: "coarse",
    effort: "glance",
    memory,
    lightKey: JSON.stringify([keys.stillKey, keys.ownKeys]),
    exitance,
    parts: partsOf(emitters, "coarse"),
  };
}

/** The same with one person out of the way, whose own patches send nothing back. */
export function glanceWithout(lighting: Lighting, person: number): Lighting {
  const { stage, memory } = lighting;
  const keys = keysOf(stage.plan, "coarse", person);
  const ownKeys = lighting.ownKeys;
  const [first, count] = patchesOf(stage, person);
  return {
    ...lighting,
    ...keys,
    ownKeys,
    stage: stageOf(stage.plan, memory, keys.thingsKey, person),
    lightKey: JSON.stringify([keys.stillKey, ownKeys]),
    exitance: lighting.exitance.map((e) => withoutPatches(e, first, count)),
  };
}

function withoutPatches({ through, bounced, arriving }: Exitance, first: number, count: number): Exitance {
  const cut = (values: Float64Array, each: number) => {
    const out = new Float64Array(values.length - each * count);
    out.set(values.subarray(0, each * first));
    out.set(values.subarray(each * (first + count)), each * first);
    return out;
  };
  return { through: cut(through, TILES), bounced: cut(bounced, 3 * TILES), arriving: cut(arriving, 3) };
}

/** Change per sweep under which the solution stands: a few thousandths of a stop of what bounces. */
const SETTLED = 2e-3;

/** Tiles of a patch that are asked, and the point of the light's face that each asks. */
const ASKED_TILES = [0, 6, 9, 15] as const;

/** Light that comes straight from one lamp onto every tile of some patches, lx.s per lm.s: what a tile would get with
 * nothing between, times the share that four of its patch's tiles see past all but the plates of other lights: what is
 * kept of one light must not depend on where others stood when it was found. */
export function directAtGlance(
  scene: Scene,
  light: number,
  first = 0,
  count = scene.patches.count,
): Float64Array {
  const { patches } = scene;
  const emitters = scene.emitters.map((e, i) => (i === light ? e : { ...e, shape: "point" as const }));
  const tracer = new Tracer({ ...scene, emitters });
  const { points, transmittance, bounceReflectance } = patches;
  const face = askedFace(emitters[light], 1, ASKED_TILES.length);
  const asked = face.many.count;
  const out = new Float64Array(TILES * patches.count);
  for (let patch = first; patch < first + count; patch++) {
    const c = 3 * patch;
    const sends =
      transmittance[patch] + bounceReflectance[c] + bounceReflectance[c + 1] + bounceReflectance[c + 2];
    if (!(sends > 0)) continue;
    let any = false;
    for (let t = TILES * patch; t < TILES * (patch + 1); t++) {
      const [x, y, z, nx, ny, nz] = lifted(points, t);
      out[t] = directFlat(tracer, light, face.whole, 0, 1, x, y, z, nx, ny, nz, false);
      any ||= out[t] > 0;
    }
    if (!any) continue;
    let share = 0;
    ASKED_TILES.forEach((tile, k) => {
      const [x, y, z, nx, ny, nz] = lifted(points, TILES * patch + tile);
      share += shareSeen(tracer, light, face.many, k % asked, asked, x, y, z, nx, ny, nz);
    });
    share /= ASKED_TILES.length;
    for (let t = TILES * patch; t < TILES * (patch + 1); t++) out[t] *= share;
  }
  return out;
}

const start = new Float64Array(6);

function lifted(points: Float64Array, tile: number): Float64Array {
  const at = POINT_STRIDE * tile;
  for (let k = 0; k < 3; k++) {
    start[k + 3] = points[at + k + 3];
    start[k] = points[at + k] + LIFT * start[k + 3];
  }
  return start;
}
