/** Set-ups of lights on one face, looked up and not traced. What each light sends is found apart, per lm.s, as one row of
 * numbers; a set-up is the rows weighed by the lights' powers and added. So a new power costs a sum, and a light that
 * moves costs its own row alone. */
import type { Emitter } from "../engine/index.ts";
import type { Plan } from "../plan/index.ts";
import { type StagedPerson, stage } from "../staging/index.ts";
import { faceParts, meanOver } from "./face-parts.ts";
import { CLOSER_SHARE } from "./face-samples.ts";
import { toWorld } from "./head-axes.ts";
import { WORK } from "./lighting.ts";
import { type PatternReading, readCheeks, readPattern } from "./pattern.ts";
import { writeQuickExposure } from "./quick-exposure.ts";
import { type QuickFace, quickCheeks, quickFace } from "./quick-face.ts";
import { QUICK_RINGS, type QuickLight, quickLight } from "./quick-light.ts";
import { type PlacedPanel, QuickPanel } from "./quick-panel.ts";
import { type MovableEmitter, movableEmitter, NO_LIGHT, takeForm, writeHeadEmitter } from "./quick-place.ts";
import { NEUTRAL, QuickRoom, type Weights } from "./quick-room.ts";
import { readyLamp, sent } from "./quick-sent.ts";

/** After the samples of skin, a row holds the light at the bridge of the nose, the person away: the vector in head axes
 * and the sum over all directions, lx.s per lm.s; then by how much the mean over each cheek, taken at the samples of a
 * fine reading, is more than the mean over the samples here (even light adds nothing to those two); last the mean
 * exitance of the room's walls from light that has been reflected before. */
export const ROW_TAIL = { ahead: 0, left: 1, up: 2, sum: 3, leftCheek: 4, rightCheek: 5, around: 6 } as const;
const TAIL = 7;

/** What a first look at a light holds, lx.s per lm.s: as ROW_TAIL, but the means over the cheeks themselves. */
export const LOOK = ROW_TAIL;
export const LOOK_LENGTH = TAIL;

/** Metres between samples: as in a coarse reading, but where a pattern is decided, round nose and mouth, as in a fine one.
 * With those of a coarse reading there as well 95 of 100 names are a fine reading's, with these 98. */
const SPACING = WORK.coarse.spacing;
const CLOSER = CLOSER_SHARE * WORK.fine.spacing;

export class QuickSet {
  readonly face: QuickFace;
  readonly staged: StagedPerson;
  /** numbers in a row: the samples of skin, then ROW_TAIL */
  readonly rowLength: number;
  private readonly cheeks: QuickFace;
  private readonly cheekLight: Float64Array;
  private readonly bridge: Float64Array;
  private readonly panel = new QuickPanel();
  /** room for a row */
  private readonly added: Float64Array;
  /** of the face, in the world */
  private readonly middle: readonly number[];
  /** room for a light in the axes of the head, so that a row makes nothing */
  private readonly own: MovableEmitter;
  private readonly fronts = new Map<string, QuickLight>();
  private readonly findRoom: () => QuickRoom | null;

  /** Of the plan only what stands still counts: lights are given one by one. What the room gives back is worked out with
   * the first row (some 0.3 s), and left out without `bounce`. */
  constructor(plan: Plan, person: number, options: { bounce?: boolean } = {}) {
    this.staged = stage({ ...plan, lights: [] }).people[person];
    this.face = quickFace(this.staged, SPACING, CLOSER);
    this.cheeks = quickCheeks(this.staged, WORK.fine.spacing);
    this.cheekLight = new Float64Array(this.cheeks.samples.count);
    this.rowLength = this.face.samples.count + TAIL;
    this.bridge = Float64Array.from(this.staged.shape.head.landmarks.noseBridge);
    this.own = movableEmitter(NO_LIGHT);
    this.added = new Float64Array(this.rowLength);
    this.middle = toWorld(this.staged, this.face.middle);
    let room: QuickRoom | null = null;
    this.findRoom = () => {
      if (options.bounce !== false) room ??= new QuickRoom(plan, person, this.face, this.cheeks);
      return room;
    };
  }

  /** A front cut once, whatever way it will stand; one of the same shape, size, lobe and edge is the same. */
  front(e: Emitter): QuickLight {
    const key = [e.shape, e.halfWidth, e.halfHeight, e.sides, e.exponent, e.edgeDrop].join();
    let front = this.fronts.get(key);
    if (!front) {
      front = quickLight(e, QUICK_RINGS.search);
      this.fronts.set(key, front);
    }
    return front;
  }

  /** Writes what one light sends, per lm.s, over `row`. `e` stands in the world and is cut as `front` says; `weights` are
   * a staged light's meterWeights (its gel's loss is in the row then); `others_m2` the area of the other lights' fronts,
   * whose plates swallow some of what the room gives back. */
  writeRow(e: Emitter, front: QuickLight, row: Float64Array, weights: Weights = NEUTRAL, others_m2 = 0) {
    const { count } = this.face.samples;
    row.fill(0);
    this.writeHead(e, front, row, count);
    writeQuickExposure(this.face, this.own, front, row);
    row[count + ROW_TAIL.leftCheek] -= this.coarseCheek(row, 0);
    row[count + ROW_TAIL.rightCheek] -= this.coarseCheek(row, 1);
    weigh(row, weights);
    this.findRoom()?.addTo(e, front, weights, others_m2, row);
  }

  /** A first look, in a small part of the time: the bridge and the two cheeks alone, over `look`. */
  writeLook(e: Emitter, front: QuickLight, look: Float64Array, weights: Weights = NEUTRAL, others_m2 = 0) {
    look.fill(0);
    this.writeHead(e, front, look, 0);
    weigh(look, weights);
    this.findRoom()?.addToLook(e, front, weights, others_m2, look);
  }

  /** Bridge and cheeks, direct, into out[at ..]; the light stands in `own` from here on. */
  private writeHead(e: Emitter, front: QuickLight, out: Float64Array, at: number) {
    const { own, cheekLight } = this;
    takeForm(own, e);
    writeHeadEmitter(own, e, this.staged);
    this.writeBridge(own, front, out, at);
    cheekLight.fill(0);
    writeQuickExposure(this.cheeks, own, front, cheekLight);
    const { samples } = this.cheeks;
    const parts = faceParts(samples, this.staged.shape.head.landmarks);
    out[at + ROW_TAIL.leftCheek] = meanOver(samples, cheekLight, parts.leftCheek);
    out[at + ROW_TAIL.rightCheek] = meanOver(samples, cheekLight, parts.rightCheek);
  }

  private writeBridge(own: Emitter, front: QuickLight, out: Float64Array, at: number) {
    readyLamp(own);
    const { right_m, up_m, share } = front.level;
    let ahead = 0;
    let left = 0;
    let up = 0;
    let sum = 0;
    for (let k = 0; k < share.length; k++) {
      const x = own.centre[0] + right_m[k] * own.right[0] + up_m[k] * own.up[0] - this.bridge[0];
      const y = own.centre[1] + right_m[k] * own.right[1] + up_m[k] * own.up[1] - this.bridge[1];
      const z = own.centre[2] + right_m[k] * own.right[2] + up_m[k] * own.up[2] - this.bridge[2];
      const far = Math.sqrt(x * x + y * y + z * z);
      const here = share[k] * sent(own, front, x, y, z, far);
      ahead += (here * x) / far;
      left += (here * y) / far;
      up += (here * z) / far;
      sum += here;
    }
    out[at + ROW_TAIL.ahead] = ahead;
    out[at + ROW_TAIL.left] = left;
    out[at + ROW_TAIL.up] = up;
    out[at + ROW_TAIL.sum] = sum;
  }

  /** Adds to what `writeRow` wrote what the same light sends by way of a panel that stands alone before the walls. */
  addPanel(panel: PlacedPanel, e: Emitter, front: QuickLight, row: Float64Array, weights: Weights = NEUTRAL) {
    const { count } = this.face.samples;
    const around = row[count + ROW_TAIL.around];
    const walls = this.findRoom()?.wallReflectance ?? 0;
    const second = this.panel.lit(panel, e, front, this.middle, weights, around, walls);
    const { added } = this;
    added.fill(0);
    this.writeHead(this.panel.emitter, second, added, count);
    writeQuickExposure(this.face, this.own, second, added);
    added[count + ROW_TAIL.leftCheek] -= this.coarseCheek(added, 0);
    added[count + ROW_TAIL.rightCheek] -= this.coarseCheek(added, 1);
    for (let k = 0; k < row.length; k++) row[k] += added[k];
  }

  private coarseCheek(row: Float64Array, side: 0 | 1): number {
    const { samples } = this.face;
    const parts = faceParts(samples, this.staged.shape.head.landmarks);
    return meanOver(samples, row, side === 0 ? parts.leftCheek : parts.rightCheek);
  }

  /** The mean over the own left (0) or right (1) cheek of a sum of rows, as a fine reading takes it, lx.s. */
  cheek(sum: Float64Array, side: 0 | 1): number {
    const tail = this.face.samples.count + (side === 0 ? ROW_TAIL.leftCheek : ROW_TAIL.rightCheek);
    return Math.max(0, this.coarseCheek(sum, side) + sum[tail]);
  }

  /** Length of the light vector at the bridge of the nose, lx.s. */
  arriving(sum: Float64Array): number {
    const tail = this.face.samples.count;
    const x = sum[tail + ROW_TAIL.ahead];
    const y = sum[tail + ROW_TAIL.left];
    const z = sum[tail + ROW_TAIL.up];
    return Math.sqrt(x * x + y * y + z * z);
  }

  /** What is read off a set-up: rows weighed by lm.s and added, the ambient on top. The name is told from the samples;
   * the cheeks are those of a fine reading. */
  read(sum: Float64Array): PatternReading {
    const { samples } = this.face;
    const found = readPattern(samples, sum, this.staged.shape.head.landmarks, this.arriving(sum));
    return { ...found, ...readCheeks(this.cheek(sum, 0), this.cheek(sum, 1)) };
  }
}

function weigh(row: Float64Array, weights: Weights) {
  const white = weights[0] + weights[1] + weights[2];
  if (white !== 1) for (let k = 0; k < row.length; k++) row[k] *= white;
}
