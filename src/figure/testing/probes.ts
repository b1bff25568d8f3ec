/** Plain ways to ask a mesh where it is: edges counted, rays by brute force, solid angles. */
import type { Mesh } from "../types.ts";

/** How often each directed edge occurs. */
export function directedEdges(mesh: Mesh): Map<number, number> {
  const n = mesh.positions.length / 3;
  const edges = new Map<number, number>();
  for (let i = 0; i < mesh.triangles.length; i++) {
    const name = mesh.triangles[i] * n + mesh.triangles[i - (i % 3) + ((i + 1) % 3)];
    edges.set(name, (edges.get(name) ?? 0) + 1);
  }
  return edges;
}

/** Ends of the edges that are met from one side only. */
export function openEnds(mesh: Mesh): number[] {
  const n = mesh.positions.length / 3;
  const edges = directedEdges(mesh);
  return [...edges]
    .filter(([name, count]) => edges.get((name % n) * n + Math.floor(name / n)) !== count)
    .flatMap(([name]) => [Math.floor(name / n), name % n]);
}

export const at = (mesh: Mesh, v: number) => Array.from(mesh.positions.subarray(3 * v, 3 * v + 3));
export const distance = (a: readonly number[], b: readonly number[]) =>
  Math.hypot(...a.map((x, k) => x - b[k]));

/** First hit of a ray: how far, and the cosine between the way and the triangle's own (outward) normal. */
export function firstHit(
  mesh: Mesh,
  o: readonly number[],
  d: readonly number[],
): { t: number; facing: number } | null {
  const { positions: p, triangles } = mesh;
  const [x, y, z] = o;
  const [dx, dy, dz] = d;
  let best: { t: number; facing: number } | null = null;
  // one name a line: taken apart as lists these numbers cost three times as much, and there are millions
  for (let i = 0; i < triangles.length; i += 3) {
    const a = 3 * triangles[i];
    const b = 3 * triangles[i + 1];
    const c = 3 * triangles[i + 2];
    const ux = p[b] - p[a];
    const uy = p[b + 1] - p[a + 1];
    const uz = p[b + 2] - p[a + 2];
    const wx = p[c] - p[a];
    const wy = p[c + 1] - p[a + 1];
    const wz = p[c + 2] - p[a + 2];
    const nx = uy * wz - uz * wy;
    const ny = uz * wx - ux * wz;
    const nz = ux * wy - uy * wx;
    const along = nx * dx + ny * dy + nz * dz;
    if (along === 0) continue;
    const ox = x - p[a];
    const oy = y - p[a + 1];
    const oz = z - p[a + 2];
    const t = -(nx * ox + ny * oy + nz * oz) / along;
    if (t <= 0 || (best && t >= best.t)) continue;
    const qx = oy * dz - oz * dy;
    const qy = oz * dx - ox * dz;
    const qz = ox * dy - oy * dx;
    const s = -(wx * qx + wy * qy + wz * qz) / along;
    const r = (ux * qx + uy * qy + uz * qz) / along;
    if (s < 0 || r < 0 || s + r > 1) continue;
    best = { t, facing: along / Math.hypot(nx, ny, nz) };
  }
  return best;
}

/** How many times a closed mesh goes round a point: 1 inside, 0 outside (sum of solid angles over 4 pi). */
export function winding(mesh: Mesh, at: readonly number[]): number {
  const { positions: p, triangles } = mesh;
  let sum = 0;
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => at.map((x, axis) => p[3 * triangles[i + k] + axis] - x));
    const [la, lb, lc] = [a, b, c].map((v) => Math.hypot(...v));
    const dot = (u: number[], v: number[]) => u[0] * v[0] + u[1] * v[1] + u[2] * v[2];
    const det =
      a[0] * (b[1] * c[2] - b[2] * c[1]) +
      a[1] * (b[2] * c[0] - b[0] * c[2]) +
      a[2] * (b[0] * c[1] - b[1] * c[0]);
    sum += 2 * Math.atan2(det, la * lb * lc + dot(a, b) * lc + dot(b, c) * la + dot(c, a) * lb);
  }
  return sum / (4 * Math.PI);
}
