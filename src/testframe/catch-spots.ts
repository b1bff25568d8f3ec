/** Bright, compact, nearly neutral spots against the dark of an iris. */
import { type EyeCrop, isBetween } from "./catch-eye.ts";

/** In pixels of the crop. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  /** luminance of the iris round it, and of the spot itself */
  readonly ground: number;
  readonly peak: number;
  /** luminance over the ground, summed */
  readonly flux: number;
  /** spread along its longer and its shorter direction (standard deviations), and the direction of the longer */
  readonly long: number;
  readonly short: number;
  readonly turn: number;
}

/** Of the iris and pupil this share is darker than what is taken as their tone: a large light covers a quarter. */
const GROUND = 0.6;
/** A spot is so many times as bright as that, and so much over it, of clipping: noise is not. */
const BRIGHT = 2;
const LEAST_RISE = 0.012;
/** Looked for within this share of the iris radius. */
const WITHIN = 0.97;
/** What spreads over more of the iris than this, or beyond its rim by this share of itself, is no catchlight. */
const MOST_COVER = 0.55;
const MOST_BEYOND = 0.3;
/** Fainter beside the strongest than this: a wall or a wet lid. */
const FAINT = 0.2;
const MOST_SPOTS = 3;
/** What touches a lid along so much of itself and is no brighter than so many times the skin there is that skin. */
const ALONG_LID = 0.2;
const LID_SKIN = 1.4;
/** Smallest spot, in pixels of the crop, as the sum of their shares. */
const LEAST_AREA = 1.5;
/** Saturation of a spot over its ground, (most - least) / mean: skin that shows past a lid has more. */
const COLOURED = 0.75;

/** Brightest first. */
export function findSpots(eye: EyeCrop): Spot[] {
  const side = eye.crop.width;
  const { luminance, x, y, radius, lids } = eye;
  const open = new Uint8Array(luminance.length);
  const inIris = new Uint8Array(luminance.length);
  const tones: number[] = [];
  for (let i = 0; i < luminance.length; i++) {
    const px = (i % side) + 0.5;
    const py = Math.floor(i / side) + 0.5;
    if (!isBetween(lids, px, py)) continue;
    open[i] = 1;
    const off = Math.hypot(px - x, py - y);
    if (off > WITHIN * radius) continue;
    inIris[i] = 1;
    tones.push(luminance[i]);
  }
  if (tones.length < 8) return [];
  tones.sort((a, b) => a - b);
  const ground = tones[Math.floor(GROUND * (tones.length - 1))];
  const limit = Math.max(BRIGHT * ground, ground + LEAST_RISE);
  const taken = new Uint8Array(luminance.length);
  const spots: Spot[] = [];
  for (;;) {
    let top = -1;
    for (let i = 0; i < luminance.length; i++)
      if (inIris[i] && !taken[i] && luminance[i] > limit && (top < 0 || luminance[i] > luminance[top]))
        top = i;
    if (top < 0) break;
    const spot = grow(eye, top, ground, open, inIris, taken, tones.length);
    if (spot) spots.push(spot);
  }
  spots.sort((a, b) => b.flux - a.flux);
  return spots.filter((s) => s.peak - ground >= FAINT * (spots[0].peak - ground)).slice(0, MOST_SPOTS);
}

/** From its brightest pixel down to half way to the ground; null for what is no catchlight. Marks what it reaches. */
function grow(
  eye: EyeCrop,
  top: number,
  ground: number,
  open: Uint8Array,
  inIris: Uint8Array,
  taken: Uint8Array,
  irisPixels: number,
): Spot | null {
  const { luminance, crop } = eye;
  const side = crop.width;
  const half = (luminance[top] + ground) / 2;
  const found: number[] = [top];
  const seen = new Uint8Array(luminance.length);
  seen[top] = 1;
  let beyond = 0;
  let leaks = 0;
  let lid = 0;
  for (let k = 0; k < found.length; k++) {
    const i = found[k];
    if (!inIris[i]) beyond++;
    for (const d of [i - 1, i + 1, i - side, i + side]) {
      if (d < 0 || d >= luminance.length || seen[d]) continue;
      if (luminance[d] < half) continue;
      seen[d] = 1;
      if (open[d]) found.push(d);
      else {
        leaks++;
        lid = Math.max(lid, luminance[d]);
      }
    }
  }
  // with its soft edge, so that the edge is not found again
  for (const i of found)
    for (let dy = -2; dy <= 2; dy++)
      for (let dx = -2; dx <= 2; dx++) {
        const d = i + dy * side + dx;
        if (d >= 0 && d < taken.length) taken[d] = 1;
      }
  if (beyond > MOST_BEYOND * found.length || found.length > MOST_COVER * irisPixels) return null;
  // a strip of lit skin along a lid
  if (leaks > ALONG_LID * found.length && luminance[top] < LID_SKIN * lid) return null;
  const levels = found.map((i) => luminance[i]).sort((a, b) => a - b);
  const peak = levels[Math.floor(0.8 * (levels.length - 1))];
  if (isColoured(eye, found, ground)) return null;
  for (let i = 0; i < seen.length; i++) if (!open[i]) seen[i] = 0;
  return measure(eye, seen, open, ground, peak);
}

function isColoured({ crop: { rgb } }: EyeCrop, found: readonly number[], ground: number): boolean {
  const sum = [0, 0, 0];
  for (const i of found) for (let c = 0; c < 3; c++) sum[c] += rgb[3 * i + c] - ground;
  const mean = (sum[0] + sum[1] + sum[2]) / 3;
  return mean > 0 && (Math.max(...sum) - Math.min(...sum)) / mean > COLOURED;
}

/** Moments of the spot, its edge pixels by the share of them that it fills. */
function measure(
  eye: EyeCrop,
  seen: Uint8Array,
  open: Uint8Array,
  ground: number,
  peak: number,
): Spot | null {
  const { luminance, crop } = eye;
  const side = crop.width;
  let [area, sx, sy, flux] = [0, 0, 0, 0];
  const parts: { x: number; y: number; share: number }[] = [];
  for (let i = 0; i < luminance.length; i++) {
    const beside =
      seen[i] ||
      (i > 0 && seen[i - 1]) ||
      (i + 1 < seen.length && seen[i + 1]) ||
      (i >= side && seen[i - side]) ||
      (i + side < seen.length && seen[i + side]);
    if (!beside || !open[i]) continue;
    const share = Math.min(1, Math.max(0, (luminance[i] - ground) / (peak - ground)));
    if (!(share > 0)) continue;
    const x = (i % side) + 0.5;
    const y = Math.floor(i / side) + 0.5;
    parts.push({ x, y, share });
    area += share;
    sx += share * x;
    sy += share * y;
    flux += luminance[i] - ground;
  }
  if (area < LEAST_AREA) return null;
  const [x, y] = [sx / area, sy / area];
  let [xx, xy, yy] = [0, 0, 0];
  for (const p of parts) {
    xx += (p.share * (p.x - x) ** 2) / area;
    xy += (p.share * (p.x - x) * (p.y - y)) / area;
    yy += (p.share * (p.y - y) ** 2) / area;
  }
  const mean = (xx + yy) / 2;
  const apart = Math.hypot((xx - yy) / 2, xy);
  return {
    x,
    y,
    ground,
    peak,
    flux,
    long: Math.sqrt(mean + apart),
    short: Math.sqrt(Math.max(0, mean - apart)),
    turn: Math.atan2(2 * xy, xx - yy) / 2,
  };
}
