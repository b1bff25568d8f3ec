/** What takes lights off somebody's glasses: found by trying, outward in steps and then by halving. */
import { type Emitter, type MeshInstance, Tracer } from "../engine/index.ts";
import { headRotation } from "../figure/index.ts";
import { emitterOf, multiply } from "../staging/index.ts";
import { lensInWorld } from "./glasses-lens.ts";
import { LensRays } from "./glasses-rays.ts";
import { toWorld } from "./head-axes.ts";
import type { Lighting } from "./lighting.ts";
import type { GlassesReading } from "./types.ts";

type Clears = NonNullable<GlassesReading["clears"]>;

/** How far is tried, by which steps, and how finely the border is then found: degrees, degrees, metres (halved to whole
 * centimetres). */
const TURN = { limit: 30, step: 2, fine: 0.25 } as const;
const RAISE = { limit: 20, step: 2, fine: 0.25 } as const;
const HEIGHT = { limit: 1.52, step: 0.08, fine: 0.011 } as const;

/** The smallest turn or tip of the head that takes all these lights off both lenses; where none does, the height of one
 * of them, its front kept on the bridge of the nose. Null where nothing within reach does. */
export function smallestClearing(
  lighting: Lighting,
  person: number,
  lights: readonly number[],
): Clears | null {
  const { stage } = lighting;
  const isClear = (turn: number, raise: number, emitters: readonly Emitter[] = stage.scene.emitters) =>
    isClearAt(lighting, person, lights, turn, raise, emitters);
  const raise = nearest(RAISE, (x) => isClear(0, x));
  // a larger turn than that would not be named
  const limit = raise === null ? TURN.limit : Math.min(TURN.limit, Math.abs(raise) + TURN.step);
  const turn = nearest({ ...TURN, limit }, (x) => isClear(x, 0));
  if (turn !== null && (raise === null || Math.abs(turn) <= Math.abs(raise)))
    return { change: "turn", amount: turn, light: null };
  if (raise !== null) return { change: "raise", amount: raise, light: null };
  let best: Clears | null = null;
  for (const l of lights) {
    const lifted = (x: number) =>
      stage.scene.emitters.map((e, i) => (i === l ? raised(lighting, person, l, x) : e));
    const height = nearest(HEIGHT, (x) => isClear(0, 0, lifted(x)));
    const amount = height === null ? Number.POSITIVE_INFINITY : Math.round(100 * height);
    if (Math.abs(amount) < Math.abs(best?.amount ?? Number.POSITIVE_INFINITY))
      best = { change: "lightHeight", amount, light: stage.lights[l].name };
  }
  return best;
}

/** The smallest amount to either side that is right, by halving the step in which it becomes so. */
function nearest(
  { limit, step, fine }: { limit: number; step: number; fine: number },
  isRight: (amount: number) => boolean,
): number | null {
  for (let k = 1; k * step <= limit + 1e-9; k++) {
    const found = [1, -1].flatMap((sign) => {
      if (!isRight(sign * k * step)) return [];
      let wrong = (k - 1) * step;
      let right = k * step;
      while (right - wrong > fine) {
        const middle = (wrong + right) / 2;
        if (isRight(sign * middle)) right = middle;
        else wrong = middle;
      }
      return [sign * right];
    });
    if (found.length > 0) return found.sort((a, b) => Math.abs(a) - Math.abs(b))[0];
  }
  return null;
}

function isClearAt(
  { stage }: Lighting,
  person: number,
  lights: readonly number[],
  turn: number,
  raise: number,
  emitters: readonly Emitter[],
): boolean {
  const staged = stage.people[person];
  const pose = stage.plan.people[person].head;
  const rotation = multiply(staged.baseRotation, headRotation(pose.turn + turn, pose.tip + raise, pose.tilt));
  const meshes = stage.scene.meshes.map((mesh, i): MeshInstance => {
    const owner = stage.owners[i];
    if (owner.kind === "backdrop" || owner.kind === "body" || owner.person !== person) return mesh;
    // the bounding sphere is taken about the head's own origin, where no turn can leave it
    const [x, y, z] = mesh.offset;
    const reach = Math.hypot(mesh.sphere[0] - x, mesh.sphere[1] - y, mesh.sphere[2] - z) + mesh.sphere[3];
    return { ...mesh, rotation, sphere: Float64Array.of(x, y, z, reach) };
  });
  const tracer = new Tracer({ ...stage.scene, meshes, emitters });
  const posed = { headRotation: rotation, headOffset: staged.headOffset };
  const lenses = staged.shape.glasses?.lenses ?? [];
  return lenses.every((lens) =>
    new LensRays(tracer, lensInWorld(lens, posed), stage.plan.camera.position).isClearOf(lights),
  );
}

function raised({ stage }: Lighting, person: number, l: number, by: number): Emitter {
  const staged = stage.people[person];
  const [x, y, z] = toWorld(staged, staged.shape.head.landmarks.noseBridge);
  const light = stage.plan.lights[l];
  const [px, py, pz] = light.position;
  return emitterOf({ ...light, position: [px, py, pz + by], direction: { at: [x, y, z] } }, stage.plan);
}
