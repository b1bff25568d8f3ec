/** What is seen round the head, and what a light sends straight to it: the first look at a background's tone. */
import { askedFace, directByShare, HIT, POINT_STRIDE, TILE_BITS, Tracer } from "../engine/index.ts";
import { LUMINANCE } from "../photometry/index.ts";
import type { Light, Plan, Vec3 } from "../plan/index.ts";
import { project, viewfinder, writeCameraRay } from "../reading/camera-rays.ts";
import { toWorld } from "../reading/head-axes.ts";
import { emitterOf, type Stage, skinRgb, stage, stageLight } from "../staging/index.ts";

/** Pixels across the picture that is looked at, and how many places of it are lit. */
const ACROSS = 48;
const APART = 3;
const MOST_POINTS = 24;
/** As a whole reading takes the background: so far round the head, in head heights. */
const ROUND_HEAD = 0.9;
const RINGS = 1;
const ASKED = 4;
const FAR = 1e6;

interface Place {
  readonly at: Vec3;
  readonly normal: Vec3;
  /** of a neutral light */
  readonly reflectance: number;
}

export class Background {
  readonly places: readonly Place[];
  private readonly still: Stage;
  /** luminance of the lit cheek, times pi, for each lx.s on it */
  private readonly skin: number;

  constructor(
    private readonly plan: Plan,
    person: number,
  ) {
    this.still = stage({ ...plan, lights: [] });
    this.places = this.lookBehind(person);
    this.skin = neutral(skinRgb(plan.people[person].skin.reflectance));
  }

  /** Mean of what the places give back of a light as it stands, straight, lm.s/m2. */
  shine(light: Light): number {
    if (this.places.length === 0) return 0;
    const emitter = emitterOf(light, this.plan);
    const tracer = new Tracer({ ...this.still.scene, emitters: [emitter] });
    const face = askedFace(emitter, RINGS, ASKED);
    let sum = 0;
    for (const { at, normal, reflectance } of this.places)
      sum +=
        reflectance * directByShare(tracer, 0, face, at[0], at[1], at[2], normal[0], normal[1], normal[2]);
    const { lumenSeconds, meterWeights } = stageLight(light, this.plan);
    return (sum / this.places.length) * lumenSeconds * (meterWeights[0] + meterWeights[1] + meterWeights[2]);
  }

  /** Against the lit cheek; null where there is nothing behind the head, or no light on it. */
  stops(shines: number, litCheek: number): number | null {
    return shines > 0 && litCheek > 0 ? Math.log2(shines / (litCheek * this.skin)) : null;
  }

  /** What has to shine for so many stops. */
  shineFor(stops: number, litCheek: number): number {
    return litCheek * this.skin * 2 ** stops;
  }

  private lookBehind(person: number): Place[] {
    const { tracer, people } = this.still;
    const view = viewfinder(this.plan.camera, ACROSS);
    const { chin, crown } = people[person].shape.head.landmarks;
    const [low, high] = [
      project(view, toWorld(people[person], chin)),
      project(view, toWorld(people[person], crown)),
    ];
    if (low === null || high === null) return [];
    const round = ROUND_HEAD * Math.hypot(high[0] - low[0], high[1] - low[1]);
    const [mx, my] = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
    const ray = new Float64Array(3);
    const [x, y, z] = view.position;
    const found: Place[] = [];
    for (let j = 0; j < view.height; j += APART)
      for (let i = 0; i < view.width; i += APART) {
        if (Math.hypot(i + 0.5 - mx, j + 0.5 - my) > round) continue;
        writeCameraRay(view, i + 0.5, j + 0.5, ray);
        if (!tracer.closest(x, y, z, ray[0], ray[1], ray[2], FAR, true)) continue;
        const place = this.placeHit(view.position, ray);
        if (place !== null) found.push(place);
      }
    const every = Math.max(1, found.length / MOST_POINTS);
    return found.filter((_, k) => Math.floor(k / every) !== Math.floor((k - 1) / every));
  }

  /** Backdrop or wall; null for anything else. */
  private placeHit(from: readonly number[], ray: Float64Array): Place | null {
    const { tracer, owners, scene } = this.still;
    const isBackdrop = tracer.kind === HIT.mesh && owners[tracer.index].kind === "backdrop";
    if ((!isBackdrop && tracer.kind !== HIT.room) || tracer.tile < 0) return null;
    const n = POINT_STRIDE * tracer.tile + 3;
    const patch = 3 * (tracer.tile >> TILE_BITS);
    const { points, reflectance } = scene.patches;
    const normal: Vec3 = [points[n], points[n + 1], points[n + 2]];
    const at = [0, 1, 2].map((k) => from[k] + tracer.t * ray[k] + LIFT_M * normal[k]) as Vec3;
    return { at, normal, reflectance: neutral(reflectance.subarray(patch, patch + 3)) };
  }
}

const LIFT_M = 1e-3;

function neutral(rgb: ArrayLike<number>): number {
  return LUMINANCE[0] * rgb[0] + LUMINANCE[1] * rgb[1] + LUMINANCE[2] * rgb[2];
}

const kept = new WeakMap<Plan, Background>();

/** Once for a plan without the lights that are looked for. */
export function backgroundOf(plan: Plan, person: number): Background {
  let background = kept.get(plan);
  if (background === undefined) {
    background = new Background(plan, person);
    kept.set(plan, background);
  }
  return background;
}
