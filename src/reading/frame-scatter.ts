/** Light that goes into skin comes out a millimetre or two beside: the light of a picture's pixels of skin is passed on
 * between neighbours, by their distance in the world. So it is right at every scale, and where a pixel is wider than
 * light wanders nothing happens. What one pixel gives another takes: none is lost. */
import { SCATTER_ROUNDS } from "../photometry/index.ts";

const MM2 = 1e-6;
/** Neighbours this many times further apart than pixels are wide belong to different folds: a nose before a cheek. */
const FOLD = 6;

/** Pixels of skin as a net. Numbers are in the order of the pixels: row by row. */
export interface SkinNet {
  readonly count: number;
  /** skin that each pixel stands for, m2 */
  readonly area: Float32Array;
  readonly rows: Links;
  readonly columns: Links;
}

/** The neighbour before and after in a row or column, -1 for none, and how well light passes to the one after. */
interface Links {
  readonly before: Int32Array;
  readonly after: Int32Array;
  readonly passes: Float32Array;
}

/** `pixels` ascending; `points` where they are, xyz every `stride` numbers by pixel; `body` tells skins apart that do not
 * touch; `footprint` is a pixel's width at the skin, metres. */
export function skinNet(
  width: number,
  pixels: Uint32Array,
  points: Float32Array,
  stride: number,
  body: Uint16Array,
  footprint: (pixel: number) => number,
): SkinNet {
  const n = pixels.length;
  const above = new Int32Array(width).fill(-1);
  const columnOf = new Int32Array(width).fill(-1);
  const across = emptyLinks(n);
  const down = emptyLinks(n);
  const gaps = [new Float32Array(n), new Float32Array(n)];
  const link = (links: Links, gap: Float32Array, from: number, to: number) => {
    const a = stride * pixels[from];
    const b = stride * pixels[to];
    if (body[pixels[from]] !== body[pixels[to]]) return;
    const d = Math.hypot(points[a] - points[b], points[a + 1] - points[b + 1], points[a + 2] - points[b + 2]);
    if (d > FOLD * footprint(pixels[from]) || !(d > 0)) return;
    links.after[from] = to;
    links.before[to] = from;
    gap[from] = d;
  };
  for (let i = 0; i < n; i++) {
    const pixel = pixels[i];
    const x = pixel % width;
    if (i > 0 && pixels[i - 1] === pixel - 1 && x > 0) link(across, gaps[0], i - 1, i);
    if (above[x] === pixel - width) link(down, gaps[1], columnOf[x], i);
    above[x] = pixel;
    columnOf[x] = i;
  }
  const reach = [across, down].map((links, k) => {
    const out = new Float32Array(n);
    for (let i = 0; i < n; i++) {
      const before = links.before[i] < 0 ? 0 : gaps[k][links.before[i]];
      const after = links.after[i] < 0 ? 0 : gaps[k][i];
      // at an end the one gap there is; alone, what a pixel covers
      out[i] =
        before > 0 && after > 0
          ? (before + after) / 2
          : before + after > 0
            ? before + after
            : footprint(pixels[i]);
    }
    return out;
  });
  const area = new Float32Array(n);
  for (let i = 0; i < n; i++) {
    area[i] = reach[0][i] * reach[1][i];
    for (const [k, links] of [across, down].entries()) {
      const to = links.after[i];
      if (to >= 0) links.passes[i] = (reach[1 - k][i] + reach[1 - k][to]) / 2 / gaps[k][i];
    }
  }
  return { count: n, area, rows: across, columns: down };
}

function emptyLinks(n: number): Links {
  return {
    before: new Int32Array(n).fill(-1),
    after: new Int32Array(n).fill(-1),
    passes: new Float32Array(n),
  };
}

/** Light on the skin after it has wandered under it, in one channel.
 * Source  SCATTER_ROUNDS; each round is an implicit step along rows and one along columns (Peaceman and Rachford 1955) */
export function wander(net: SkinNet, light: Float32Array, channel: number): Float32Array {
  const out = new Float32Array(net.count);
  for (const { share, reach_mm2 } of SCATTER_ROUNDS[channel]) {
    const part = Float64Array.from(light);
    for (let round = 0; round < 2; round++) {
      pass(net, net.rows, reach_mm2 * MM2, part);
      pass(net, net.columns, reach_mm2 * MM2, part);
    }
    for (let i = 0; i < net.count; i++) out[i] += share * part[i];
  }
  return out;
}

let kept = [new Float64Array(0), new Float64Array(0)];

/** One implicit step of diffusion along one way: area (after - before) = what neighbours pass, solved by elimination.
 * Neighbours before come first in the order, so that one run forward and one back do all rows or columns at once. */
function pass(
  { count, area }: SkinNet,
  { before, after, passes }: Links,
  reach: number,
  light: Float64Array,
) {
  if (kept[0].length < count) kept = [new Float64Array(count), new Float64Array(count)];
  const [carry, value] = kept;
  for (let i = 0; i < count; i++) {
    const b = before[i];
    const toBefore = b < 0 ? 0 : reach * passes[b];
    const toAfter = after[i] < 0 ? 0 : reach * passes[i];
    const scale = 1 / (area[i] + toAfter + (b < 0 ? 0 : toBefore * (1 - carry[b])));
    carry[i] = toAfter * scale;
    value[i] = (area[i] * light[i] + (b < 0 ? 0 : toBefore * value[b])) * scale;
  }
  for (let i = count - 1; i >= 0; i--) {
    const a = after[i];
    light[i] = value[i] + (a < 0 ? 0 : carry[i] * light[a]);
  }
}
