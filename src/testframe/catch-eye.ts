/** One eye in full-size pixels: its crop, and where in it iris and white meet. */

import { LEFT_EYE, RIGHT_EYE } from "../figure/index.ts";
import { luminanceAt } from "../photometry/index.ts";
import type { FoundFace, LinearPicture, Photograph } from "./types.ts";

/** In pixels of `crop`; `scale` of them make a full-size pixel. */
export interface EyeCrop {
  readonly side: "left" | "right";
  readonly crop: LinearPicture;
  readonly luminance: Float64Array;
  readonly scale: number;
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  /** middle of the iris in full-size pixels of the picture */
  readonly full: readonly [number, number];
  /** between the lids, xy per corner */
  readonly lids: Float64Array;
}

/** First iris point (its centre) of each eye; the four round it follow. */
const IRIS = { right: 468, left: 473 } as const;
const LIDS = { right: RIGHT_EYE, left: LEFT_EYE } as const;
/** Half of the crop, in iris radii: the iris, found wrongly, and the white beside it. */
const HALF = 2.4;
/** Pixels that an iris radius is shown in at most: what is finer tells no more. */
const MOST_RADIUS = 64;
/** Under this many full-size pixels of radius nothing is told of an eye. */
const LEAST_RADIUS = 5;

/** Null where the eye is too small or outside the picture. */
export function eyeCrop(photo: Photograph, face: FoundFace, side: "left" | "right"): EyeCrop | null {
  const grown = photo.width / photo.picture.width;
  const at = (v: number) => [grown * face.points[3 * v], grown * face.points[3 * v + 1]] as const;
  const [x, y] = at(IRIS[side]);
  let radius = 0;
  for (let k = 1; k <= 4; k++) {
    const [a, b] = at(IRIS[side] + k);
    // foreshortened in a turned eye: its longer half
    radius = Math.max(radius, Math.hypot(a - x, b - y));
  }
  if (!(radius >= LEAST_RADIUS)) return null;
  const left = Math.round(x - HALF * radius);
  const top = Math.round(y - HALF * radius);
  const width = Math.round(2 * HALF * radius);
  if (left < 0 || top < 0 || left + width > photo.width || top + width > photo.height) return null;
  const longSide = Math.min(width, Math.round(2 * HALF * MOST_RADIUS));
  const crop = photo.crop({ left, top, width, height: width }, longSide);
  const scale = crop.width / width;
  const luminance = new Float64Array(crop.width * crop.height);
  for (let i = 0; i < luminance.length; i++) luminance[i] = luminanceAt(crop.rgb, 3 * i);
  const lids = Float64Array.from(
    LIDS[side].flatMap((v) => [scale * (at(v)[0] - left), scale * (at(v)[1] - top)]),
  );
  const found = {
    side,
    crop,
    luminance,
    scale,
    x: scale * (x - left),
    y: scale * (y - top),
    radius: scale * radius,
    lids,
  };
  const iris = irisCircle(found);
  return { ...found, ...iris, full: [left + iris.x / scale, top + iris.y / scale] };
}

/** Sides of the rim that lids leave free: within so much of level, radians, in steps. */
const OPEN = 0.85;
const RAYS = 11;
/** The rim is crossed from this share of the radius to that. */
const INSIDE = [0.72, 0.8, 0.88] as const;
const OUTSIDE = [1.12, 1.2, 1.28] as const;
/** Searched so far round what the landmark model says, in radii, coarse to fine. */
const SEARCH = [
  { reach: 0.3, steps: 5, radii: [0.85, 0.92, 1, 1.08, 1.15] },
  { reach: 0.09, steps: 3, radii: [0.96, 1, 1.04] },
  { reach: 0.04, steps: 3, radii: [0.98, 1, 1.02] },
] as const;

/** The circle across which the eye lightens most, right and left together.
 * Source  the circular edge operator of Daugman 1993, with ratios for differences */
function irisCircle(eye: Omit<EyeCrop, "side" | "crop" | "scale" | "full">): {
  x: number;
  y: number;
  radius: number;
} {
  let best = { x: eye.x, y: eye.y, radius: eye.radius };
  for (const { reach, steps, radii } of SEARCH) {
    const from = best;
    let most = Number.NEGATIVE_INFINITY;
    for (let i = -steps; i <= steps; i++)
      for (let j = -steps; j <= steps; j++)
        for (const grown of radii) {
          const radius = grown * from.radius;
          const x = from.x + (reach * from.radius * i) / steps;
          const y = from.y + (reach * from.radius * j) / steps;
          // of circles that do as well, the one the landmark model chose
          const off = ((x - eye.x) ** 2 + (y - eye.y) ** 2) / eye.radius ** 2;
          const step = rimStep(eye, x, y, radius) - OFF_COSTS * off;
          if (step <= most) continue;
          most = step;
          best = { x, y, radius };
        }
  }
  return best;
}

/** Of being found a whole radius off, in the same terms: with less the operator runs off to a lid, with more it only repeats
 * the landmark model (tried on rendered eyes, misjudged by a twentieth and a tenth of a radius). */
const OFF_COSTS = 1;

function rimStep(eye: Pick<EyeCrop, "luminance" | "lids">, x: number, y: number, radius: number): number {
  let sum = 0;
  let count = 0;
  for (const side of [-1, 1])
    for (let k = 0; k < RAYS; k++) {
      const turn = OPEN * ((2 * k) / (RAYS - 1) - 1);
      const dx = side * radius * Math.cos(turn);
      const dy = radius * Math.sin(turn);
      if (!isBetween(eye.lids, x + OUTSIDE[1] * dx, y + OUTSIDE[1] * dy)) continue;
      const inside = middleOf(eye, x, y, dx, dy, INSIDE);
      const outside = middleOf(eye, x, y, dx, dy, OUTSIDE);
      count++;
      if (inside + outside > 0) sum += (outside - inside) / (outside + inside);
    }
  return count > 0 ? sum / Math.max(count, RAYS) : 0;
}

/** The middle one of three: a catchlight on the rim is passed over. */
function middleOf(
  eye: Pick<EyeCrop, "luminance">,
  x: number,
  y: number,
  dx: number,
  dy: number,
  shares: readonly [number, number, number],
): number {
  const [a, b, c] = shares.map((s) => valueAt(eye.luminance, x + s * dx, y + s * dy));
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}

/** Bilinear, in a square picture; pixel centres at halves. */
export function valueAt(values: Float64Array, x: number, y: number): number {
  const side = Math.round(Math.sqrt(values.length));
  const px = Math.min(side - 1.001, Math.max(0, x - 0.5));
  const py = Math.min(side - 1.001, Math.max(0, y - 0.5));
  const i = Math.floor(px);
  const j = Math.floor(py);
  const at = j * side + i;
  const top = values[at] + (px - i) * (values[at + 1] - values[at]);
  const low = values[at + side] + (px - i) * (values[at + side + 1] - values[at + side]);
  return top + (py - j) * (low - top);
}

/** Whether a place lies within an outline. */
export function isBetween(outline: Float64Array, x: number, y: number): boolean {
  let within = false;
  for (let i = 0, j = outline.length - 2; i < outline.length; j = i, i += 2) {
    const [ax, ay, bx, by] = [outline[j], outline[j + 1], outline[i], outline[i + 1]];
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) within = !within;
  }
  return within;
}
