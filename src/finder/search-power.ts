/** Powers that put the face where it is wanted, in steps of the dials. */
import { exposureOfReading, METER_CONSTANT } from "../photometry/index.ts";
import { type Dial, type Light, scaledOutput } from "../plan/index.ts";
import type { Search } from "./search-brief.ts";
import type { Row } from "./search-model.ts";

/** lx.s on the lit cheek: for the middle of the f-numbers asked for; for the lens as it is set where none are. */
export function exposureWanted({ want, plan }: Search): number {
  const { fNumber, iso } = plan.camera;
  const { from, to } = want.fNumber ?? { from: null, to: null };
  const low = from ?? (to === null ? fNumber : to * LESS);
  const high = to ?? (from === null ? fNumber : from / LESS);
  return exposureOfReading(Math.sqrt(low * high), iso, METER_CONSTANT.flat);
}

/** Where one end is open: two thirds of a stop inside, as f-number. */
const LESS = 2 ** (-2 / 6);

/** Stops between the cheeks that are aimed at. */
export function ratioWanted({ want }: Pick<Search, "want">): number {
  const span = want.ratioStops;
  if (span === null) return USUAL_RATIO;
  const { from, to } = span;
  if (from !== null && to !== null) return (from + to) / 2;
  return from !== null ? from + INSIDE : Math.max(0, (to ?? USUAL_RATIO) - INSIDE);
}

/** Where no ratio is asked for: as two lights are mostly set (common practice, no source). */
const USUAL_RATIO = 1.5;
const INSIDE = 0.3;

/** Stops down at which the brighter cheek gets so much, as near as the dial's steps come. */
export function onePower(row: Row, base: Row, exposure: number, dial: Dial): number {
  const left = row.left > 0 ? (exposure - base.left) / row.left : Number.POSITIVE_INFINITY;
  const right = row.right > 0 ? (exposure - base.right) / row.right : Number.POSITIVE_INFINITY;
  const share = Math.min(left, right);
  return onDial(share > 0 ? -Math.log2(share) : dial.range, dial);
}

/** The nearest step that the dial has. */
export function onDial(stopsDown: number, { range, step }: Dial): number {
  if (!(stopsDown > 0)) return 0;
  const steps = Math.min(Math.round(stopsDown / step), Math.floor(range / step + 1e-9));
  return Number((steps * step).toFixed(4));
}

/** Powers of two lights at which both cheeks get what is wanted; how far the dials leave it off, stops.
 * `with` is the second's share of its full power */
export function twoPowers(
  main: Row,
  fill: Row,
  base: Row,
  exposure: number,
  ratioStops: number,
  mainDial: Dial,
  fillDial: Dial,
): { miss: number; down: number; with: number } {
  const isLeft = main.left >= main.right;
  const [ml, ms] = isLeft ? [main.left, main.right] : [main.right, main.left];
  const [fl, fs] = isLeft ? [fill.left, fill.right] : [fill.right, fill.left];
  const [bl, bs] = isLeft ? [base.left, base.right] : [base.right, base.left];
  const lit = exposure - bl;
  const shadow = exposure * 2 ** -ratioStops - bs;
  const det = ml * fs - fl * ms;
  const s = det === 0 ? -1 : (lit * fs - fl * shadow) / det;
  const t = det === 0 ? -1 : (ml * shadow - lit * ms) / det;
  const down = s > 0 ? onDial(-Math.log2(s), mainDial) : mainDial.range;
  const less = t > 0 ? onDial(-Math.log2(t), fillDial) : onDial(fillDial.range, fillDial);
  const a = 2 ** -down;
  const b = 2 ** -less;
  const gotLit = bl + a * ml + b * fl;
  const gotShadow = bs + a * ms + b * fs;
  const miss = Math.abs(Math.log2(gotLit / gotShadow) - ratioStops) + Math.abs(Math.log2(gotLit / exposure));
  // a fill that gives the lit cheek more than the main light does is the main light
  return { miss: b * fl > a * ml ? miss + SWAPPED : miss, down, with: b };
}

const SWAPPED = 2;

/** A light given at full power, at so many stops under it. */
export function dialled(light: Light, stopsDown: number): Light {
  const output = scaledOutput(light.output, 2 ** -stopsDown);
  if (!("stopsDown" in output)) return { ...light, output };
  return { ...light, output: { ...output, stopsDown: Number(output.stopsDown.toFixed(4)) } };
}
