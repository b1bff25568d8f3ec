/** A head as a draughtsman would draw it: its outline and what stands out of the face or folds into it, found in the
 * figure itself. Slow; scripts/head-lines.mjs writes what it finds into head-lines.generated.ts. */
import { buildHead } from "./head.ts";
import { BESIDE, type HeadRaster, type HeadView, rasterHead } from "./head-raster.ts";
import { borders, lengthOf, type PageLine, simplified, smoothed, strokes } from "./page-lines.ts";
import { type Head, MATERIAL } from "./types.ts";

/** Millimetres across and up the page from the middle between the ears. */
export interface HeadLines {
  readonly outline: readonly PageLine[];
  readonly features: readonly PageLine[];
}

/** Millimetres a pixel: what is drawn is at most a third of that off. */
const STEP = 0.5;
/** The neck is left open under the chin. */
const LOWEST = -114;
/** What is shorter is a speck. */
const SHORTEST = { outline: 60, border: 6, fold: 9 } as const;
/** Rounds of smoothing, which take the pixels' steps away, and how far a point left out may lie off. */
const ROUNDS = { border: 6, fold: 10 } as const;
const OFF = 0.1;
/** A fold is looked for over so many pixels. */
const REACH = 3;
/** Curvature of a fold, 1/mm: where one begins, and where one that has begun still runs on. */
const FOLD = { begins: 0.2, runs: 0.09 } as const;
/** Folds nearer than this to a border say the same again, pixels. */
const CLEAR = 4;

export function drawHead(head: Head, view: HeadView): HeadLines {
  const raster = rasterHead(head, view, STEP);
  const outline = bordersOf(raster, (m) => m !== BESIDE, SHORTEST.outline);
  const eyes = (m: number) => m === MATERIAL.sclera || m === MATERIAL.iris || m === MATERIAL.pupil;
  const marks = [
    eyes,
    (m: number) => m === MATERIAL.iris || m === MATERIAL.pupil,
    (m: number) => m === MATERIAL.pupil,
    (m: number) => m === MATERIAL.lip,
  ].flatMap((is) => bordersOf(raster, is, SHORTEST.border));
  return {
    outline: outline.flatMap((line) => partsOf(line, isAboveCut)),
    features: [...marks, ...foldLines(raster, view, eyes)].flatMap((line) => partsOf(line, isAboveCut)),
  };
}

/** Found in pixels, the two halves of a face would differ by one here and there: from the front one half is found and the
 * other is its mirror image, as it is in the figure. */
function foldLines(raster: HeadRaster, view: HeadView, eyes: (m: number) => boolean): PageLine[] {
  const found = strokes(raster, foldsOf(raster, eyes))
    .filter((line) => lengthOf(line) >= SHORTEST.fold)
    .map((line) => smoothed(line, ROUNDS.fold));
  if (view === "side") return found.map(brief);
  const half = found.flatMap((line) => partsOf(line, (across) => across >= 0)).map(brief);
  return half.flatMap((line) => [line, line.map((mm, i) => (i % 2 === 0 ? 0 - mm : mm))]);
}

function bordersOf(raster: HeadRaster, is: (material: number) => boolean, shortest: number): PageLine[] {
  const inside = Float64Array.from(raster.material, (m) => (is(m) ? 1 : 0));
  return borders(raster, inside)
    .filter((line) => lengthOf(line) >= shortest)
    .map((line) => brief(smoothed(line, ROUNDS.border)));
}

function brief(line: PageLine): PageLine {
  return simplified(line, OFF).map((mm) => Math.round(10 * mm) / 10);
}

/** Pixels along which the surface folds away from the viewer, most sharply across the line, or one part of the head
 * stands before another. */
function foldsOf(raster: HeadRaster, eyes: (m: number) => boolean): Uint8Array {
  const { columns, rows, near, facing, step } = raster;
  const depth = Float64Array.from(near, (d) => (Number.isFinite(d) ? d : Number.NaN));
  const strength = new Float64Array(depth.length);
  const way = new Int32Array(depth.length);
  const h = REACH * step;
  for (let row = 2 * REACH; row < rows - 2 * REACH; row++)
    for (let column = 2 * REACH; column < columns - 2 * REACH; column++) {
      const at = row * columns + column;
      const bend = (d: number) => (depth[at + d * REACH] + depth[at - d * REACH] - 2 * depth[at]) / (h * h);
      // the sharpest of four ways across
      const ways: [number, number][] = [
        [bend(1), 1],
        [bend(columns), columns],
        [bend(columns + 1) / 2, columns + 1],
        [bend(columns - 1) / 2, columns - 1],
      ];
      const [most, across] = ways.reduce((a, b) => (b[0] > a[0] ? b : a));
      if (!(most > 0) || nearBorder(raster, at, eyes)) continue;
      strength[at] = most * facing[at];
      way[at] = across;
    }
  const crest = Uint8Array.from(strength, (s, at) =>
    s > FOLD.runs && s >= strength[at + way[at]] && s >= strength[at - way[at]] ? 1 : 0,
  );
  return grown(columns, crest, (at) => strength[at] > FOLD.begins);
}

function nearBorder({ columns, material }: HeadRaster, at: number, eyes: (m: number) => boolean): boolean {
  for (let dy = -CLEAR; dy <= CLEAR; dy++)
    for (let dx = -CLEAR; dx <= CLEAR; dx++) {
      const m = material[at + dy * columns + dx];
      if (m === BESIDE || eyes(m)) return true;
    }
  return false;
}

/** Of the pixels `on`, those that are joined to one that `begins`. */
function grown(columns: number, on: Uint8Array, begins: (at: number) => boolean): Uint8Array {
  const out = new Uint8Array(on.length);
  const waiting: number[] = [];
  on.forEach((one, at) => {
    if (one === 1 && begins(at)) waiting.push(at);
  });
  for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
    if (out[at] === 1) continue;
    out[at] = 1;
    for (const d of [1, -1, columns, -columns, columns + 1, columns - 1, 1 - columns, -columns - 1])
      if (on[at + d] === 1 && out[at + d] === 0) waiting.push(at + d);
  }
  return out;
}

const isAboveCut = (_: number, up: number) => up >= LOWEST;

/** The parts of a line of which all points are kept. */
function partsOf(line: PageLine, isKept: (across: number, up: number) => boolean): PageLine[] {
  const parts: PageLine[] = [[]];
  for (let i = 0; i < line.length; i += 2) {
    if (isKept(line[i], line[i + 1])) parts[parts.length - 1].push(line[i], line[i + 1]);
    else parts.push([]);
  }
  return parts.filter((part) => part.length >= 4);
}

/** What is written down: the mean head's lines. */
export function meanHeadLines(): Record<HeadView, HeadLines> {
  const head = buildHead();
  return { front: drawHead(head, "front"), side: drawHead(head, "side") };
}
