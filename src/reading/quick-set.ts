/** Set-ups of lights on one face, looked up and not traced. What each light sends is found apart, per lm.s, as one row of
 * numbers; a set-up is the rows weighed by the lights' powers and added. So a new power costs a sum, and a light that
 * moves costs its own row alone. */
import type { Emitter } from "../engine/index.ts";
import type { Plan } from "../plan/index.ts";
import { type StagedPerson, stage } from "../staging/index.ts";
import { WORK } from "./lighting.ts";
import { type PatternReading, readPattern } from "./pattern.ts";
import { writeQuickExposure } from "./quick-exposure.ts";
import { type QuickFace, quickFace } from "./quick-face.ts";
import { QUICK_RINGS, type QuickLight, quickLight } from "./quick-light.ts";
import { movableEmitter, writeHeadEmitter } from "./quick-place.ts";
import { readyLamp, sent } from "./quick-sent.ts";

/** After the samples of skin, a row holds the light at the bridge of the nose, the person away: the vector in head axes
 * and the sum over all directions, lx.s per lm.s. */
export const ROW_TAIL = { ahead: 0, left: 1, up: 2, sum: 3 } as const;
const TAIL = 4;

export class QuickSet {
  readonly face: QuickFace;
  readonly staged: StagedPerson;
  /** numbers in a row: the samples of skin, then ROW_TAIL */
  readonly rowLength: number;
  private readonly bridge: Float64Array;

  /** Of the plan only what stands still counts: lights are given one by one. */
  constructor(plan: Plan, person: number) {
    this.staged = stage({ ...plan, lights: [] }).people[person];
    this.face = quickFace(this.staged, WORK.coarse.spacing);
    this.rowLength = this.face.samples.count + TAIL;
    this.bridge = Float64Array.from(this.staged.shape.head.landmarks.noseBridge);
  }

  /** A front cut once, whatever way it will stand. */
  front(e: Emitter): QuickLight {
    return quickLight(e, QUICK_RINGS.search);
  }

  /** Writes what one light sends, per lm.s, over `row`. `e` stands in the world and is cut as `front` says. */
  writeRow(e: Emitter, front: QuickLight, row: Float64Array) {
    row.fill(0);
    const own = movableEmitter(e);
    writeHeadEmitter(own, e, this.staged);
    writeQuickExposure(this.face, own, front, row);
    this.writeBridge(own, front, row);
  }

  private writeBridge(own: Emitter, front: QuickLight, row: Float64Array) {
    const tail = this.face.samples.count;
    readyLamp(own);
    const { right_m, up_m, share } = front.level;
    for (let k = 0; k < share.length; k++) {
      const x = own.centre[0] + right_m[k] * own.right[0] + up_m[k] * own.up[0] - this.bridge[0];
      const y = own.centre[1] + right_m[k] * own.right[1] + up_m[k] * own.up[1] - this.bridge[1];
      const z = own.centre[2] + right_m[k] * own.right[2] + up_m[k] * own.up[2] - this.bridge[2];
      const far = Math.sqrt(x * x + y * y + z * z);
      row[tail + ROW_TAIL.ahead] += share[k] * sent(own, front, x, y, z, x);
      row[tail + ROW_TAIL.left] += share[k] * sent(own, front, x, y, z, y);
      row[tail + ROW_TAIL.up] += share[k] * sent(own, front, x, y, z, z);
      row[tail + ROW_TAIL.sum] += share[k] * sent(own, front, x, y, z, far);
    }
  }

  /** What is read off a set-up: rows weighed by lm.s (times the gel's loss) and added, the ambient on top. */
  read(sum: Float64Array): PatternReading {
    const tail = this.face.samples.count;
    const arriving = Math.hypot(
      sum[tail + ROW_TAIL.ahead],
      sum[tail + ROW_TAIL.left],
      sum[tail + ROW_TAIL.up],
    );
    return readPattern(this.face.samples, sum, this.staged.shape.head.landmarks, arriving);
  }
}
