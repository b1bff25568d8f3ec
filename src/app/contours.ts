import { contours } from "d3-contour";
import type { FieldMap } from "../reading/index.ts";

export interface PowerLine {
  /** stops from the person's face */
  readonly stops: number;
  /** open or closed polylines, metres on the floor: x, y, x, y … */
  readonly lines: readonly Float64Array[];
}

/** Darker than any reading: stands in for "nothing arrives", which has no logarithm. */
const NOTHING = -40;
const LOWEST = -8;
const HIGHEST = 8;

/** Whole stops, and half stops within one stop of the face, that occur in the map. */
export function powerLevels(map: FieldMap): number[] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const stops of map.stops) {
    if (!Number.isFinite(stops)) continue;
    if (stops < low) low = stops;
    if (stops > high) high = stops;
  }
  const levels: number[] = [];
  for (let half = Math.ceil(Math.max(low, LOWEST) * 2); half <= Math.min(high, HIGHEST) * 2; half++) {
    const stops = half / 2;
    if (Number.isInteger(stops) || Math.abs(stops) < 1) levels.push(stops);
  }
  return levels;
}

/** Lines of equal exposure over the floor. The stretches that only follow the edge of the map are left out:
 * they are where the map ends, not where the exposure is equal. */
export function powerLines(map: FieldMap): PowerLine[] {
  const { columns, rows } = map;
  const values = Array.from(map.stops, (stops) => (Number.isFinite(stops) ? stops : NOTHING));
  const trace = contours().size([columns, rows]).smooth(true);
  const result: PowerLine[] = [];
  for (const stops of powerLevels(map)) {
    const lines: Float64Array[] = [];
    for (const polygon of trace.contour(values, stops).coordinates) {
      for (const ring of polygon) lines.push(...openRing(ring as [number, number][], map));
    }
    if (lines.length > 0) result.push({ stops, lines });
  }
  return result;
}

/** d3-contour puts the value of cell i at i + 0.5; rings run along the outside at 0 and n or 0.5 and n − 0.5. */
function openRing(ring: readonly [number, number][], map: FieldMap): Float64Array[] {
  const isEdge = ([x, y]: [number, number]) =>
    x <= 0.5 + 1e-9 || y <= 0.5 + 1e-9 || x >= map.columns - 0.5 - 1e-9 || y >= map.rows - 0.5 - 1e-9;
  const pieces: [number, number][][] = [];
  let piece: [number, number][] = [];
  for (let index = 0; index < ring.length; index++) {
    const point = ring[index] as [number, number];
    const previous = ring[index - 1];
    if (previous !== undefined && isEdge(previous) && isEdge(point)) {
      if (piece.length > 1) pieces.push(piece);
      piece = [];
    }
    piece.push(point);
  }
  if (piece.length > 1) pieces.push(piece);
  const first = pieces[0];
  const last = pieces.at(-1);
  const start = ring[0];
  // A ring that was cut elsewhere runs on through its own beginning.
  if (first && last && first !== last && start && !isEdge(start)) {
    if (first[0] === start && last.at(-1)?.[0] === start[0] && last.at(-1)?.[1] === start[1]) {
      pieces[0] = [...last, ...first.slice(1)];
      pieces.pop();
    }
  }
  return pieces.map((points) => {
    const flat = new Float64Array(points.length * 2);
    points.forEach(([x, y], index) => {
      flat[index * 2] = map.across0 + (x - 0.5) * map.dAcross;
      flat[index * 2 + 1] = map.up0 + (y - 0.5) * map.dUp;
    });
    return flat;
  });
}

export interface LineLabel {
  readonly stops: number;
  readonly x: number;
  readonly y: number;
}

/** One place on each whole-stop line for its label: as far as can be from the labels already placed and from
 * `keepClear`, tried on every few points of the line. */
export function placeLabels(
  lines: readonly PowerLine[],
  keepClear: readonly { x: number; y: number }[],
  inside: { x0: number; y0: number; x1: number; y1: number },
): LineLabel[] {
  const placed: LineLabel[] = [];
  const order = lines.filter((line) => Number.isInteger(line.stops)).sort(byDistanceFromZero);
  for (const line of order) {
    let best: LineLabel | null = null;
    let bestSpace = 0.3;
    for (const points of line.lines) {
      const step = 2 * Math.max(1, Math.floor(points.length / 2 / 40));
      for (let index = 0; index < points.length; index += step) {
        const x = points[index] as number;
        const y = points[index + 1] as number;
        if (x < inside.x0 || x > inside.x1 || y < inside.y0 || y > inside.y1) continue;
        let space = 1.2;
        for (const other of [...placed, ...keepClear]) {
          space = Math.min(space, Math.hypot(x - other.x, y - other.y));
        }
        if (space > bestSpace) {
          bestSpace = space;
          best = { stops: line.stops, x, y };
        }
      }
    }
    if (best !== null) placed.push(best);
  }
  return placed;
}

function byDistanceFromZero(a: PowerLine, b: PowerLine): number {
  return Math.abs(a.stops) - Math.abs(b.stops) || a.stops - b.stops;
}
