/** Squares cut out of a picture for the networks: turned, scaled, averaged, encoded, shadows lifted. */
import { encodeSrgb } from "../photometry/index.ts";
import type { LinearPicture } from "./types.ts";

/** A square in a picture: its middle, its side and how far it is turned, clockwise as seen; all in the picture's pixels. */
export interface Square {
  readonly x: number;
  readonly y: number;
  readonly side: number;
  /** radians */
  readonly turn: number;
  /** left and right exchanged */
  readonly isMirrored?: boolean;
}

/** How tones are shown to the networks: linear light times `gain`, as sRGB code, to the power of `gamma`. */
export interface ToneLift {
  readonly gain: number;
  readonly gamma: number;
}

export const AS_IT_IS: ToneLift = { gain: 1, gamma: 1 };

/** What lies beside the picture: middle grey as an sRGB code. */
const BESIDE = 0.5;

/** A picture and its halves, each averaged over 2 x 2 pixels of the one before; made once, cut from often. */
export type Halves = readonly LinearPicture[];

export function halvesOf(picture: LinearPicture): Halves {
  const halves = [picture];
  for (let last = picture; Math.min(last.width, last.height) >= 2 * SMALLEST; halves.push(last))
    last = halved(last);
  return halves;
}

const SMALLEST = 32;

function halved({ width, height, rgb }: LinearPicture): LinearPicture {
  const [w, h] = [width >> 1, height >> 1];
  const out = new Float32Array(3 * w * h);
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++)
      for (let c = 0; c < 3; c++) {
        const a = 3 * (2 * y * width + 2 * x) + c;
        const b = a + 3 * width;
        out[3 * (y * w + x) + c] = (rgb[a] + rgb[a + 3] + rgb[b] + rgb[b + 3]) / 4;
      }
  return { width: w, height: h, rgb: out };
}

/** Cuts the square out, `side` pixels wide, as sRGB codes 0 to 1. Each output pixel averages linear light, so that large
 * faces do not alias.
 * Shape   out: 3 numbers a pixel, row-major, `at` the first of them */
export function writeCrop(
  out: Float32Array,
  at: number,
  halves: Halves,
  square: Square,
  side: number,
  lift: ToneLift,
): void {
  const step = square.side / side;
  const level = Math.min(halves.length - 1, Math.max(0, Math.floor(Math.log2(step))));
  const scale = 2 ** -level;
  const picture = halves[level];
  const samples = step * scale > 1 ? 2 : 1;
  const [cos, sin] = [Math.cos(square.turn), Math.sin(square.turn)];
  const across = square.isMirrored ? -step : step;
  const sum = new Float64Array(4);
  for (let row = 0; row < side; row++)
    for (let column = 0; column < side; column++) {
      sum.fill(0);
      for (let j = 0; j < samples; j++)
        for (let i = 0; i < samples; i++) {
          const u = (column + (i + 0.5) / samples - side / 2) * across;
          const v = (row + (j + 0.5) / samples - side / 2) * step;
          addSample(
            sum,
            picture,
            scale * (square.x + u * cos - v * sin),
            scale * (square.y + u * sin + v * cos),
          );
        }
      const to = at + 3 * (row * side + column);
      const inside = sum[3] / (samples * samples);
      for (let c = 0; c < 3; c++) {
        const code = inside > 0 ? toned(sum[c] / sum[3], lift) : 0;
        out[to + c] = inside * code + (1 - inside) * BESIDE;
      }
    }
}

/** Adds the bilinear value there, and 1 to the fourth number; nothing beside the picture. */
function addSample(sum: Float64Array, { width, height, rgb }: LinearPicture, x: number, y: number): void {
  if (!(x >= 0 && x < width && y >= 0 && y < height)) return;
  const px = Math.min(width - 1, Math.max(0, x - 0.5));
  const py = Math.min(height - 1, Math.max(0, y - 0.5));
  const [left, top] = [Math.floor(px), Math.floor(py)];
  const [fx, fy] = [px - left, py - top];
  const a = 3 * (top * width + left);
  const b = left + 1 < width ? a + 3 : a;
  const down = top + 1 < height ? 3 * width : 0;
  for (let c = 0; c < 3; c++) {
    const upper = rgb[a + c] + fx * (rgb[b + c] - rgb[a + c]);
    const lower = rgb[a + down + c] + fx * (rgb[b + down + c] - rgb[a + down + c]);
    sum[c] += upper + fy * (lower - upper);
  }
  sum[3]++;
}

function toned(linear: number, { gain, gamma }: ToneLift): number {
  const code = encodeSrgb(Math.min(1, Math.max(0, gain * linear)));
  return gamma === 1 ? code : code ** gamma;
}

/** Where a point of the crop lies in the picture. */
export function fromCrop(square: Square, side: number, x: number, y: number): readonly [number, number] {
  const step = square.side / side;
  const u = (x - side / 2) * (square.isMirrored ? -step : step);
  const v = (y - side / 2) * step;
  const [cos, sin] = [Math.cos(square.turn), Math.sin(square.turn)];
  return [square.x + u * cos - v * sin, square.y + u * sin + v * cos];
}
