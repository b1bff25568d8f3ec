/** Simple closed solids and the joining of meshes. */
import type { Mesh } from "./types.ts";

export type Place = (x: number, y: number, z: number) => [number, number, number];

/** A unit sphere cut into bands, moved into place by `shape`; materials may depend on the way from the centre. */
export function ball(
  around: number,
  down: number,
  shape: Place,
  material: (x: number, y: number, z: number) => number,
): Mesh {
  const positions: number[] = [];
  const triangles: number[] = [];
  const materials: number[] = [];
  const way = (i: number, j: number): [number, number, number] => {
    const polar = (Math.PI * j) / down;
    const turn = (2 * Math.PI * i) / around;
    // the poles lie ahead and behind, so that an iris is a set of whole bands
    return [Math.cos(polar), Math.sin(polar) * Math.cos(turn), Math.sin(polar) * Math.sin(turn)];
  };
  for (let j = 0; j <= down; j++) for (let i = 0; i < around; i++) positions.push(...shape(...way(i, j)));
  for (let j = 0; j < down; j++) {
    for (let i = 0; i < around; i++) {
      const a = j * around + i;
      const b = j * around + ((i + 1) % around);
      const c = a + around;
      const d = b + around;
      const m = material(...way(i + 0.5, j + 0.5));
      if (j > 0) {
        triangles.push(a, c, b);
        materials.push(m);
      }
      if (j < down - 1) {
        triangles.push(b, c, d);
        materials.push(m);
      }
    }
  }
  return withNormals(positions, triangles, materials);
}

/** Smooth normals: area-weighted means of the triangles that meet at a place (vertices at one place share theirs). */
export function withNormals(
  positions: ArrayLike<number>,
  triangles: ArrayLike<number>,
  materials: ArrayLike<number>,
): Mesh {
  const p = Float64Array.from(positions);
  const normals = new Float64Array(p.length);
  const first = new Map<string, number>();
  const same = new Uint32Array(p.length / 3);
  for (let v = 0; v < same.length; v++) {
    const key = `${p[3 * v].toFixed(7)},${p[3 * v + 1].toFixed(7)},${p[3 * v + 2].toFixed(7)}`;
    const found = first.get(key);
    if (found === undefined) first.set(key, v);
    same[v] = found ?? v;
  }
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    const u = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
    const w = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]];
    const n = [u[1] * w[2] - u[2] * w[1], u[2] * w[0] - u[0] * w[2], u[0] * w[1] - u[1] * w[0]];
    for (const v of [a, b, c]) for (let k = 0; k < 3; k++) normals[3 * same[v / 3] + k] += n[k];
  }
  for (let v = 0; v < same.length; v++) {
    const s = 3 * same[v];
    const length = Math.hypot(normals[s], normals[s + 1], normals[s + 2]) || 1;
    for (let k = 0; k < 3; k++) normals[3 * v + k] = normals[s + k] / (same[v] === v ? length : 1);
  }
  return {
    positions: p,
    normals,
    triangles: Uint32Array.from(triangles),
    materials: Uint8Array.from(materials),
  };
}

export function joinMeshes(parts: readonly Mesh[]): Mesh {
  const positions = new Float64Array(parts.reduce((n, m) => n + m.positions.length, 0));
  const normals = new Float64Array(positions.length);
  const triangles = new Uint32Array(parts.reduce((n, m) => n + m.triangles.length, 0));
  const materials = new Uint8Array(triangles.length / 3);
  let v = 0;
  let t = 0;
  for (const m of parts) {
    positions.set(m.positions, v);
    normals.set(m.normals, v);
    triangles.set(
      m.triangles.map((i) => i + v / 3),
      t,
    );
    materials.set(m.materials, t / 3);
    v += m.positions.length;
    t += m.triangles.length;
  }
  return { positions, normals, triangles, materials };
}
