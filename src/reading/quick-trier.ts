/** The fast road: face, background and eyes looked up or traced by themselves. Numbers that a whole reading of the base
 * has as well are carried over by what changes. */
import type { Plan } from "../plan/index.ts";
import { sideSeen, strongestLight } from "./face.ts";
import { type FaceShares, faceExposure, faceShares } from "./face-light.ts";
import { faceParts, meanOver } from "./face-parts.ts";
import { type PlanReading, readPlan } from "./index.ts";
import type { Lighting, Quality } from "./lighting.ts";
import type { Memory } from "./memory.ts";
import { readCheeks, readPattern } from "./pattern.ts";
import { triedBackground } from "./try-background.ts";
import { triedBridge } from "./try-bridge.ts";
import { triedEdge } from "./try-edge.ts";
import { triedEyes } from "./try-eyes.ts";
import { isHeldAs, SPACING, triedFace } from "./try-face.ts";
import { triedHeadroom } from "./try-headroom.ts";
import type { Costly, Trier, TryReading } from "./try-reading.ts";
import { type TryBase, tryBase, varied } from "./try-stage.ts";

export interface TrierOptions {
  /** of the base's own whole reading: coarse where nothing is said */
  readonly quality?: Quality;
  /** many hundred set-ups will be asked: what the faces see past their own bodies is found once, in half a second each,
   * and looked up from then on */
  readonly isMany?: boolean;
}

/** Reads variations of `base`.
 * Accuracy against whole readings: docs/spec/try.md [QF16] to [QF24] */
export function quickTrier(base: Plan, person: number, memory: Memory, options: TrierOptions = {}): Trier {
  const trier = new QuickTrier(base, person, memory, options);
  return { read: (plan, leaveOut = []) => trier.read(plan, leaveOut) };
}

class QuickTrier {
  private readonly base: TryBase;
  private readonly full: PlanReading;
  private readonly kept: Kept;

  constructor(
    base: Plan,
    private readonly person: number,
    memory: Memory,
    private readonly options: TrierOptions,
  ) {
    const quality = options.quality ?? "coarse";
    this.full = readPlan(base, quality, memory);
    this.base = tryBase(base, quality, memory);
    this.kept = this.compare();
  }

  read(plan: Plan, leaveOut: readonly Costly[]): TryReading {
    const { base, person, kept } = this;
    const lighting = varied(base, plan);
    const wants = (what: Costly) => !leaveOut.includes(what);
    const isAll = wants("litCheeks") || wants("headroomStops");
    const faces = lighting.stage.people.map((_, i) =>
      i === person || isAll || (i === 0 && wants("backgroundStops")) ? this.faceOf(lighting, i) : null,
    );
    const own = faces[person] as FaceShares;
    const cheeks = faces.map((face, i) => face && carriedOver(kept.cheeks[i], cheeksOf(lighting, i, face)));
    const bridge = triedBridge(base, lighting, person);
    const marks = lighting.stage.people[person].shape.head.landmarks;
    const { pattern, between } = readPattern(
      own.samples,
      faceExposure(lighting, own),
      marks,
      bridge.arriving,
    );
    const read = readCheeks(...(cheeks[person] as Cheeks));
    const main = strongestLight(lighting, own.direct);
    const litSign = read.litSide === "right" ? -1 : 1;
    const lit = cheeks.map((pair) => (pair ? Math.max(...pair) : 0));
    const background = wants("backgroundStops") ? triedBackground(lighting, lit[0]) : null;
    const headroom = wants("headroomStops")
      ? triedHeadroom(
          lighting,
          faces.filter((f) => f !== null),
        )
      : null;
    return {
      pattern,
      between,
      ...read,
      side: sideSeen(lighting, person, read.litSide),
      light: { azimuth: bridge.azimuth, elevation: bridge.elevation },
      shadowEdgeMillimetres:
        wants("shadowEdgeMillimetres") && main >= 0 ? triedEdge(lighting, person, main, litSign) : null,
      catchlights: wants("catchlights") ? triedEyes(base.lighting, lighting, person) : [],
      backgroundStops: background === null ? null : background + kept.background,
      headroomStops: headroom === null ? null : headroom + kept.headroom,
      litCheeks: wants("litCheeks") ? lit : [],
    };
  }

  private faceOf(lighting: Lighting, person: number): FaceShares {
    const spacing = person === this.person ? SPACING.read : SPACING.others;
    const before = this.base.lighting.stage.people[person];
    const looked = this.options.isMany === true && isHeldAs(before, lighting.stage.people[person]);
    return triedFace(lighting, person, spacing, looked);
  }

  /** What the quick way makes of the base, against the whole reading of it. */
  private compare(): Kept {
    const { base, full } = this;
    const { lighting, quick } = base;
    const faces = lighting.stage.people.map((_, i) => this.faceOf(quick, i));
    const cheeks = faces.map((face, i) => ({
      is: cheeksOf(quick, i, face),
      whole: cheeksOf(lighting, i, faceShares(lighting, i)),
    }));
    const { camera } = full;
    const headroom = triedHeadroom(quick, faces);
    const background = triedBackground(quick, Math.max(...cheeks[0].whole));
    const off = (a: number | null, b: number | null) => (a === null || b === null ? 0 : a - b);
    return {
      cheeks,
      headroom: off(camera.headroomStops, headroom),
      background: off(camera.backgroundStops, background),
    };
  }
}

/** What is carried over from the base. */
interface Kept {
  /** per person */
  readonly cheeks: readonly { readonly is: Cheeks; readonly whole: Cheeks }[];
  /** stops to be added */
  readonly headroom: number;
  readonly background: number;
}

/** Own left and own right, lx.s. */
type Cheeks = readonly [number, number];

function cheeksOf(lighting: Lighting, person: number, face: FaceShares): Cheeks {
  const exposure = faceExposure(lighting, face);
  const parts = faceParts(face.samples, lighting.stage.people[person].shape.head.landmarks);
  return [
    meanOver(face.samples, exposure, parts.leftCheek),
    meanOver(face.samples, exposure, parts.rightCheek),
  ];
}

/** What a cheek has too much or too little in the base it keeps as long as its part of the light on both is much as it
 * was: of that less is left the farther it is off, none from so many stops on. */
const FADES_STOPS = 2;

function carriedOver({ is, whole }: Kept["cheeks"][number], now: Cheeks): Cheeks {
  const one = (k: 0 | 1) => {
    if (!(is[k] > 0 && whole[k] > 0 && now[k] > 0)) return now[k];
    const apart = Math.log2((now[k] * (is[0] + is[1])) / (is[k] * (now[0] + now[1])));
    const left = Math.max(0, 1 - Math.abs(apart) / FADES_STOPS);
    return now[k] * (whole[k] / is[k]) ** left;
  };
  return [one(0), one(1)];
}
