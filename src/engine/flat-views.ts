/** Views of a room's walls and of panels from a point, tile by tile, each by its closed form; only what hides a tile is
 * asked by rays. So a meter close to a lit wall reads what the wall sends, however near it is. */

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

/** A tile whose neighbours do not agree on being seen is asked at so many points each way. */
const FINER = 8;

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
  const seen = seenCells(tracer, s, p, 0, 0, 1, 1, columns, rows);
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
      const share = same ? 1 : shareOfCell(tracer, s, p, i / columns, j / rows, 1 / columns, 1 / rows);
      if (share === 0) continue;
      const x = at(s, 0, (i + 0.5) / columns, (j + 0.5) / rows) - p[0];
      const y = at(s, 1, (i + 0.5) / columns, (j + 0.5) / rows) - p[1];
      const z = at(s, 2, (i + 0.5) / columns, (j + 0.5) / rows) - p[2];
      const r = Math.sqrt(x * x + y * y + z * z);
      const patch = s.firstPatch + (j >> 2) * s.across + (i >> 2);
      out.add(p[0], p[1], p[2], x / r, y / r, z / r, r, TILES * patch + 4 * (j & 3) + (i & 3));
      out.weigh(share * view[0], share * view[1], share * view[2], share * view[3], share * view[4]);
    }
  }
}

function at(s: Sheet, k: number, u: number, v: number): number {
  return s.corner[k] + u * s.a[k] + v * s.b[k];
}

/** 1 where the middle of a cell is seen, for columns x rows cells of the part (u, v, du, dv) of a sheet. */
function seenCells(
  tracer: Tracer,
  s: Sheet,
  p: ArrayLike<number>,
  u: number,
  v: number,
  du: number,
  dv: number,
  columns: number,
  rows: number,
): Uint8Array {
  const out = new Uint8Array(columns * rows);
  for (let first = 0; first < out.length; first += FAN) {
    const count = Math.min(FAN, out.length - first);
    for (let k = 0; k < count; k++) {
      const x = u + (du * (((first + k) % columns) + 0.5)) / columns;
      const y = v + (dv * (Math.floor((first + k) / columns) + 0.5)) / rows;
      tracer.aim(k, at(s, 0, x, y) - p[0], at(s, 1, x, y) - p[1], at(s, 2, x, y) - p[2]);
    }
    tracer.lookPastLights(count, p[0], p[1], p[2]);
    for (let k = 0; k < count; k++) out[first + k] = tracer.seen[k];
  }
  return out;
}

/** How much of a cell is seen, each part of it weighed by the angle that it fills. */
function shareOfCell(
  tracer: Tracer,
  s: Sheet,
  p: ArrayLike<number>,
  u: number,
  v: number,
  du: number,
  dv: number,
): number {
  const seen = seenCells(tracer, s, p, u, v, du, dv, FINER, FINER);
  let all = 0;
  let some = 0;
  for (let k = 0; k < seen.length; k++) {
    const x = u + (du * ((k % FINER) + 0.5)) / FINER;
    const y = v + (dv * (Math.floor(k / FINER) + 0.5)) / FINER;
    const r2 = (at(s, 0, x, y) - p[0]) ** 2 + (at(s, 1, x, y) - p[1]) ** 2 + (at(s, 2, x, y) - p[2]) ** 2;
    // parts of one flat cell: the height over it is the same for all
    const weight = r2 ** -1.5;
    all += weight;
    if (seen[k] !== 0) some += weight;
  }
  return some / all;
}
