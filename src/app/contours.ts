import { contours } from "d3-contour";
import type { FieldMap } from "../reading/index.ts";
import { referenceLuxSeconds } from "./field-probe.ts";
import { type Cuts, isParted } from "./plane-cuts.ts";

export interface PowerLine {
  /** stops from the reference */
  readonly stops: number;
  /** open polylines, or closed ones that end where they begin; metres on the paper: across, up, across, up … */
  readonly lines: readonly Float64Array[];
}

type GridPoint = readonly [x: number, y: number];

const LOWEST = -8;
const HIGHEST = 8;
/** A ring no larger than this many cells each way is an island. One in which nothing differs from its level by more
 * than this, twice the grain that the map's own test allows, could be grain as well as light. */
const ISLAND_CELLS = 4;
const GRAIN_STOPS = 0.1;

/** Whole stops, and half stops within one stop of the reference, that occur in the map. */
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

/** Lines of equal exposure over the paper, found between cells by exposure itself: beside a front's back it falls in a
 * straight line to what bounces. Left out are stretches that only follow the edge of the map, where the map ends, and
 * those that run along a sheet that parts one light from another: neither is equal exposure. */
export function powerLines(map: FieldMap, cuts: Cuts = []): PowerLine[] {
  const { columns, rows } = map;
  const zero = referenceLuxSeconds(map);
  if (zero === null) return [];
  const values = Array.from(map.luxSeconds);
  const trace = contours().size([columns, rows]).smooth(true);
  const parted = partedCells(map, cuts);
  const result: PowerLine[] = [];
  for (const stops of powerLevels(map)) {
    const lines: Float64Array[] = [];
    for (const polygon of trace.contour(values, zero * 2 ** stops).coordinates) {
      for (const ring of polygon as unknown as GridPoint[][]) {
        if (isGrain(ring, map, stops)) continue;
        for (const piece of pieces(ring, (point) => leaves(point, map), parted))
          lines.push(inMetres(toEdges(piece, map), map));
      }
    }
    if (lines.length > 0) result.push({ stops, lines });
  }
  return result;
}

/** d3-contour puts the value of cell i at i + 0.5; rings run along the outside at 0 and n or 0.5 and n − 0.5. */
function leaves([x, y]: GridPoint, { columns, rows }: FieldMap): boolean {
  return x <= 0.5 + 1e-9 || y <= 0.5 + 1e-9 || x >= columns - 0.5 - 1e-9 || y >= rows - 0.5 - 1e-9;
}

/** Tells of a point of a line, which lies between two neighbouring cells, whether a sheet parts them. */
function partedCells(map: FieldMap, cuts: Cuts): (point: GridPoint) => boolean {
  const { columns, rows, across0, up0, dAcross, dUp } = map;
  const onward = new Uint8Array(columns * rows);
  const upward = new Uint8Array(columns * rows);
  for (const cut of cuts) {
    const low = (a: number, b: number, most: number) =>
      Math.max(0, Math.min(most, Math.floor(Math.min(a, b))));
    const high = (a: number, b: number, most: number) => Math.min(most, Math.ceil(Math.max(a, b)));
    const [ax, ay, bx, by] = cut;
    const [i0, i1] = [(ax - across0) / dAcross, (bx - across0) / dAcross];
    const [j0, j1] = [(ay - up0) / dUp, (by - up0) / dUp];
    for (let j = low(j0, j1, rows - 1); j <= high(j0, j1, rows - 1); j++) {
      for (let i = low(i0, i1, columns - 1); i <= high(i0, i1, columns - 1); i++) {
        const [x, y] = [across0 + i * dAcross, up0 + j * dUp];
        if (isParted([cut], x, y, x + dAcross, y)) onward[j * columns + i] = 1;
        if (isParted([cut], x, y, x, y + dUp)) upward[j * columns + i] = 1;
      }
    }
  }
  return ([x, y]) => {
    const [i, j] = [Math.floor(x - 0.5), Math.floor(y - 0.5)];
    if (i < 0 || j < 0) return false;
    const across = x - 0.5 - i > 1e-9;
    const up = y - 0.5 - j > 1e-9;
    const cell = j * columns + i;
    return (across && onward[cell] === 1) || (up && upward[cell] === 1);
  };
}

/** A small closed ring in which nothing differs from its level by more than the grain. */
function isGrain(ring: readonly GridPoint[], { stops, columns }: FieldMap, level: number) {
  let [x0, x1, y0, y1] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of ring) {
    x0 = Math.min(x0, x);
    x1 = Math.max(x1, x);
    y0 = Math.min(y0, y);
    y1 = Math.max(y1, y);
    if (x1 - x0 > ISLAND_CELLS || y1 - y0 > ISLAND_CELLS) return false;
  }
  for (let j = Math.ceil(y0 - 0.5); j <= y1 - 0.5; j++) {
    for (let i = Math.ceil(x0 - 0.5); i <= x1 - 0.5; i++) {
      if (!isInside(ring, i + 0.5, j + 0.5)) continue;
      if (Math.abs((stops[j * columns + i] as number) - level) > GRAIN_STOPS) return false;
    }
  }
  return true;
}

function isInside(ring: readonly GridPoint[], x: number, y: number): boolean {
  let inside = false;
  for (let k = 1; k < ring.length; k++) {
    const [ax, ay] = ring[k - 1] as GridPoint;
    const [bx, by] = ring[k] as GridPoint;
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) inside = !inside;
  }
  return inside;
}

/** What is left of a ring: broken where it runs along the edge, and at every point that is parted. */
function pieces(
  ring: readonly GridPoint[],
  isEdge: (point: GridPoint) => boolean,
  isCut: (point: GridPoint) => boolean,
): GridPoint[][] {
  const found: GridPoint[][] = [];
  let piece: GridPoint[] = [];
  const end = () => {
    if (piece.length > 1) found.push(piece);
    piece = [];
  };
  let wasEdge = false;
  for (const point of ring) {
    const edge = isEdge(point);
    if ((edge && wasEdge) || isCut(point)) end();
    wasEdge = edge;
    if (!isCut(point)) piece.push(point);
  }
  end();
  const first = found[0];
  const last = found.at(-1);
  const start = ring[0] as GridPoint;
  // A ring that was broken elsewhere runs on through its own beginning.
  if (first !== undefined && last !== undefined && first !== last && !isEdge(start)) {
    const back = last.at(-1) as GridPoint;
    if (first[0] === start && back[0] === start[0] && back[1] === start[1]) {
      found[0] = [...last, ...first.slice(1)];
      found.pop();
    }
  }
  return found;
}

/** Cells end half a cell short of the map's edge: a line that leaves the map is drawn on to where it leaves. */
function toEdges(points: readonly GridPoint[], map: FieldMap): readonly GridPoint[] {
  const start = onward(points[1], points[0], map);
  const end = onward(points.at(-2), points.at(-1), map);
  return [...(start === null ? [] : [start]), ...points, ...(end === null ? [] : [end])];
}

function onward(from: GridPoint | undefined, to: GridPoint | undefined, map: FieldMap): GridPoint | null {
  if (from === undefined || to === undefined || !leaves(to, map)) return null;
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  for (const [at, slope, most] of [
    [to[0], dx, map.columns],
    [to[1], dy, map.rows],
  ] as const) {
    const left = slope < 0 ? at : most - at;
    if (left > 0.5 + 1e-9 || slope === 0) continue;
    const t = left / Math.abs(slope);
    const reached: GridPoint = [to[0] + t * dx, to[1] + t * dy];
    // one that all but runs along the edge is left where it is
    return Math.hypot(t * dx, t * dy) > 1.5 ? null : reached;
  }
  return null;
}

function inMetres(points: readonly GridPoint[], map: FieldMap): Float64Array {
  const flat = new Float64Array(points.length * 2);
  points.forEach(([x, y], index) => {
    flat[index * 2] = map.across0 + (x - 0.5) * map.dAcross;
    flat[index * 2 + 1] = map.up0 + (y - 0.5) * map.dUp;
  });
  return flat;
}
