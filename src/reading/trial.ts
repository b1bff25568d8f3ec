/** A face tried in another pose, at another place, or under a light that stands higher: the direct light is traced anew,
 * the bounce, which hardly changes, is kept from the pose as it is. */
import { cutFace, directFlat, type Emitter, type MeshInstance, type Scene, Tracer } from "../engine/index.ts";
import { headRotation } from "../figure/index.ts";
import { emitterOf, multiply } from "../staging/index.ts";
import { type FaceShares, faceExposure, worldSamples } from "./face-light.ts";
import { type FaceSamples, faceSamples, nearestSample } from "./face-samples.ts";
import { type Lighting, WORK } from "./lighting.ts";
import { readPattern } from "./pattern.ts";
import type { Pattern } from "./types.ts";

/** What is tried, all else as planned: degrees for the head (+ own left, + chin up), metres for the rest (+ the person's
 * own left, + to where the body faces). */
export interface Change {
  readonly turn: number;
  readonly raise: number;
  readonly lightHeight: number;
  readonly driftAside: number;
  readonly driftAhead: number;
}

export const NO_CHANGE: Change = { turn: 0, raise: 0, lightHeight: 0, driftAside: 0, driftAhead: 0 };

/** Parts of a light's face while trying: the border moves by under a degree from 16 to 64 (measured). */
const TRIAL_RINGS = 2;

export class FaceTrial {
  private readonly samples: FaceSamples;
  private readonly bounced: FaceShares["bounced"];
  private readonly meshes: readonly number[];
  /** direct shares of all lights by change: a new power tries the same poses again */
  private readonly tried: Map<string, readonly Float64Array[]>;

  /** `light` is the one that is raised; `arriving` the light vector's length at the bridge of the nose as planned. */
  constructor(
    private readonly lighting: Lighting,
    private readonly person: number,
    private readonly light: number,
    shares: FaceShares,
    private readonly arriving: number,
  ) {
    const { stage } = lighting;
    this.samples = faceSamples(stage.people[person].shape.head, WORK.coarse.spacing);
    this.bounced = carried(shares, this.samples);
    this.meshes = stage.owners.flatMap((o, i) => ("person" in o && o.person === person ? [i] : []));
    const { memory, lightKey } = lighting;
    this.tried = memory.recall(`tried ${person}`, `${lightKey} ${light}`, () => new Map());
  }

  patternAt(change: Change): Pattern {
    const { stage } = this.lighting;
    const emitters = this.emittersAt(change);
    const key = JSON.stringify(change);
    let direct = this.tried.get(key);
    if (!direct) {
      direct = this.trace(change, emitters);
      this.tried.set(key, direct);
    }
    const exposure = faceExposure(this.lighting, { samples: this.samples, direct, bounced: this.bounced });
    const arriving = this.arriving * this.gain(emitters, this.shiftOf(change));
    const marks = stage.people[this.person].shape.head.landmarks;
    return readPattern(this.samples, exposure, marks, arriving).pattern;
  }

  private trace(change: Change, emitters: readonly Emitter[]): Float64Array[] {
    const { stage } = this.lighting;
    const staged = stage.people[this.person];
    const pose = stage.plan.people[this.person].head;
    const rotation = multiply(
      staged.baseRotation,
      headRotation(pose.turn + change.turn, pose.tip + change.raise, pose.tilt),
    );
    const shift = this.shiftOf(change);
    const offset = staged.headOffset.map((x, k) => x + shift[k]);
    const tracer = new Tracer({ ...this.moved(rotation, shift), emitters });
    const world = worldSamples({ ...staged, headRotation: rotation, headOffset: offset }, this.samples);
    // lights that are off as well, so that switching one on traces nothing
    return stage.lights.map((_, l) =>
      change.lightHeight !== 0 && l !== this.light ? this.unmoved(l) : directFrom(tracer, l, world),
    );
  }

  /** What a light sends that a change leaves as it is. */
  private unmoved(light: number): Float64Array {
    const key = `unmoved ${light}`;
    let kept = this.tried.get(key);
    if (!kept) {
      const { stage } = this.lighting;
      kept = [directFrom(stage.tracer, light, worldSamples(stage.people[this.person], this.samples))];
      this.tried.set(key, kept);
    }
    return kept[0];
  }

  private emittersAt(change: Change): Emitter[] {
    return this.lighting.stage.scene.emitters.map((e, l) => (l === this.light ? this.raised(change, e) : e));
  }

  private shiftOf({ driftAside, driftAhead }: Change): number[] {
    const r = this.lighting.stage.people[this.person].bodyRotation;
    // the body's own left and ahead on the floor are the second and the first column
    return [0, 1, 2].map((k) => driftAhead * r[3 * k] + driftAside * r[3 * k + 1]);
  }

  /** A light that is aimed at a point stays aimed at it. */
  private raised({ lightHeight }: Change, as: Emitter): Emitter {
    if (lightHeight === 0) return as;
    const { plan } = this.lighting.stage;
    const light = plan.lights[this.light];
    const [x, y, z] = light.position;
    return emitterOf({ ...light, position: [x, y, z + lightHeight] }, plan);
  }

  /** How much more of the light that is meant arrives at the bridge of the nose than as planned, nothing in its way. */
  private gain(emitters: readonly Emitter[], shift: readonly number[]): number {
    if (this.light < 0) return 1;
    const staged = this.lighting.stage.people[this.person];
    const [x, y, z] = staged.headOffset;
    const before = facing(this.lighting.stage.scene, this.light, [x, y, z]);
    const after = facing({ ...this.lighting.stage.scene, emitters }, this.light, [
      x + shift[0],
      y + shift[1],
      z + shift[2],
    ]);
    return before > 0 ? after / before : 1;
  }

  /** The scene with the head turned about its own origin and the whole person shifted. */
  private moved(rotation: Float64Array, shift: readonly number[]): Scene {
    const { scene, owners } = this.lighting.stage;
    const meshes = scene.meshes.map((mesh, i): MeshInstance => {
      if (!this.meshes.includes(i)) return mesh;
      const offset = mesh.offset.map((x, k) => x + shift[k]);
      if (owners[i].kind === "body") {
        const sphere = mesh.sphere.map((x, k) => x + (k < 3 ? shift[k] : 0));
        return { ...mesh, offset, sphere };
      }
      // the bounding sphere is taken about the origin of the mesh, where no turn can leave it
      const [x, y, z] = mesh.offset;
      const reach = Math.hypot(mesh.sphere[0] - x, mesh.sphere[1] - y, mesh.sphere[2] - z) + mesh.sphere[3];
      return { ...mesh, rotation, offset, sphere: Float64Array.of(offset[0], offset[1], offset[2], reach) };
    });
    return { ...scene, meshes };
  }
}

function directFrom(tracer: Tracer, light: number, world: Float64Array): Float64Array {
  const parts = cutFace(tracer.scene.emitters[light], TRIAL_RINGS);
  const out = new Float64Array(world.length / 6);
  for (let s = 0; s < out.length; s++) {
    const k = 6 * s;
    out[s] = directFlat(
      tracer,
      light,
      parts,
      0,
      1,
      world[k],
      world[k + 1],
      world[k + 2],
      world[k + 3],
      world[k + 4],
      world[k + 5],
    );
  }
  return out;
}

/** lx.s per lm.s on a receptor that faces the light's centre. */
function facing(scene: Scene, light: number, [x, y, z]: readonly [number, number, number]): number {
  const e = scene.emitters[light];
  const d = [e.centre[0] - x, e.centre[1] - y, e.centre[2] - z];
  const far = Math.hypot(d[0], d[1], d[2]);
  const parts = cutFace(e, TRIAL_RINGS);
  const tracer = new Tracer({ ...scene, meshes: [] });
  return directFlat(tracer, light, parts, 0, 1, x, y, z, d[0] / far, d[1] / far, d[2] / far, false);
}

/** Bounced shares of the full reading, carried to the thinner samples by their nearest neighbour. */
function carried(shares: FaceShares, to: FaceSamples): FaceShares["bounced"] {
  const nearest = Int32Array.from({ length: to.count }, (_, s) => nearestSample(shares.samples, to, s));
  return shares.bounced.map((b) => {
    const out = new Float64Array(3 * to.count);
    for (let s = 0; s < to.count; s++) for (let c = 0; c < 3; c++) out[3 * s + c] = b[3 * nearest[s] + c];
    return out;
  });
}
