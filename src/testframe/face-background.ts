/** The backdrop beside a head: smooth parts of the picture that reach its edge and are neither hair nor shoulder. */
import { luminanceAt } from "../photometry/index.ts";
import type { FoundFace, LinearPicture } from "./types.ts";

/** The picture is looked at in cells, so many across the width of the face. */
const CELLS = 10;
/** A cell is smooth where its pixels differ by less than this, and goes on where the next one does, as shares. */
const SMOOTH = 0.12;
const STEP = 0.1;
/** Noise alone makes dark cells rough: differences under this are none, of clipping. */
const NOISE = 0.004;
/** Read this far round the head, in its heights, as the plan's own background. */
const ROUND_HEAD = 0.9;
/** Head with hair, in widths of the face from the middle of the head: aside, and up. */
const HEAD_ASIDE = 0.68;
const HEAD_UP = 0.95;
/** Crown over the chin, in distances from chin to the top of the forehead (the mask's rim). */
const CROWN = 1.28;
/** Least that must be left of it, in squares of the face's width, on at least one side. */
const LEAST = 0.12;
const TOP = 10;
const CHIN = 152;
const LEFT_RIM = 454;
const RIGHT_RIM = 234;

/** Mean luminance of the backdrop, linear; null where none is to be told.
 * Errors  none; a crop that is filled by the head has none */
export function backdropLuminance(
  picture: LinearPicture,
  face: FoundFace,
  scene: (linear: number) => number,
): number | null {
  const at = (v: number) => [face.points[3 * v], face.points[3 * v + 1]] as const;
  const [top, chin, left, right] = [at(TOP), at(CHIN), at(LEFT_RIM), at(RIGHT_RIM)];
  const long = Math.hypot(top[0] - chin[0], top[1] - chin[1]);
  // a turned face is narrower than its head
  const wide = Math.max(Math.hypot(left[0] - right[0], left[1] - right[1]), 0.8 * long);
  const up = [(top[0] - chin[0]) / long, (top[1] - chin[1]) / long];
  const tall = CROWN * long;
  const middle = [chin[0] + (up[0] * tall) / 2, chin[1] + (up[1] * tall) / 2];
  const cells = cellsOf(picture, Math.max(2, Math.round(wide / CELLS)), scene);
  const { across, down, size, mean, rough } = cells;
  const open = new Uint8Array(across * down);
  const place = (c: number) => {
    const x = ((c % across) + 0.5) * size - middle[0];
    const y = (Math.floor(c / across) + 0.5) * size - middle[1];
    return { upward: x * up[0] + y * up[1], aside: x * up[1] - y * up[0], off: Math.hypot(x, y) };
  };
  for (let c = 0; c < open.length; c++) {
    const { upward, aside } = place(c);
    const inHead = (aside / (HEAD_ASIDE * wide)) ** 2 + (upward / (HEAD_UP * wide)) ** 2 < 1;
    // shoulders begin under the chin, and rise to it aside
    const overShoulders = upward > -0.35 * tall;
    if (rough[c] < SMOOTH && !inHead && overShoulders) open[c] = 1;
  }
  const reached = fromEdges(cells, open);
  let sum = 0;
  let count = 0;
  for (let c = 0; c < open.length; c++) {
    if (!reached[c] || place(c).off > ROUND_HEAD * tall) continue;
    sum += mean[c];
    count++;
  }
  return count * size * size >= LEAST * wide * wide ? sum / count : null;
}

interface Cells {
  readonly across: number;
  readonly down: number;
  readonly size: number;
  readonly mean: Float64Array;
  /** spread of its pixels as a share of their mean, noise taken off */
  readonly rough: Float64Array;
}

function cellsOf(
  { width, height, rgb }: LinearPicture,
  size: number,
  scene: (linear: number) => number,
): Cells {
  const across = Math.floor(width / size);
  const down = Math.floor(height / size);
  const mean = new Float64Array(across * down);
  const rough = new Float64Array(across * down);
  for (let c = 0; c < mean.length; c++) {
    const x0 = (c % across) * size;
    const y0 = Math.floor(c / across) * size;
    let sum = 0;
    let square = 0;
    for (let y = y0; y < y0 + size; y++)
      for (let x = x0; x < x0 + size; x++) {
        const k = 3 * (y * width + x);
        const l = scene(luminanceAt(rgb, k));
        sum += l;
        square += l * l;
      }
    mean[c] = sum / size ** 2;
    const spread = Math.sqrt(Math.max(0, square / size ** 2 - mean[c] ** 2));
    rough[c] = Math.max(0, spread - NOISE) / Math.max(mean[c], NOISE);
  }
  return { across, down, size, mean, rough };
}

/** Cells joined to the picture's left, right or upper edge without a step of tone. */
function fromEdges({ across, down, mean }: Cells, open: Uint8Array): Uint8Array {
  const reached = new Uint8Array(open.length);
  const waiting: number[] = [];
  const take = (c: number) => {
    if (!open[c] || reached[c]) return;
    reached[c] = 1;
    waiting.push(c);
  };
  for (let x = 0; x < across; x++) take(x);
  for (let y = 0; y < down; y++) {
    take(y * across);
    take(y * across + across - 1);
  }
  for (let c = waiting.pop(); c !== undefined; c = waiting.pop()) {
    const x = c % across;
    const beside = [x > 0 ? c - 1 : -1, x < across - 1 ? c + 1 : -1, c - across, c + across];
    for (const d of beside) {
      if (d < 0 || d >= open.length) continue;
      const step = Math.abs(mean[d] - mean[c]) - NOISE;
      if (step < STEP * Math.max(mean[c], mean[d])) take(d);
    }
  }
  return reached;
}
