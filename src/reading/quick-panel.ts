/** A white panel as a second source: what one light sends by way of it. */
import { type Emitter, emitterArea } from "../engine/index.ts";
import { QUICK_RINGS, type QuickLight, quickLight } from "./quick-light.ts";
import { type MovableEmitter, movableEmitter, NO_LIGHT } from "./quick-place.ts";
import type { Weights } from "./quick-room.ts";
import { readyLamp, sent } from "./quick-sent.ts";

/** Where a panel stands in the world, as an engine's quad, and how much it sends back. */
export interface PlacedPanel {
  readonly centre: Float64Array;
  readonly right: Float64Array;
  readonly up: Float64Array;
  readonly forward: Float64Array;
  readonly halfWidth: number;
  readonly halfHeight: number;
  readonly reflectance: Weights;
}

/** A panel while one light falls on it: a front of its own, perfectly diffuse, whose parts send what they get. */
export class QuickPanel {
  /** in the world, turned so that its front is the side that is looked at */
  readonly emitter: MovableEmitter = { ...movableEmitter(NO_LIGHT), shape: "rectangle", exponent: 1 };
  private readonly fronts = new Map<string, QuickLight>();

  /** Shares of the front are luminous: lm.s per lm.s of the light, as a meter weighs them, from each part.
   * `around` is the mean exitance of the walls that the panel stands before, `walls` their mean reflectance: the panel
   * gets what they get and hides them. null where the light falls on the other side and nothing stands behind. */
  lit(
    panel: PlacedPanel,
    e: Emitter,
    light: QuickLight,
    towards: ArrayLike<number>,
    weights: Weights,
    around: number,
    walls: number,
  ): QuickLight {
    const own = this.emitter;
    const front = this.frontOf(panel);
    let side = 0;
    for (let k = 0; k < 3; k++) side += panel.forward[k] * (towards[k] - panel.centre[k]);
    const sign = side < 0 ? -1 : 1;
    for (let k = 0; k < 3; k++) {
      own.centre[k] = panel.centre[k];
      own.right[k] = sign * panel.right[k];
      own.up[k] = panel.up[k];
      own.forward[k] = sign * panel.forward[k];
    }
    const back = panel.reflectance;
    const white = weights[0] + weights[1] + weights[2];
    const sends = weights[0] * back[0] + weights[1] * back[1] + weights[2] * back[2];
    const area = emitterArea(own) / front.share.length;
    // as bright as the walls where it reflects as much as they do
    const others = walls > 0 ? around * (sends / white / walls - 1) : 0;
    readyLamp(e);
    for (let k = 0; k < front.share.length; k++)
      front.share[k] = area * (sends * this.falls(e, light, front, k) + others);
    const { each } = front;
    for (let g = 0; g < front.groups; g++) {
      front.groupShare[g] = 0;
      for (let k = g * each; k < (g + 1) * each; k++) front.groupShare[g] += front.share[k];
    }
    return front;
  }

  /** lx.s per lm.s of one light on the middle of a part. */
  private falls(e: Emitter, light: QuickLight, front: QuickLight, part: number): number {
    const { centre, right, up, forward } = this.emitter;
    let sum = 0;
    for (let g = 0; g < light.groups; g++) {
      let x = e.centre[0] + light.groupRight_m[g] * e.right[0] + light.groupUp_m[g] * e.up[0];
      let y = e.centre[1] + light.groupRight_m[g] * e.right[1] + light.groupUp_m[g] * e.up[1];
      let z = e.centre[2] + light.groupRight_m[g] * e.right[2] + light.groupUp_m[g] * e.up[2];
      x -= centre[0] + front.right_m[part] * right[0] + front.up_m[part] * up[0];
      y -= centre[1] + front.right_m[part] * right[1] + front.up_m[part] * up[1];
      z -= centre[2] + front.right_m[part] * right[2] + front.up_m[part] * up[2];
      const facing = x * forward[0] + y * forward[1] + z * forward[2];
      if (facing > 0) sum += light.groupShare[g] * sent(e, light, x, y, z, facing);
    }
    return sum;
  }

  /** Cut once per size; its shares are written anew for every light. */
  private frontOf(panel: PlacedPanel): QuickLight {
    const { emitter } = this;
    emitter.halfWidth = panel.halfWidth;
    emitter.halfHeight = panel.halfHeight;
    const key = `${panel.halfWidth} ${panel.halfHeight}`;
    let front = this.fronts.get(key);
    if (!front) {
      const { level, ...cut } = quickLight(emitter, QUICK_RINGS.search);
      // its level is what its own parts send
      front = { ...cut, level: { right_m: cut.right_m, up_m: cut.up_m, share: cut.share } };
      this.fronts.set(key, front);
    }
    return front;
  }
}
