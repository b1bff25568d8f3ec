/** What outline a catchlight has: of a round light, a square one, a strip. */
import { type EyeCrop, valueAt } from "./catch-eye.ts";
import type { Spot } from "./catch-spots.ts";
import type { PhotoCatchlight } from "./types.ts";

/** Four standard deviations are a disc's diameter (a square's side is 3.5). */
export const ACROSS = 4;
/** Narrower than this, in full-size pixels, corners are lost in the blur of lens and demosaicing. */
const LEAST_PIXELS = 7;
/** A strip needs less across: its length tells. */
const LEAST_STRIP_PIXELS = 2.5;
const STRIP = 2.2;
/** Longer than this and it is not round. */
const ROUND = 1.45;
/** Fourfold swing of the half-level radius over its mean: 0 of a disc, 0.13 of a square (its Fourier series). */
const SQUARE = 0.05;
const RAYS = 64;
const STEPS = 60;

export function shapeOf(eye: EyeCrop, spot: Spot): PhotoCatchlight["shape"] {
  const short = (ACROSS * spot.short) / eye.scale;
  const ratio = spot.long / Math.max(spot.short, 1e-6);
  if (ratio > STRIP)
    return (ACROSS * spot.long) / eye.scale >= LEAST_STRIP_PIXELS * STRIP ? "strip" : "unclear";
  if (short < LEAST_PIXELS) return "unclear";
  const swing = fourfold(eye, spot);
  if (swing === null) return "unclear";
  if (swing > SQUARE) return "square";
  return ratio < ROUND ? "round" : "unclear";
}

/** Drawn out along its shorter direction until it is as long as wide, so that a slanted square is one as well. */
function fourfold({ luminance }: EyeCrop, spot: Spot): number | null {
  const half = (spot.ground + spot.peak) / 2;
  const size = Math.sqrt(spot.long * spot.short);
  const [c, s] = [Math.cos(spot.turn), Math.sin(spot.turn)];
  let [mean, even, odd] = [0, 0, 0];
  for (let k = 0; k < RAYS; k++) {
    const turn = (2 * Math.PI * k) / RAYS;
    const along = (spot.long / size) * Math.cos(turn);
    const aside = (spot.short / size) * Math.sin(turn);
    const dx = c * along - s * aside;
    const dy = s * along + c * aside;
    let out = -1;
    for (let step = 1; step <= STEPS && out < 0; step++) {
      const r = (step * 2 * ACROSS * size) / (2 * STEPS);
      if (valueAt(luminance, spot.x + r * dx, spot.y + r * dy) < half) out = r;
    }
    // it runs on into something else
    if (out < 0) return null;
    mean += out / RAYS;
    even += (2 * out * Math.cos(4 * turn)) / RAYS;
    odd += (2 * out * Math.sin(4 * turn)) / RAYS;
  }
  return Math.hypot(even, odd) / mean;
}
