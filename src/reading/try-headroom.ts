/** How far the brightest skin stays below clipping, from points of skin instead of a picture: those of the faces, whose
 * light is known, and what other skin might be brighter. */
import { cutFace, directFlat, type FaceParts } from "../engine/index.ts";
import {
  clippingExposure,
  focalPlaneExposure,
  type LobeShares,
  lobeShare,
  underShine,
} from "../photometry/index.ts";
import { type StagedLight, skinRgb } from "../staging/index.ts";
import { SKIN_PERCENTILE } from "./camera.ts";
import { type Viewfinder, viewfinder } from "./camera-rays.ts";
import { type FaceShares, worldSamples } from "./face-light.ts";
import { POINT, platesInView } from "./frame-samples.ts";
import { Glints, taken } from "./frame-shine.ts";
import { ELSEWHERE, type Finish, finishes, glossAt } from "./frame-skin.ts";
import type { Lighting } from "./lighting.ts";
import { liftedPoints } from "./skin-rays.ts";
import { otherSkin, sizesInView } from "./try-skin.ts";

/** The width of a coarse reading's own picture: only its shape counts here. */
const WIDTH = 48;
/** Parts of a front that skin beside the faces asks. */
const RINGS = 2;
const LIFT = 1e-3;

/** Stops from the brightest skin to clipping; null where none is in the picture or none is lit.
 * Shape    `faces` in the order of the plan's people
 * Accuracy docs/spec/try.md [QF22] */
export function triedHeadroom(lighting: Lighting, faces: readonly FaceShares[]): number | null {
  const { camera } = lighting.stage.plan;
  const skin = new SkinInView(lighting);
  faces.forEach((shares, person) => {
    skin.addFace(person, shares);
  });
  faces.forEach((shares, person) => {
    skin.addOther(person, shares, skin.brightest());
  });
  const bright = skin.brightest();
  if (!(bright > 0)) return null;
  const limit = clippingExposure(camera.iso, camera.headroom);
  return Math.log2(limit / focalPlaneExposure(bright, camera.fNumber));
}

interface Lamp {
  readonly light: StagedLight;
  readonly index: number;
  readonly glints: Glints;
  readonly parts: FaceParts;
}

/** Points of one person, and how bright they look. */
interface Points {
  /** POINT numbers each, in the world */
  readonly at: Float32Array;
  readonly albedo: readonly number[];
  readonly finish: Finish | null;
  readonly gloss: (s: number) => number;
}

class SkinInView {
  private readonly shown: { weight: number; bright: number }[] = [];
  private readonly view: Viewfinder;
  private readonly lamps: readonly Lamp[];
  private readonly finish: readonly (Finish | null)[];
  private readonly sum = new Float64Array(3);

  constructor(private readonly lighting: Lighting) {
    const { stage } = lighting;
    const view = viewfinder(stage.plan.camera, WIDTH);
    this.view = view;
    this.lamps = stage.lights.flatMap((light, index) => {
      const parts = cutFace(stage.scene.emitters[index], RINGS);
      return light.on ? [{ light, index, parts, glints: new Glints(lighting, view, index) }] : [];
    });
    this.finish = finishes(lighting);
  }

  /** Mean over so much of the visible skin from the brightest down that its middle is where a whole reading looks. */
  brightest(): number {
    this.shown.sort((a, b) => b.bright - a.bright);
    const all = 2 * (1 - SKIN_PERCENTILE) * this.shown.reduce((sum, s) => sum + s.weight, 0);
    let left = all;
    let sum = 0;
    for (const { weight, bright } of this.shown) {
      const part = Math.min(left, weight);
      sum += part * bright;
      left -= part;
      if (!(left > 0)) break;
    }
    return all > 0 ? sum / all : 0;
  }

  addFace(person: number, { samples, direct, bounced }: FaceShares) {
    const { stage } = this.lighting;
    const staged = stage.people[person];
    const at = Float32Array.from(worldSamples(staged, samples));
    const weights = this.weights(`face ${person} ${samples.count}`, at, samples.area);
    const points = this.pointsOf(person, "head", at, (s) => glossAt(staged, at, POINT * s));
    for (let s = 0; s < samples.count; s++) {
      if (!(weights[s] > 0)) continue;
      const bright = this.bright(
        points,
        s,
        ({ index }) => direct[index][s],
        ({ index }, c) => bounced[index][3 * s + c],
      );
      this.shown.push({ weight: weights[s], bright });
    }
  }

  /** Other skin is asked for shadows only where it might be among the brightest, `least` or more. */
  addOther(person: number, { samples, bounced }: FaceShares, least: number) {
    const { stage } = this.lighting;
    const staged = stage.people[person];
    const { head, body } = staged.shape;
    // nobody looks round from here: what bounces onto the face in the mean will do
    const mean = bounced.map((b) =>
      [0, 1, 2].map((c) => b.reduce((sum, x, i) => sum + (i % 3 === c ? x : 0), 0) / samples.count),
    );
    for (const part of ["head", "body"] as const) {
      const isHead = part === "head";
      const chosen = otherSkin(isHead ? head.mesh : body, isHead ? head.front : null);
      const mesh = isHead ? staged.headMesh : body;
      const pick = (from: Float64Array) =>
        Float64Array.from(
          { length: 3 * chosen.vertex.length },
          (_, i) => from[3 * chosen.vertex[Math.floor(i / 3)] + (i % 3)],
        );
      const [rotation, offset] = isHead
        ? [staged.headRotation, staged.headOffset]
        : [staged.bodyRotation, staged.bodyOffset];
      const at = Float32Array.from(
        liftedPoints(rotation, offset, pick(mesh.positions), pick(mesh.normals), chosen.vertex.length, LIFT),
      );
      const weights = this.weights(`${part} ${person}`, at, chosen.area);
      const points = this.pointsOf(person, part, at, (s) =>
        isHead ? glossAt(staged, at, POINT * s) : ELSEWHERE,
      );
      const bounce = ({ index }: Lamp, c: number) => mean[index][c];
      for (let s = 0; s < chosen.vertex.length; s++) {
        if (!(weights[s] > 0)) continue;
        const most = this.bright(points, s, (lamp) => this.direct(lamp, at, s, false), bounce);
        const bright =
          most > least ? this.bright(points, s, (lamp) => this.direct(lamp, at, s, true), bounce) : most;
        this.shown.push({ weight: weights[s], bright });
      }
    }
  }

  private pointsOf(
    person: number,
    part: "head" | "body",
    at: Float32Array,
    gloss: (s: number) => number,
  ): Points {
    const { plan, owners } = this.lighting.stage;
    const mesh = owners.findIndex((o) => o.kind === part && o.person === person);
    return { at, gloss, finish: this.finish[mesh], albedo: skinRgb(plan.people[person].skin.reflectance) };
  }

  private direct({ index, parts }: Lamp, at: Float32Array, s: number, shadows: boolean): number {
    const [x, y, z, nx, ny, nz] = at.subarray(POINT * s, POINT * s + POINT);
    return directFlat(this.lighting.stage.tracer, index, parts, 0, 1, x, y, z, nx, ny, nz, shadows);
  }

  /** Luminance x time in the brightest channel, glints as frame-shine.ts has them. */
  private bright(
    { at, albedo, finish, gloss }: Points,
    s: number,
    direct: (lamp: Lamp) => number,
    bounce: (lamp: Lamp, channel: number) => number,
  ): number {
    const { sum } = this;
    for (let c = 0; c < 3; c++) sum[c] = this.lighting.stage.ambient * albedo[c];
    const own = finish !== null && finish.shine > 0 ? finish.shine * gloss(s) : 0;
    for (const lamp of this.lamps) {
      const straight = direct(lamp);
      const { cameraWeights, lumenSeconds } = lamp.light;
      // what lies in shadow is matt here: it is not the brightest
      const glints = own > 0 && straight > 0;
      if (glints) lamp.glints.look(at, POINT * s, own, (finish as Finish).skin);
      for (let c = 0; c < 3; c++) {
        const back = bounce(lamp, c);
        const shows = glints
          ? glossy(
              albedo[c],
              lamp.glints,
              (finish as Finish).skin,
              taken(own, finish as Finish),
              straight,
              back,
            )
          : albedo[c] * (straight + back);
        sum[c] += cameraWeights[c] * lumenSeconds * shows;
      }
    }
    return Math.max(sum[0], sum[1], sum[2]) / Math.PI;
  }

  /** How large each point is in the picture; 0 where it is not seen. */
  private weights(slot: string, at: Float32Array, area: Float64Array): Float64Array {
    const { memory, stillKey, plateKeys } = this.lighting;
    const plates = platesInView(this.lighting, this.view).map((i) => plateKeys[i]);
    return memory.recall(`shown ${slot}`, stillKey + JSON.stringify([this.view, plates]), () =>
      sizesInView(this.lighting, this.view, at, area),
    );
  }
}

function glossy(
  albedo: number,
  { off, entering, leaving }: Glints,
  skin: LobeShares,
  shine: number,
  straight: number,
  back: number,
): number {
  const under = underShine(albedo, shine * lobeShare(skin, 1)) * (1 - leaving);
  return under * (entering * straight + back) + off * straight + leaving * back;
}
