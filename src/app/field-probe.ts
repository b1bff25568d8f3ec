import type { FieldMap } from "../reading/index.ts";

export interface Probe {
  readonly luxSeconds: number;
  /** stops from the person's face; −Infinity where nothing arrives */
  readonly stops: number;
  /** where the light comes from, degrees; null where nothing arrives */
  readonly bearing: number | null;
  readonly tilt: number | null;
  readonly vectorScalarRatio: number | null;
}

const RADIANS = Math.PI / 180;

/** The map read between its cells: exposure mixed linearly, direction as unit vectors. Outside the outermost
 * cell centres the nearest cell counts; outside the map there is nothing to read. */
export function probeField(map: FieldMap, x: number, y: number): Probe | null {
  const column = (x - map.across0) / map.dAcross;
  const row = (y - map.up0) / map.dUp;
  if (column < -0.5 || row < -0.5 || column > map.columns - 0.5 || row > map.rows - 0.5) return null;
  const i = Math.min(Math.max(column, 0), map.columns - 1);
  const j = Math.min(Math.max(row, 0), map.rows - 1);
  let luxSeconds = 0;
  let ratio = 0;
  let weightLit = 0;
  const from = [0, 0, 0];
  for (const [ci, cj, weight] of corners(i, j, map)) {
    const cell = cj * map.columns + ci;
    luxSeconds += weight * (map.luxSeconds[cell] as number);
    const bearing = map.bearing[cell] as number;
    const tilt = map.tilt[cell] as number;
    if (Number.isNaN(bearing) || Number.isNaN(tilt)) continue;
    weightLit += weight;
    ratio += weight * (map.vectorScalarRatio[cell] as number);
    const level = Math.cos(tilt * RADIANS);
    from[0] += weight * level * Math.sin(bearing * RADIANS);
    from[1] += weight * level * Math.cos(bearing * RADIANS);
    from[2] += weight * Math.sin(tilt * RADIANS);
  }
  const reference = referenceLuxSeconds(map);
  const stops =
    luxSeconds > 0 && reference !== null ? Math.log2(luxSeconds / reference) : Number.NEGATIVE_INFINITY;
  const [fx, fy, fz] = from as [number, number, number];
  if (weightLit === 0 || Math.hypot(fx, fy, fz) < 1e-6) {
    return { luxSeconds, stops, bearing: null, tilt: null, vectorScalarRatio: null };
  }
  return {
    luxSeconds,
    stops,
    bearing: (Math.atan2(fx, fy) / RADIANS + 360) % 360,
    tilt: Math.atan2(fz, Math.hypot(fx, fy)) / RADIANS,
    vectorScalarRatio: ratio / weightLit,
  };
}

function corners(i: number, j: number, map: FieldMap): [number, number, number][] {
  const i0 = Math.min(Math.floor(i), map.columns - 1);
  const j0 = Math.min(Math.floor(j), map.rows - 1);
  const i1 = Math.min(i0 + 1, map.columns - 1);
  const j1 = Math.min(j0 + 1, map.rows - 1);
  const u = i - i0;
  const v = j - j0;
  return [
    [i0, j0, (1 - u) * (1 - v)],
    [i1, j0, u * (1 - v)],
    [i0, j1, (1 - u) * v],
    [i1, j1, u * v],
  ];
}

/** What 0 stops stands for, found from the brightest cell: the map carries both columns. */
export function referenceLuxSeconds(map: FieldMap): number | null {
  let best = -1;
  for (let cell = 0; cell < map.stops.length; cell++) {
    if (!Number.isFinite(map.stops[cell])) continue;
    if (best < 0 || (map.luxSeconds[cell] as number) > (map.luxSeconds[best] as number)) best = cell;
  }
  if (best < 0) return null;
  return (map.luxSeconds[best] as number) / 2 ** (map.stops[best] as number);
}

export interface DirectionTick {
  readonly x: number;
  readonly y: number;
  /** horizontal part of the direction the light comes from times vectorScalarRatio / 4: length 0 to 1 */
  readonly dx: number;
  readonly dy: number;
}

/** Ticks on a grid of about `spacing` metres; none where nothing arrives. */
export function directionTicks(map: FieldMap, spacing: number): DirectionTick[] {
  const ticks: DirectionTick[] = [];
  const across = Math.max(1, Math.round((map.columns * map.dAcross) / spacing));
  const deep = Math.max(1, Math.round((map.rows * map.dUp) / spacing));
  for (let row = 0; row < deep; row++) {
    for (let column = 0; column < across; column++) {
      const x = map.across0 + (((column + 0.5) / across) * map.columns - 0.5) * map.dAcross;
      const y = map.up0 + (((row + 0.5) / deep) * map.rows - 0.5) * map.dUp;
      const probe = probeField(map, x, y);
      if (probe === null || probe.bearing === null || probe.tilt === null) continue;
      const length = (Math.min(4, probe.vectorScalarRatio ?? 0) / 4) * Math.cos(probe.tilt * RADIANS);
      ticks.push({
        x,
        y,
        dx: length * Math.sin(probe.bearing * RADIANS),
        dy: length * Math.cos(probe.bearing * RADIANS),
      });
    }
  }
  return ticks;
}
