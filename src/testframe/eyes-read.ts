/** What is told of eyes, for choosing among frames, never for deleting: open or shut, how sharp, smeared or not. */
import { LUMINANCE } from "../photometry/index.ts";
import { type Brightness, type Edge, edgesIn } from "./eyes-edges.ts";
import { opennessOf } from "./eyes-open.ts";
import { EYE_CORNERS } from "./find-points.ts";
import { fitHead } from "./head-fit.ts";
import type { FoundFace, PhotoFace, Photograph, PixelBox } from "./types.ts";

type Eyes = PhotoFace["eyes"];

/** What is cut out round an eye, over the distance of its corners. */
const CUT = { width: 1.5, height: 1 } as const;
/** Pixels on the longer side that an eye is looked at with, at most: finer than any lens at larger sizes. */
const MOST_PIXELS = 480;
/** Fewer edges than this say nothing. */
const LEAST_EDGES = 8;
/** The finest of the edges: this share of them is narrower. */
const FINEST = 0.3;
/** An eye's edges stand close: blur makes one run into the next and both look narrower, by this much times the width over
 * the distance of the eye's corners. Measured on rendered eyes. */
const CROWDED = 4.2;
const MOST_CROWDED = 0.5;
/** An eye shorter than this in the file has no detail to judge, pixels. */
const LEAST_EYE = 16;

export function readEyes(photo: Photograph, face: FoundFace): Eyes {
  const head = fitHead(face, photo.picture, null);
  const open = { left: opennessOf(face, head, "left"), right: opennessOf(face, head, "right") };
  let sharper: { edgePixels: number; motion: Eyes["motion"] } | null = null;
  for (const eye of ["left", "right"] as const) {
    const seen = lookAt(photo, face, eye);
    if (seen && (!sharper || seen.edgePixels < sharper.edgePixels)) sharper = seen;
  }
  return { open, edgePixels: sharper?.edgePixels ?? null, motion: sharper?.motion ?? null };
}

function lookAt(photo: Photograph, face: FoundFace, eye: "left" | "right") {
  const scale = photo.width / photo.picture.width;
  const [a, b] = EYE_CORNERS[eye].map((corner) => [
    scale * face.points[3 * corner],
    scale * face.points[3 * corner + 1],
  ]);
  const length = Math.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2);
  if (!(length >= LEAST_EYE)) return null;
  const box = within(photo, {
    left: (a[0] + b[0]) / 2 - (CUT.width / 2) * length,
    top: (a[1] + b[1]) / 2 - (CUT.height / 2) * length,
    width: CUT.width * length,
    height: CUT.height * length,
  });
  if (!box) return null;
  const crop = photo.crop(box, MOST_PIXELS);
  const values = new Float32Array(crop.width * crop.height);
  for (let i = 0; i < values.length; i++)
    for (let c = 0; c < 3; c++) values[i] += LUMINANCE[c] * crop.rgb[3 * i + c];
  return judge({ width: crop.width, height: crop.height, values }, length, box.width / crop.width);
}

/** Whole pixels of the photograph; null where next to nothing of it is in the picture. */
function within(photo: Photograph, box: PixelBox): PixelBox | null {
  const left = Math.max(0, Math.round(box.left));
  const top = Math.max(0, Math.round(box.top));
  const width = Math.min(photo.width, Math.round(box.left + box.width)) - left;
  const height = Math.min(photo.height, Math.round(box.top + box.height)) - top;
  return width >= LEAST_EYE && height >= LEAST_EYE / 2 ? { left, top, width, height } : null;
}

/** @param length of the eye from corner to corner, full-size pixels
 * @param scale full-size pixels a pixel */
export function judge(
  eye: Brightness,
  length: number,
  scale: number,
): { edgePixels: number; motion: Eyes["motion"] } | null {
  const edges = edgesIn(eye);
  if (edges.length < LEAST_EDGES) return null;
  const widths = edges.map((edge) => edge.width);
  const width = scale * lowOf(widths, FINEST);
  const lost = Math.min(MOST_CROWDED, (CROWDED * width) / length);
  return {
    edgePixels: width / (1 - lost),
    motion: length / scale >= LEAST_FOR_SMEAR ? motionIn(edges, scale) : null,
  };
}

function lowOf(widths: readonly number[], share: number): number {
  const sorted = widths.toSorted((a, b) => a - b);
  return sorted[Math.floor(share * sorted.length)];
}

/** Edges are sorted by which way across they run, so many ways over half a turn, each reaching into its neighbours. */
const WAYS = 8;
const LEAST_A_WAY = 5;
/** A level and an upright way at least must be seen. */
const LEAST_WAYS = 5;
/** Eyes have finer detail one way than another by themselves: up to this ratio of widths it is no smear. */
const NO_SMEAR = 1.6;
/** A smear is told of eyes at least so long, pixels: in smaller ones lids and lashes are all that is left. */
const LEAST_FOR_SMEAR = 40;
/** 10 to 90 % of an even smear. */
const OF_SMEAR = 0.8;

/** Squares of widths add up: what is sharp all round has one width, a smear adds its own to edges that it crosses. */
function motionIn(edges: readonly Edge[], scale: number): Eyes["motion"] {
  // squared width = even + c cos 2a + s sin 2a
  const seen: { angle: number; square: number }[] = [];
  for (let way = 0; way < WAYS; way++) {
    const angle = (way * Math.PI) / WAYS;
    const along = edges.filter(
      (edge) => Math.cos(2 * (edge.across - angle)) > Math.cos((2 * Math.PI) / WAYS),
    );
    if (along.length < LEAST_A_WAY) continue;
    const width = lowOf(
      along.map((edge) => edge.width),
      FINEST,
    );
    seen.push({ angle, square: width * width });
  }
  if (seen.length < LEAST_WAYS) return null;
  let best = { off: Number.POSITIVE_INFINITY, even: 0, more: 0, angle: 0 };
  for (let degrees = 0; degrees < 180; degrees++) {
    const angle = (degrees * Math.PI) / 180;
    const fit = lineThrough(seen.map((s) => [Math.cos(s.angle - angle) ** 2, s.square]));
    if (fit.more > 0 && fit.off < best.off) best = { ...fit, angle: degrees };
  }
  const even = Math.max(best.even, Math.min(...seen.map((s) => s.square)));
  if (!(best.more > (NO_SMEAR * NO_SMEAR - 1) * even)) return null;
  // in the picture's sense y runs down; direction is told with up as upright
  return { pixels: (scale * Math.sqrt(best.more)) / OF_SMEAR, direction: (180 - best.angle) % 180 };
}

/** Least squares: y = even + more x. */
function lineThrough(points: readonly (readonly number[])[]): { off: number; even: number; more: number } {
  const n = points.length;
  const [mx, my] = [0, 1].map((k) => points.reduce((sum, p) => sum + p[k], 0) / n);
  let [xx, xy] = [0, 0];
  for (const [x, y] of points) {
    xx += (x - mx) * (x - mx);
    xy += (x - mx) * (y - my);
  }
  const more = xx > 0 ? xy / xx : 0;
  const even = my - more * mx;
  return { even, more, off: points.reduce((sum, [x, y]) => sum + (y - even - more * x) ** 2, 0) };
}
