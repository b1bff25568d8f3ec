/** A part of a file's pixels, averaged in linear light. */
import type { FilePixels } from "./tones-pixels.ts";
import { storedBox, uprightPicture, uprightSize } from "./tones-upright.ts";
import type { LinearPicture, PixelBox } from "./types.ts";

export interface Reduced {
  readonly picture: LinearPicture;
  /** of each pixel: share of its file pixels with any channel clipped, 0 to 255 */
  readonly clippedShare: Uint8Array;
}

/** Mean of the linear light of each pixel's area, edges weighed by what falls in; then sRGB primaries, unclamped; upright.
 * Shape   box in upright pixels; it is cut to the picture, and is one pixel at least
 * Domain  longSide >= 1; never enlarged */
export function reducePixels(pixels: FilePixels, box: PixelBox, longSide: number): Reduced {
  const part = storedBox(pixels, cutBox(box, uprightSize(pixels)));
  const scale = Math.min(1, Math.max(1, Math.round(longSide)) / Math.max(part.width, part.height));
  const width = Math.max(1, Math.round(part.width * scale));
  const height = Math.max(1, Math.round(part.height * scale));
  const rgb = new Float32Array(width * height * 3);
  const clippedShare = new Uint8Array(width * height);
  const spans = spansOf(part.width, width);
  const line = new Float64Array(4 * width);
  const sum = new Float64Array(4 * width);
  const stepY = part.height / height;
  const area = (part.width / width) * stepY;
  const writeRow = (row: number) => {
    writeColours(rgb, clippedShare, row * width, sum, area, pixels.space.toSrgb);
    sum.fill(0);
  };
  let row = 0;
  for (let y = 0; y < part.height; y++) {
    sumLine(line, pixels, part.left, part.top + y, spans);
    const edge = (row + 1) * stepY;
    const inside = Math.min(1, edge - y);
    if (inside > 0) add(sum, line, inside);
    // the last row takes what rounding leaves
    if (edge <= y + 1 && row < height - 1) {
      writeRow(row++);
      if (inside < 1) add(sum, line, 1 - inside);
    }
  }
  writeRow(row);
  return uprightPicture({ width, height, rgb }, clippedShare, pixels.orientation);
}

function cutBox(box: PixelBox, size: { width: number; height: number }): PixelBox {
  const whole = (value: number, fallback: number) => (Number.isFinite(value) ? value : fallback);
  const left = Math.min(size.width - 1, Math.max(0, Math.floor(whole(box.left, 0))));
  const top = Math.min(size.height - 1, Math.max(0, Math.floor(whole(box.top, 0))));
  const right = Math.min(size.width, Math.ceil(whole(box.left, 0) + whole(box.width, size.width)));
  const bottom = Math.min(size.height, Math.ceil(whole(box.top, 0) + whole(box.height, size.height)));
  return { left, top, width: Math.max(1, right - left), height: Math.max(1, bottom - top) };
}

interface Spans {
  /** first pixel of each, and the one after its last */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** how much of the first and of the last is inside */
  readonly first: Float64Array;
  readonly last: Float64Array;
}

function spansOf(length: number, count: number): Spans {
  const step = length / count;
  const spans = {
    from: new Int32Array(count),
    to: new Int32Array(count),
    first: new Float64Array(count),
    last: new Float64Array(count),
  };
  for (let i = 0; i < count; i++) {
    const start = i * step;
    const end = i === count - 1 ? length : (i + 1) * step;
    spans.from[i] = Math.floor(start);
    spans.to[i] = Math.min(length, Math.ceil(end));
    spans.first[i] = Math.min(end, spans.from[i] + 1) - start;
    spans.last[i] = spans.to[i] - spans.from[i] > 1 ? end - (spans.to[i] - 1) : 0;
  }
  return spans;
}

/** One stored row: linear red, green, blue and the clipped, summed over each span. */
function sumLine(out: Float64Array, pixels: FilePixels, left: number, y: number, spans: Spans): void {
  const { data, channels, clipLevel } = pixels;
  const [red, green, blue] = pixels.linear;
  const start = (y * pixels.width + left) * channels;
  const second = channels === 3 ? 1 : 0;
  const third = channels === 3 ? 2 : 0;
  const { from, to, first, last } = spans;
  for (let i = 0; i < from.length; i++) {
    // the first and the last weigh what is inside, those between one: most pixels of a file are asked no weight
    let at = start + from[i] * channels;
    const end = start + (to[i] - 1) * channels;
    let levelR = data[at];
    let levelG = data[at + second];
    let levelB = data[at + third];
    let weight = first[i];
    let r = weight * red[levelR];
    let g = weight * green[levelG];
    let b = weight * blue[levelB];
    let clipped = levelR >= clipLevel || levelG >= clipLevel || levelB >= clipLevel ? weight : 0;
    for (at += channels; at < end; at += channels) {
      levelR = data[at];
      levelG = data[at + second];
      levelB = data[at + third];
      r += red[levelR];
      g += green[levelG];
      b += blue[levelB];
      if (levelR >= clipLevel || levelG >= clipLevel || levelB >= clipLevel) clipped++;
    }
    if (at === end) {
      levelR = data[at];
      levelG = data[at + second];
      levelB = data[at + third];
      weight = last[i];
      r += weight * red[levelR];
      g += weight * green[levelG];
      b += weight * blue[levelB];
      if (levelR >= clipLevel || levelG >= clipLevel || levelB >= clipLevel) clipped += weight;
    }
    out[4 * i] = r;
    out[4 * i + 1] = g;
    out[4 * i + 2] = b;
    out[4 * i + 3] = clipped;
  }
}

function add(sum: Float64Array, line: Float64Array, weight: number): void {
  for (let i = 0; i < sum.length; i++) sum[i] += weight * line[i];
}

function writeColours(
  rgb: Float32Array,
  clippedShare: Uint8Array,
  start: number,
  sum: Float64Array,
  area: number,
  m: readonly number[],
): void {
  for (let i = 0, at = 3 * start; i < sum.length; i += 4, at += 3) {
    const r = sum[i] / area;
    const g = sum[i + 1] / area;
    const b = sum[i + 2] / area;
    rgb[at] = m[0] * r + m[1] * g + m[2] * b;
    rgb[at + 1] = m[3] * r + m[4] * g + m[5] * b;
    rgb[at + 2] = m[6] * r + m[7] * g + m[8] * b;
    clippedShare[start + i / 4] = Math.min(255, Math.round((255 * sum[i + 3]) / area));
  }
}
