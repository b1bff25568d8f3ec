/** A head seen square on, as pixels: how near, how much it faces the viewer, what it is made of. */
import type { Head } from "./types.ts";

/** front: straight ahead of the nose, own left to the right of the page; side: from own left, nose to the left. */
export type HeadView = "front" | "side";

/** Row-major, lowest row first. */
export interface HeadRaster {
  readonly columns: number;
  readonly rows: number;
  /** millimetres: of the middle of the first pixel, and from one to the next */
  readonly across0: number;
  readonly up0: number;
  readonly step: number;
  /** millimetres toward the viewer; −Infinity beside the head */
  readonly near: Float64Array;
  /** cosine between the surface and the line of sight */
  readonly facing: Float64Array;
  /** one MATERIAL, or `BESIDE` */
  readonly material: Uint8Array;
}

export const BESIDE = 255;
const MM = 1000;
/** Room round the head, so that no outline touches the rim. */
const MARGIN_MM = 6;
const INSIDE = -1e-9;

/** Millimetres across and up the page, and toward the viewer, per vertex. */
export function onPage(head: Head, view: HeadView): Float64Array {
  const p = head.mesh.positions;
  const out = new Float64Array(p.length);
  for (let i = 0; i < p.length; i += 3) {
    out[i] = MM * (view === "front" ? p[i + 1] : -p[i]);
    out[i + 1] = MM * p[i + 2];
    out[i + 2] = MM * (view === "front" ? p[i] : p[i + 1]);
  }
  return out;
}

export function rasterHead(head: Head, view: HeadView, step: number): HeadRaster {
  const page = onPage(head, view);
  const { triangles, materials, normals } = head.mesh;
  const toward = view === "front" ? 0 : 1;
  let [a0, a1, u0, u1] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < page.length; i += 3) {
    a0 = Math.min(a0, page[i]);
    a1 = Math.max(a1, page[i]);
    u0 = Math.min(u0, page[i + 1]);
    u1 = Math.max(u1, page[i + 1]);
  }
  // pixels lie on a grid through the head's own middle: a symmetric head gives a symmetric picture
  const across0 = step * Math.floor((a0 - MARGIN_MM) / step);
  const up0 = step * Math.floor((u0 - MARGIN_MM) / step);
  const columns = Math.ceil((a1 + MARGIN_MM - across0) / step) + 1;
  const rows = Math.ceil((u1 + MARGIN_MM - up0) / step) + 1;
  const near = new Float64Array(columns * rows).fill(-Infinity);
  const facing = new Float64Array(columns * rows);
  const material = new Uint8Array(columns * rows).fill(BESIDE);
  for (let t = 0; t < triangles.length; t += 3) {
    const [i, j, k] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    const [ax, ay] = [page[i], page[i + 1]];
    const [bx, by] = [page[j] - ax, page[j + 1] - ay];
    const [cx, cy] = [page[k] - ax, page[k + 1] - ay];
    const twice = bx * cy - cx * by;
    if (twice === 0) continue;
    const first = (least: number, from: number) => Math.max(0, Math.ceil((least - from) / step));
    const last = (most: number, from: number, count: number) =>
      Math.min(count - 1, Math.floor((most - from) / step));
    const right = last(ax + Math.max(0, bx, cx), across0, columns);
    const top = last(ay + Math.max(0, by, cy), up0, rows);
    for (let row = first(ay + Math.min(0, by, cy), up0); row <= top; row++) {
      for (let column = first(ax + Math.min(0, bx, cx), across0); column <= right; column++) {
        const x = across0 + column * step - ax;
        const y = up0 + row * step - ay;
        const v = (x * cy - cx * y) / twice;
        const w = (bx * y - x * by) / twice;
        const u = 1 - v - w;
        if (u < INSIDE || v < INSIDE || w < INSIDE) continue;
        const depth = u * page[i + 2] + v * page[j + 2] + w * page[k + 2];
        const at = row * columns + column;
        if (depth <= near[at]) continue;
        near[at] = depth;
        material[at] = materials[t / 3];
        facing[at] = u * normals[i + toward] + v * normals[j + toward] + w * normals[k + toward];
      }
    }
  }
  return { columns, rows, across0, up0, step, near, facing, material };
}
