/** How wide the edges in a small picture are: the 10 to 90 % width of each, across it. */

/** One brightness per pixel, row-major. */
export interface Brightness {
  readonly width: number;
  readonly height: number;
  readonly values: Float32Array;
}

export interface Edge {
  /** 10 to 90 %, pixels */
  readonly width: number;
  /** across the edge, radians, 0 to pi: 0 is an upright edge, whose brightness changes sideways */
  readonly across: number;
}

/** Pixels beside an edge point along which its profile is averaged, and how far it is followed. */
const ALONG = 1;
const REACH = 24;
const STEP = 0.25;
/** An edge ends where its slope has fallen to this share of its steepest. */
const FLAT = 0.08;
/** Contrast of an edge over the noise of its averaged profile, and over the picture's brightness. */
const OVER_NOISE = 8;
const OVER_MEAN = 0.06;
/** Edges looked at, the steepest first, and how far apart they lie at least, pixels. */
const MOST = 160;
const APART = 2;
const LOW = 0.1;
const HIGH = 0.9;

/** The picture's steepest edges.
 * Source  edge widths: Marziliano et al. 2002, A no-reference perceptual blur metric; 10 to 90 %: ISO 12233; noise:
 * Immerkaer 1996, Fast noise variance estimation, by the median
 * Accuracy Gaussian blur of 1 to 8 pixels within 15 % [LM22] */
export function edgesIn(picture: Brightness): Edge[] {
  const { width, height, values } = picture;
  const margin = 3;
  const noise = noiseOf(picture);
  let mean = 0;
  for (const v of values) mean += v / values.length;
  const candidates: { x: number; y: number; slope: number; gx: number; gy: number }[] = [];
  for (let y = margin; y < height - margin; y++)
    for (let x = margin; x < width - margin; x++) {
      const [gx, gy] = slopeAt(picture, x, y);
      const slope = Math.sqrt(gx * gx + gy * gy);
      if (slope > 0 && isCrest(picture, x, y, gx / slope, gy / slope, slope))
        candidates.push({ x, y, slope, gx: gx / slope, gy: gy / slope });
    }
  candidates.sort((a, b) => b.slope - a.slope || a.y - b.y || a.x - b.x);
  const edges: Edge[] = [];
  const taken: { x: number; y: number }[] = [];
  for (const { x, y, gx, gy } of candidates) {
    if (taken.length >= MOST) break;
    if (taken.some((t) => Math.abs(t.x - x) < APART && Math.abs(t.y - y) < APART)) continue;
    taken.push({ x, y });
    const profile = profileAt(picture, x + 0.5, y + 0.5, gx, gy);
    const least = Math.max((OVER_NOISE * noise) / Math.sqrt(2 * ALONG + 1), OVER_MEAN * mean);
    const wide = widthOf(profile, least);
    if (wide !== null) edges.push({ width: wide, across: (Math.atan2(gy, gx) + Math.PI) % Math.PI });
  }
  return edges;
}

/** Sobel's, per pixel. */
function slopeAt({ width, values }: Brightness, x: number, y: number): [number, number] {
  const i = y * width + x;
  const a = values[i - width - 1];
  const c = values[i - width + 1];
  const g = values[i + width - 1];
  const k = values[i + width + 1];
  return [
    (c + 2 * values[i + 1] + k - a - 2 * values[i - 1] - g) / 8,
    (g + 2 * values[i + width] + k - a - 2 * values[i - width] - c) / 8,
  ];
}

function isCrest(picture: Brightness, x: number, y: number, gx: number, gy: number, slope: number): boolean {
  const [dx, dy] = [Math.round(gx), Math.round(gy)];
  const beside = (sign: number) => {
    const [sx, sy] = slopeAt(picture, x + sign * dx, y + sign * dy);
    return Math.sqrt(sx * sx + sy * sy);
  };
  return slope >= beside(1) && slope > beside(-1);
}

/** Brightness along the line across the edge, averaged along the edge; NaN beside the picture. */
function profileAt(picture: Brightness, x: number, y: number, gx: number, gy: number): Float64Array {
  const half = REACH / STEP;
  const out = new Float64Array(2 * half + 1);
  for (let i = -half; i <= half; i++) {
    let sum = 0;
    for (let k = -ALONG; k <= ALONG; k++)
      sum += bilinear(picture, x + i * STEP * gx - k * gy, y + i * STEP * gy + k * gx);
    out[i + half] = sum / (2 * ALONG + 1);
  }
  return out;
}

function bilinear({ width, height, values }: Brightness, x: number, y: number): number {
  const [px, py] = [x - 0.5, y - 0.5];
  if (!(px >= 0 && py >= 0 && px <= width - 1 && py <= height - 1)) return Number.NaN;
  const [left, top] = [Math.min(width - 2, Math.floor(px)), Math.min(height - 2, Math.floor(py))];
  const i = top * width + left;
  const upper = values[i] + (px - left) * (values[i + 1] - values[i]);
  const lower = values[i + width] + (px - left) * (values[i + width + 1] - values[i + width]);
  return upper + (py - top) * (lower - upper);
}

/** Of a rising profile, pixels; null where it does not rise enough or runs out of the picture. */
function widthOf(profile: Float64Array, least: number): number | null {
  const middle = (profile.length - 1) / 2;
  // slopes over one pixel: what is finer is noise
  const span = 1 / (2 * STEP);
  const slope = (i: number) => profile[i + span] - profile[i - span];
  let steepest = middle;
  for (let i = middle - span; i <= middle + span; i++) if (slope(i) > slope(steepest)) steepest = i;
  const flat = FLAT * slope(steepest);
  const end = (way: number) => {
    let i = steepest;
    while (slope(i) > flat) {
      i += way;
      if (i < span || i >= profile.length - span) return -1;
    }
    return Number.isNaN(slope(i)) ? -1 : i;
  };
  const [from, to] = [end(-1), end(1)];
  if (from < 0 || to < 0) return null;
  const rise = profile[to] - profile[from];
  if (!(rise >= least)) return null;
  const crossing = (share: number) => {
    const level = profile[from] + share * rise;
    let i = from;
    while (i < to && profile[i + 1] < level) i++;
    return i + (level - profile[i]) / (profile[i + 1] - profile[i]);
  };
  return (crossing(HIGH) - crossing(LOW)) * STEP;
}

/** Standard deviation of a pixel, from what neither flats, slopes nor even curves leave. */
function noiseOf({ width, height, values }: Brightness): number {
  const left: number[] = [];
  for (let y = 1; y < height - 1; y++)
    for (let x = 1; x < width - 1; x++) {
      const i = y * width + x;
      const cross = values[i - 1] + values[i + 1] + values[i - width] + values[i + width];
      const corners =
        values[i - width - 1] + values[i - width + 1] + values[i + width - 1] + values[i + width + 1];
      left.push(Math.abs(4 * values[i] - 2 * cross + corners));
    }
  left.sort((a, b) => a - b);
  return left.length > 0 ? left[left.length >> 1] / (0.6745 * 6) : 0;
}
