/** A dark band along one edge of a picture: a shutter that was closing, or not yet open, while the flash fired. */
import { LUMINANCE } from "../photometry/index.ts";
import type { LinearPicture, PhotoReading } from "./types.ts";

type Band = NonNullable<PhotoReading["image"]["band"]>;

/** The picture is looked at as a grid of so many cells along the way in which a band would run across. */
const STRIPS = 24;
const LINES = 96;
/** Pixels of a strip that are asked along a line: enough for the mean of a cell. */
const ASKED = 12;
/** Cells on either side of a limit that are held against each other, and those skipped between: a curtain's edge is soft. */
const REACH = 4;
const GAP = 2;
/** It is darker by so much in nearly every strip at the same line: no scene's edge runs right across and darkens all alike. */
const STEP_STOPS = 0.5;
const ACROSS = 0.85;
/** From that line to the edge nothing is as light again as it was before. */
const STAYS = 0.8;
/** Stops under full below which a strip tells nothing. */
const BLACK_STOPS = 10;

/** Errors  none; null where there is no such band, or the picture is too dark to tell */
export function findBand(picture: LinearPicture): Band | null {
  const down = logGrid(picture, true);
  const right = logGrid(picture, false);
  const found = [
    bandAlong(down, "top"),
    bandAlong(down.toReversed(), "bottom"),
    bandAlong(right, "left"),
    bandAlong(right.toReversed(), "right"),
  ].filter((band) => band !== null);
  return found.toSorted((a, b) => b.stops - a.stops)[0] ?? null;
}

/** log2 luminance, [line from the top or from the left][strip]. */
function logGrid({ width, height, rgb }: LinearPicture, upright: boolean): Float64Array[] {
  const [long, across] = upright ? [height, width] : [width, height];
  const [alongStep, acrossStep] = upright ? [3 * width, 3] : [3, 3 * width];
  const every = Math.max(1, Math.floor(across / (STRIPS * ASKED)));
  const [red, green, blue] = LUMINANCE;
  const grid: Float64Array[] = [];
  for (let line = 0; line < LINES; line++) {
    const row = new Float64Array(STRIPS);
    const [from, to] = cell(line, LINES, long);
    for (let strip = 0; strip < STRIPS; strip++) {
      const [a, b] = cell(strip, STRIPS, across);
      let sum = 0;
      let count = 0;
      for (let i = from; i < to; i++) {
        for (let k = a; k < b; k += every) {
          const at = i * alongStep + k * acrossStep;
          sum += red * rgb[at] + green * rgb[at + 1] + blue * rgb[at + 2];
          count++;
        }
      }
      row[strip] = Math.log2(Math.max(2 ** -BLACK_STOPS / 4, sum / Math.max(1, count)));
    }
    grid.push(row);
  }
  return grid;
}

function cell(i: number, of: number, size: number): [number, number] {
  const from = Math.floor((i * size) / of);
  return [from, Math.max(from + 1, Math.floor(((i + 1) * size) / of))];
}

function bandAlong(grid: readonly Float64Array[], edge: Band["edge"]): Band | null {
  let best: Band | null = null;
  for (let line = REACH; line < LINES / 2 + REACH; line++) {
    const drops = stripDrops(grid, line);
    if (drops.length < STRIPS / 2) continue;
    const deep = drops.filter(({ drop }) => drop >= STEP_STOPS);
    if (deep.length < ACROSS * drops.length) continue;
    if (deep.filter(({ stays }) => stays).length < STAYS * deep.length) continue;
    const sorted = deep.map(({ drop }) => drop).toSorted((a, b) => a - b);
    const stops = sorted[Math.floor(sorted.length / 2)];
    if (best === null || stops > best.stops) best = { edge, share: line / LINES, stops };
  }
  return best;
}

/** Strip by strip: how much darker the lines before `line` are than those after it, and whether all that lies nearer to the
 * edge stays so. */
function stripDrops(grid: readonly Float64Array[], line: number): { drop: number; stays: boolean }[] {
  const out: { drop: number; stays: boolean }[] = [];
  for (let strip = 0; strip < STRIPS; strip++) {
    let outside = 0;
    let inside = 0;
    for (let k = 0; k < REACH; k++) {
      outside += grid[Math.max(0, line - GAP - k)][strip] / REACH;
      inside += grid[Math.min(LINES - 1, line + GAP + k)][strip] / REACH;
    }
    if (inside < -BLACK_STOPS) continue;
    let stays = true;
    for (let k = 0; k < line - GAP; k++) if (grid[k][strip] > inside - STEP_STOPS / 2) stays = false;
    out.push({ drop: inside - outside, stays });
  }
  return out;
}
