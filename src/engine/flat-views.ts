/** Views of a room's walls and of panels from a point, tile by tile, each by its closed form; only what hides a tile is
 * asked by rays. So a meter close to a lit wall reads what the wall sends, however near it is. */

import { writeSobol } from "../math/index.ts";
import { rectangleView } from "./rectangle-view.ts";
import { type Scene, TILES, WALL_AXES } from "./scene.ts";
import type { Tracer } from "./tracer.ts";
import type { ViewList } from "./view-weights.ts";
import { FAN } from "./walker.ts";

/** One side of a flat thing that is cut into patches: its corner, its two edges, and where its patches begin. */
interface Sheet {
  readonly corner: ArrayLike<number>;
  readonly a: ArrayLike<number>;
  readonly b: ArrayLike<number>;
  readonly across: number;
  readonly upward: number;
  readonly firstPatch: number;
}

/** A tile whose neighbours do not agree on being seen is asked at so many points. */
const FINER = 64;

/** Adds the tiles seen from a point with a flat receptor that faces (nx, ny, nz). */
export function addFlatViews(tracer: Tracer, p: ArrayLike<number>, n: ArrayLike<number>, out: ViewList) {
  for (const sheet of sheetsFacing(tracer.scene, p)) addSheet(tracer, sheet, p, n, out);
}

function sheetsFacing(scene: Scene, p: ArrayLike<number>): Sheet[] {
  const out: Sheet[] = [];
  const { room } = scene;
  if (room) {
    for (let wall = 0; wall < 6; wall++) {
      const [axis, end, u, v] = WALL_AXES[wall];
      const corner = [0, 0, 0];
      const a = [0, 0, 0];
      const b = [0, 0, 0];
      corner[axis] = end * room.size[axis];
      a[u] = room.size[u];
      b[v] = room.size[v];
      const [across, upward] = [room.across[wall], room.upward[wall]];
      out.push({ corner, a, b, across, upward, firstPatch: room.first[wall] });
    }
  }
  for (const q of scene.quads) {
    const side = [0, 1, 2].reduce((s, k) => s + (p[k] - q.centre[k]) * q.forward[k], 0);
    if (side === 0) continue;
    out.push({
      corner: [0, 1, 2].map((k) => q.centre[k] - q.halfWidth * q.right[k] - q.halfHeight * q.up[k]),
      a: [0, 1, 2].map((k) => 2 * q.halfWidth * q.right[k]),
      b: [0, 1, 2].map((k) => 2 * q.halfHeight * q.up[k]),
      across: q.cellsAcross,
      upward: q.cellsUp,
      firstPatch: side > 0 ? q.frontPatch : q.backPatch,
    });
  }
  return out;
}

const view = new Float64Array(5);

function addSheet(tracer: Tracer, s: Sheet, p: ArrayLike<number>, n: ArrayLike<number>, out: ViewList) {
  const columns = 4 * s.across;
  const rows = 4 * s.upward;
  const seen = seenCells(tracer, s, p, columns, rows);
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const here = seen[j * columns + i];
      const same =
        (i === 0 || seen[j * columns + i - 1] === here) &&
        (i + 1 === columns || seen[j * columns + i + 1] === here) &&
        (j === 0 || seen[(j - 1) * columns + i] === here) &&
        (j + 1 === rows || seen[(j + 1) * columns + i] === here);
      if (same && here === 0) continue;
      rectangleView(s.corner, s.a, s.b, i / columns, j / rows, 1 / columns, 1 / rows, p, n, view);
      if (!(view[0] > 0)) continue;
      if (!same) partView(tracer, s, p, n, i / columns, j / rows, 1 / columns, 1 / rows, view);
      if (!(view[0] > 0)) continue;
      const x = at(s, 0, (i + 0.5) / columns, (j + 0.5) / rows) - p[0];
      const y = at(s, 1, (i + 0.5) / columns, (j + 0.5) / rows) - p[1];
      const z = at(s, 2, (i + 0.5) / columns, (j + 0.5) / rows) - p[2];
      const r = Math.sqrt(x * x + y * y + z * z);
      const patch = s.firstPatch + (j >> 2) * s.across + (i >> 2);
      out.add(p[0], p[1], p[2], x / r, y / r, z / r, r, TILES * patch + 4 * (j & 3) + (i & 3));
      out.weigh(view[0], view[1], view[2], view[3], view[4]);
    }
  }
}

function at(s: Sheet, k: number, u: number, v: number): number {
  return s.corner[k] + u * s.a[k] + v * s.b[k];
}

/** 1 where the middle of a tile is seen. */
function seenCells(
  tracer: Tracer,
  s: Sheet,
  p: ArrayLike<number>,
  columns: number,
  rows: number,
): Uint8Array {
  const out = new Uint8Array(columns * rows);
  for (let first = 0; first < out.length; first += FAN) {
    const count = Math.min(FAN, out.length - first);
    for (let k = 0; k < count; k++) {
      const x = (((first + k) % columns) + 0.5) / columns;
      const y = (Math.floor((first + k) / columns) + 0.5) / rows;
      tracer.aim(k, at(s, 0, x, y) - p[0], at(s, 1, x, y) - p[1], at(s, 2, x, y) - p[2]);
    }
    tracer.lookPastLights(count, p[0], p[1], p[2]);
    for (let k = 0; k < count; k++) out[first + k] = tracer.seen[k];
  }
  return out;
}

/** Writes what is seen of a cell of which a part is hidden: points of it that are seen, scaled so that all of them would
 * fill the cell's own angle. One point to each 64th of the cell both
 * ways, and on no grid: an edge that runs along the rows would cut a grid's rows all at once. */
function partView(
  tracer: Tracer,
  s: Sheet,
  p: ArrayLike<number>,
  n: ArrayLike<number>,
  u: number,
  v: number,
  du: number,
  dv: number,
  out: Float64Array,
) {
  for (let k = 0; k < FINER; k++) {
    writeSobol(spread, 0, k);
    const x = spread[0] + 0.5 / FINER;
    const y = spread[1] + 0.5 / FINER;
    for (let c = 0; c < 3; c++) toward[3 * k + c] = at(s, c, u + du * x, v + dv * y) - p[c];
    tracer.aim(k, toward[3 * k], toward[3 * k + 1], toward[3 * k + 2]);
  }
  tracer.lookPastLights(FINER, p[0], p[1], p[2]);
  const solid = out[0];
  out.fill(0);
  let all = 0;
  for (let k = 0; k < FINER; k++) {
    const [x, y, z] = [toward[3 * k], toward[3 * k + 1], toward[3 * k + 2]];
    const r = Math.sqrt(x * x + y * y + z * z);
    // points of one flat cell: the height over it is the same for all
    const angle = r ** -3;
    all += angle;
    if (tracer.seen[k] === 0) continue;
    out[0] += angle;
    out[1] += (angle * x) / r;
    out[2] += (angle * y) / r;
    out[3] += (angle * z) / r;
    out[4] += (angle * Math.max(0, x * n[0] + y * n[1] + z * n[2])) / r;
  }
  for (let q = 0; q < 5; q++) out[q] *= solid / all;
}

const spread = new Float64Array(2);
const toward = new Float64Array(3 * FINER);
