import type { PowerLine } from "./contours.ts";
import type { Box } from "./label-places.ts";
import type { Projection } from "./projection.ts";

export interface LineLabel {
  readonly stops: number;
  /** pixels on the screen: the middle of the number */
  readonly x: number;
  readonly y: number;
}

/** Half of what a number takes, with air round it: type of 11.5 pixels, two or three characters. */
const HALF_WIDTH_PX = 13;
const HALF_HEIGHT_PX = 8;
/** Numbers nearer than this to each other read as one. */
const APART_PX = 26;
/** A line's other pieces from this length on have a number of their own, as far as this from the first. */
const OWN_NUMBER_PX = 190;
/** So many places are tried along a piece. */
const TRIES = 48;
const ENOUGH_PX = 60;

interface Screen {
  readonly points: readonly { x: number; y: number }[];
  readonly length: number;
}

/** A number on each whole-stop line, upright: inside the paper, off objects and names, and where the lines run apart.
 * A line that has no such place goes without. */
export function placeLineLabels(
  lines: readonly PowerLine[],
  projection: Projection,
  inside: Box,
  occupied: readonly Box[],
): LineLabel[] {
  const drawn = lines.map((line) => ({
    stops: line.stops,
    pieces: line.lines.map((points) => onScreen(points, projection)),
  }));
  const placed: LineLabel[] = [];
  const whole = drawn.filter(({ stops }) => Number.isInteger(stops));
  whole.sort((a, b) => Math.abs(a.stops) - Math.abs(b.stops) || a.stops - b.stops);
  for (const { stops, pieces } of whole) {
    const others = drawn.filter((line) => line.stops !== stops).flatMap((line) => line.pieces);
    const order = [...pieces].sort((a, b) => b.length - a.length);
    let own = 0;
    for (const piece of order) {
      if (own > 0 && (own > 1 || piece.length < OWN_NUMBER_PX)) break;
      const best = bestPlace(piece, stops, { inside, occupied, placed, others, apart: own > 0 });
      if (best === null) continue;
      placed.push(best);
      own++;
    }
  }
  return placed;
}

function bestPlace(
  piece: Screen,
  stops: number,
  around: {
    inside: Box;
    occupied: readonly Box[];
    placed: readonly LineLabel[];
    others: readonly Screen[];
    apart: boolean;
  },
): LineLabel | null {
  const { inside, occupied, placed, others, apart } = around;
  const step = Math.max(1, Math.floor(piece.points.length / TRIES));
  let best: LineLabel | null = null;
  let most = 0;
  for (let k = step >> 1; k < piece.points.length; k += step) {
    const { x, y } = piece.points[k] as { x: number; y: number };
    if (x < inside.x0 + HALF_WIDTH_PX || x > inside.x1 - HALF_WIDTH_PX) continue;
    if (y < inside.y0 + HALF_HEIGHT_PX || y > inside.y1 - HALF_HEIGHT_PX) continue;
    let space = ENOUGH_PX;
    for (const box of occupied) space = Math.min(space, gap(box, x, y));
    if (space <= 0) continue;
    let near = ENOUGH_PX;
    for (const other of placed) {
      const away = Math.hypot(other.x - x, other.y - y);
      near = Math.min(near, away - APART_PX);
      if (apart && other.stops === stops && away < OWN_NUMBER_PX) near = 0;
    }
    if (near <= 0) continue;
    const clear = clearOf(others, x, y);
    // what matters first is that the number stands on one line alone
    const worth = Math.min(space, ENOUGH_PX / 2) + near / 2 + 2 * clear;
    if (worth > most) {
      most = worth;
      best = { stops, x, y };
    }
  }
  return best;
}

/** Pixels between a number at a place and a box; 0 or less where they overlap. */
function gap(box: Box, x: number, y: number): number {
  const across = Math.max(box.x0 - x, x - box.x1) - HALF_WIDTH_PX;
  const down = Math.max(box.y0 - y, y - box.y1) - HALF_HEIGHT_PX;
  return Math.max(across, down);
}

/** Pixels to the nearest of the other lines, as far as it counts. */
function clearOf(others: readonly Screen[], x: number, y: number): number {
  let least = ENOUGH_PX / 2;
  for (const { points } of others) {
    for (const point of points) {
      const away = Math.max(Math.abs(point.x - x), Math.abs(point.y - y));
      if (away < least) least = away;
    }
  }
  return least;
}

function onScreen(points: Float64Array, projection: Projection): Screen {
  const out: { x: number; y: number }[] = [];
  let length = 0;
  for (let k = 0; k < points.length; k += 2) {
    const at = projection.toScreen(points[k] as number, points[k + 1] as number);
    const before = out.at(-1);
    if (before !== undefined) length += Math.hypot(at.x - before.x, at.y - before.y);
    out.push(at);
  }
  return { points: out, length };
}
