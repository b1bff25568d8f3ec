/** Grids of flat meters over the inside of a box: what arrives on each side, summed by Gauss's points. */
import { gaussLegendre } from "../src/math/index.ts";
import type { MeterReading } from "../src/reading/index.ts";
import type { Held, Point } from "./plans.ts";

export const SIDES = ["near", "far", "left", "right", "floor", "ceiling"] as const;
export type Side = (typeof SIDES)[number];

export interface WallMeter {
  readonly held: Held;
  readonly side: Side;
  /** m2 that the meter stands for */
  readonly area: number;
}

/** Meters stand this far inside: on the wall itself, or behind it by a rounding, a meter would see nothing. Light changes
 * by less than a thousandth over it except where two walls meet. */
export const OFF_WALL = 1e-3;

/** The direction out of each side into the room, and the two axes along it. */
const FRAME: Record<Side, { axis: 0 | 1 | 2; end: 0 | 1; bearing: number; tilt: number }> = {
  near: { axis: 1, end: 0, bearing: 0, tilt: 0 },
  far: { axis: 1, end: 1, bearing: 180, tilt: 0 },
  left: { axis: 0, end: 0, bearing: 90, tilt: 0 },
  right: { axis: 0, end: 1, bearing: 270, tilt: 0 },
  floor: { axis: 2, end: 0, bearing: 0, tilt: 90 },
  ceiling: { axis: 2, end: 1, bearing: 0, tilt: -90 },
};

/** Out of the box, square to a side. */
export function outward(side: Side): Point {
  const { axis, end } = FRAME[side];
  const sign = end === 0 ? -1 : 1;
  return [axis === 0 ? sign : 0, axis === 1 ? sign : 0, axis === 2 ? sign : 0];
}

/** `points` Gauss points each way in every cell, cells no wider than `cell`. The box runs from `low` to `high`. */
export function wallMeters(
  low: Point,
  high: Point,
  points: number,
  { cell = Number.POSITIVE_INFINITY, off = OFF_WALL } = {},
): WallMeter[] {
  const out: WallMeter[] = [];
  for (const side of SIDES) {
    const { axis, end, bearing, tilt } = FRAME[side];
    const [u, v] = [0, 1, 2].filter((k) => k !== axis);
    const at = end === 0 ? low[axis] + off : high[axis] - off;
    for (const [a, wide] of spread(low[u], high[u], points, cell))
      for (const [b, tall] of spread(low[v], high[v], points, cell)) {
        const position: [number, number, number] = [at, at, at];
        position[u] = a;
        position[v] = b;
        out.push({ side, area: wide * tall, held: { position, direction: { bearing, tilt } } });
      }
  }
  return out;
}

/** Places and lengths. */
function spread(from: number, to: number, points: number, cell: number): [number, number][] {
  const cells = Math.max(1, Math.ceil((to - from) / cell - 1e-9));
  const half = (to - from) / cells / 2;
  const { nodes, weights } = gaussLegendre(points);
  return Array.from({ length: cells }, (_, c) => from + (2 * c + 1) * half).flatMap((middle) =>
    Array.from(nodes, (x, i): [number, number] => [middle + half * x, half * weights[i]]),
  );
}

/** Sum of what each meter reads times what it stands for. */
export function flux(
  meters: readonly WallMeter[],
  readings: readonly MeterReading[],
  value: (reading: MeterReading, meter: WallMeter) => number,
): number {
  return meters.reduce((sum, meter, i) => sum + meter.area * value(readings[i], meter), 0);
}
