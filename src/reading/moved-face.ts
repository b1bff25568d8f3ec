/** One face read anew where its person has drifted to, or with the head held another way, all else as it stands: the
 * direct light is traced against the whole scene, the bounce looked round for at a few places and drawn between them.
 * What surfaces send back is kept as planned. */
import { cutFace, directFlat, type FaceParts, Tracer } from "../engine/index.ts";
import type { Plan } from "../plan/index.ts";
import { type StagedPerson, stagePerson } from "../staging/index.ts";
import { readBridge } from "./bridge.ts";
import { faceShares, worldSamples } from "./face-light.ts";
import { faceParts, meanOver } from "./face-parts.ts";
import { type FaceSamples, faceSamples } from "./face-samples.ts";
import { toWorld } from "./head-axes.ts";
import { type Lighting, lightUp, WORK } from "./lighting.ts";
import type { Memory } from "./memory.ts";
import { MovedBounce } from "./moved-bounce.ts";
import { sceneWith } from "./moved-scene.ts";
import { DARK, type PatternReading, readPattern } from "./pattern.ts";
import { QUICK_RINGS, type QuickLight, quickLight } from "./quick-light.ts";
import { type TracedFace, writeTracedExposure } from "./quick-traced.ts";

/** Metres to the person's own left and to where the body faces; degrees added to head.turn and head.tip. */
export interface Moved {
  readonly aside: number;
  readonly ahead: number;
  readonly turn: number;
  readonly tip: number;
}

export const STAYED: Moved = { aside: 0, ahead: 0, turn: 0, tip: 0 };

/** The cheeks there, and the rest of the face when it is asked for: until the next place is. */
export interface MovedCheeks {
  readonly litCheek: number;
  readonly ratioStops: number | null;
  whole(): MovedReading;
}

export interface MovedReading extends PatternReading {
  /** of the skin that the camera sees, lx.s at its brightest sample */
  readonly brightest: number;
}

export class MovedFace {
  readonly samples: FaceSamples;
  private readonly lighting: Lighting;
  private readonly bounce: MovedBounce;
  private readonly fronts: readonly QuickLight[];
  private readonly parts: readonly FaceParts[];
  /** the lights with nothing in the way */
  private readonly bare: Tracer;
  private readonly meshes: readonly number[];
  private readonly arriving: number;
  private readonly exposure: Float64Array;
  private readonly row: Float64Array;
  /** samples in the order in which they are traced: the cheeks first, which often say enough */
  private readonly order: Uint16Array;
  private readonly cheeks: number;
  private readonly planned: Flow;

  /** Lights the plan up at coarse quality, unless `memory` knows it. */
  constructor(
    private readonly plan: Plan,
    private readonly person: number,
    memory: Memory,
  ) {
    this.lighting = lightUp(plan, "coarse", memory);
    const { stage } = this.lighting;
    const staged = stage.people[person];
    this.samples = faceSamples(staged.shape.head, WORK.coarse.spacing);
    this.fronts = stage.scene.emitters.map((e) => quickLight(e, QUICK_RINGS.search));
    this.parts = stage.scene.emitters.map((e) => cutFace(e, QUICK_RINGS.search));
    this.bare = new Tracer({ ...stage.scene, meshes: [], quads: [] });
    this.meshes = stage.owners.flatMap((o, i) => ("person" in o && o.person === person ? [i] : []));
    this.arriving = readBridge(plan, this.lighting, person).arriving;
    this.exposure = new Float64Array(this.samples.count);
    this.row = new Float64Array(this.samples.count);
    const { leftCheek, rightCheek } = faceParts(this.samples, staged.shape.head.landmarks);
    const first = [...leftCheek, ...rightCheek];
    const isFirst = new Set(first);
    const others = Array.from({ length: this.samples.count }, (_, s) => s).filter((s) => !isFirst.has(s));
    this.order = Uint16Array.from([...first, ...others]);
    this.cheeks = first.length;
    this.planned = this.flowAt(staged);
    this.bounce = new MovedBounce(this.lighting, this.meshes, faceShares(this.lighting, person), {
      staged: (moved) => this.stagedAt(moved),
      tracer: (at) => this.tracerAt(at),
      gains: (at) => this.flowAt(at).byLight.map((x, l) => gain(x, this.planned.byLight[l])),
    });
  }

  /** Where the mark moves to: metres in the room. */
  placeOf({ aside, ahead }: Moved): [number, number] {
    const [x, y] = this.plan.people[this.person].position;
    const r = this.lighting.stage.people[this.person].bodyRotation;
    return [x + ahead * r[0] + aside * r[1], y + ahead * r[3] + aside * r[4]];
  }

  read(moved: Moved): MovedReading {
    return this.at(moved).whole();
  }

  at(moved: Moved): MovedCheeks {
    const staged = this.stagedAt(moved);
    const { samples, exposure, order } = this;
    const marks = staged.shape.head.landmarks;
    const world = worldSamples(staged, samples);
    const points = new Float64Array(world.length);
    for (let k = 0; k < order.length; k++) points.set(world.subarray(6 * order[k], 6 * order[k] + 6), 6 * k);
    const face = { points, middle: middleOf(points), tracer: this.tracerAt(staged) };
    exposure.fill(this.lighting.stage.ambient);
    this.bounce.add(moved, exposure);
    this.addDirect(face, 0, this.cheeks);
    const { leftCheek, rightCheek } = faceParts(samples, marks);
    const sides = [meanOver(samples, exposure, leftCheek), meanOver(samples, exposure, rightCheek)];
    const [shadowCheek, litCheek] = [Math.min(...sides), Math.max(...sides)];
    return {
      litCheek,
      ratioStops: shadowCheek < DARK ? null : Math.log2(litCheek / shadowCheek),
      whole: () => {
        this.addDirect(face, this.cheeks, samples.count);
        const arriving = this.arriving * gain(this.flowAt(staged).all, this.planned.all);
        return { ...readPattern(samples, exposure, marks, arriving), brightest: this.brightest(world) };
      },
    };
  }

  private stagedAt(moved: Moved): StagedPerson {
    const person = this.plan.people[this.person];
    const { turn, tip } = person.head;
    const head = { ...person.head, turn: turn + moved.turn, tip: tip + moved.tip };
    return stagePerson({ ...person, position: this.placeOf(moved), head }, this.plan);
  }

  /** Adds what comes straight from the lights, lx.s, to the samples whose turn is from..to. */
  private addDirect(face: Omit<TracedFace, "samples">, from: number, to: number) {
    const { lights, scene } = this.lighting.stage;
    const row = this.row.subarray(from, to);
    const part = { ...face, points: face.points.subarray(6 * from, 6 * to), samples: { count: to - from } };
    lights.forEach((light, l) => {
      if (!light.on) return;
      row.fill(0);
      writeTracedExposure(part, scene.emitters[l], this.fronts[l], row, l);
      const [r, g, b] = light.meterWeights;
      const weight = light.lumenSeconds * (r + g + b);
      for (let k = 0; k < row.length; k++) this.exposure[this.order[from + k]] += weight * row[k];
    });
  }

  private brightest(points: Float64Array): number {
    const [x, y, z] = this.plan.camera.position;
    let most = 0;
    for (let s = 0; s < this.exposure.length; s++) {
      const k = 6 * s;
      const toward =
        (x - points[k]) * points[k + 3] +
        (y - points[k + 1]) * points[k + 4] +
        (z - points[k + 2]) * points[k + 5];
      if (toward > 0 && this.exposure[s] > most) most = this.exposure[s];
    }
    return most;
  }

  private tracerAt(staged: StagedPerson): Tracer {
    return new Tracer(sceneWith(this.lighting.stage, this.meshes, staged));
  }

  /** What the lights send to the bridge of the nose with nothing in the way. */
  private flowAt(staged: StagedPerson): Flow {
    const { lights, scene } = this.lighting.stage;
    const [x, y, z] = toWorld(staged, staged.shape.head.landmarks.noseBridge);
    const sum = [0, 0, 0];
    const byLight = lights.map((light, l) => {
      const e = scene.emitters[l];
      const d = [e.centre[0] - x, e.centre[1] - y, e.centre[2] - z];
      const far = Math.hypot(d[0], d[1], d[2]);
      const flow = directFlat(
        this.bare,
        l,
        this.parts[l],
        0,
        1,
        x,
        y,
        z,
        d[0] / far,
        d[1] / far,
        d[2] / far,
        false,
      );
      const [r, g, b] = light.meterWeights;
      const weight = light.on ? (light.lumenSeconds * (r + g + b) * flow) / far : 0;
      for (let k = 0; k < 3; k++) sum[k] += weight * d[k];
      return flow;
    });
    return { byLight, all: Math.hypot(sum[0], sum[1], sum[2]) };
  }
}

interface Flow {
  /** lx.s per lm.s on a receptor that faces the light's middle */
  readonly byLight: readonly number[];
  /** length of the vector of all that are on, lx.s */
  readonly all: number;
}

const gain = (now: number, before: number) => (before > 0 ? now / before : 1);

function middleOf(points: Float64Array): Float64Array {
  const out = new Float64Array(3);
  const count = points.length / 6;
  for (let s = 0; s < count; s++) for (let k = 0; k < 3; k++) out[k] += points[6 * s + k] / count;
  return out;
}
