/** Patches cut into a few cells each, for light that falls off across them. */
import { type Patches, POINT_STRIDE, TILES } from "../engine/index.ts";

/** A patch is cut into so many cells of as many tiles each. */
export const CELLS = 4;

const made = new WeakMap<Patches, Int32Array>();

/** Per tile its cell: those of patch p are CELLS * p and on. A patch is halved across where it is longest, and each half
 * again; both sides of a panel are cut alike. */
export function cellsOfTiles(patches: Patches): Int32Array {
  let cells = made.get(patches);
  if (!cells) {
    cells = new Int32Array(TILES * patches.count);
    for (let p = 0; p < patches.count; p++) {
      const tiles = Array.from({ length: TILES }, (_, k) => TILES * p + k);
      halve(patches.points, tiles, CELLS).forEach((some, c) => {
        for (const t of some) (cells as Int32Array)[t] = CELLS * p + c;
      });
    }
    made.set(patches, cells);
  }
  return cells;
}

function halve(points: Float64Array, tiles: number[], into: number): number[][] {
  if (into === 1) return [tiles];
  let longest = 0;
  let most = -1;
  for (let axis = 0; axis < 3; axis++) {
    const at = tiles.map((t) => points[POINT_STRIDE * t + axis]);
    const long = Math.max(...at) - Math.min(...at);
    // a hair, so that rounding decides nothing
    if (long > most + 1e-9) {
      most = long;
      longest = axis;
    }
  }
  const sorted = tiles.toSorted(
    (a, b) => points[POINT_STRIDE * a + longest] - points[POINT_STRIDE * b + longest] || a - b,
  );
  const half = tiles.length / 2;
  return [...halve(points, sorted.slice(0, half), into / 2), ...halve(points, sorted.slice(half), into / 2)];
}
