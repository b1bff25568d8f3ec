/** Simple closed solids made of loops, and the joining of meshes. */
import type { Point } from "./measures.ts";
import type { Mesh } from "./types.ts";

/** A closed skin through loops of equal length, shut by a point at either end. `material` is asked per band:
 * band 0 lies between the first pole and the first loop. Turned so that it faces out. */
export function skinOver(
  first: Point,
  loops: readonly (readonly Point[])[],
  last: Point,
  material: (band: number) => number,
): Mesh {
  const n = loops[0].length;
  const positions = Float64Array.from([first, ...loops.flat(), last].flat());
  const triangles: number[] = [];
  const materials: number[] = [];
  const end = positions.length / 3 - 1;
  for (let band = 0; band <= loops.length; band++) {
    const from = 1 + (band - 1) * n;
    const to = 1 + band * n;
    for (let i = 0; i < n; i++) {
      const j = (i + 1) % n;
      if (band > 0) triangles.push(from + i, band < loops.length ? to + i : end, from + j);
      if (band < loops.length) triangles.push(to + i, to + j, band > 0 ? from + j : 0);
      const count = (band > 0 ? 1 : 0) + (band < loops.length ? 1 : 0);
      for (let c = 0; c < count; c++) materials.push(material(band));
    }
  }
  const turned = volumeOf(positions, triangles) < 0;
  return withNormals(positions, turned ? flipped(triangles) : triangles, materials);
}

/** A closed ring through loops of equal length, the last joined to the first. Turned so that it faces out. */
export function ringOver(loops: readonly (readonly Point[])[], material: number): Mesh {
  const n = loops[0].length;
  const positions = Float64Array.from(loops.flat(2));
  const triangles: number[] = [];
  for (let i = 0; i < loops.length; i++)
    for (let j = 0; j < n; j++) {
      const [a, b] = [i * n, ((i + 1) % loops.length) * n];
      const next = (j + 1) % n;
      triangles.push(a + j, b + j, a + next, a + next, b + j, b + next);
    }
  const turned = volumeOf(positions, triangles) < 0;
  const materials = new Uint8Array(triangles.length / 3).fill(material);
  return withNormals(positions, turned ? flipped(triangles) : triangles, materials);
}

/** Volume enclosed by a closed mesh; positive when its triangles face out. */
export function volumeOf(p: ArrayLike<number>, t: ArrayLike<number>): number {
  let volume = 0;
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [3 * t[i], 3 * t[i + 1], 3 * t[i + 2]];
    volume +=
      p[a] * (p[b + 1] * p[c + 2] - p[b + 2] * p[c + 1]) -
      p[a + 1] * (p[b] * p[c + 2] - p[b + 2] * p[c]) +
      p[a + 2] * (p[b] * p[c + 1] - p[b + 1] * p[c]);
  }
  return volume / 6;
}

function flipped(triangles: readonly number[]): number[] {
  return triangles.map((_, i) => triangles[i - (i % 3) + [0, 2, 1][i % 3]]);
}

/** The mirror image in the plane of symmetry (y to -y), still facing out. */
export function mirrored(m: Mesh): Mesh {
  const turn = (values: Float64Array) => values.map((x, i) => (i % 3 === 1 ? -x : x));
  return {
    positions: turn(m.positions),
    normals: turn(m.normals),
    triangles: m.triangles.map((_, i) => m.triangles[i - (i % 3) + [0, 2, 1][i % 3]]),
    materials: m.materials,
  };
}

/** The curve from b to c whose slope at each is that from one neighbour to the other; t from 0 to 1. */
export function catmullRom(a: number, b: number, c: number, d: number, t: number): number {
  return b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
}

/** Smooth normals: area-weighted means of the triangles that meet at a vertex. */
export function withNormals(
  positions: Float64Array,
  triangles: ArrayLike<number>,
  materials: ArrayLike<number>,
): Mesh {
  const normals = new Float64Array(positions.length);
  writeNormals(normals, positions, triangles);
  return {
    positions,
    normals,
    triangles: Uint32Array.from(triangles),
    materials: Uint8Array.from(materials),
  };
}

/** The same into what is there. */
export function writeNormals(
  normals: Float64Array,
  p: ArrayLike<number>,
  triangles: ArrayLike<number>,
): void {
  normals.fill(0);
  for (let t = 0; t < triangles.length; t += 3) {
    const a = 3 * triangles[t];
    const b = 3 * triangles[t + 1];
    const c = 3 * triangles[t + 2];
    const ux = p[b] - p[a];
    const uy = p[b + 1] - p[a + 1];
    const uz = p[b + 2] - p[a + 2];
    const wx = p[c] - p[a];
    const wy = p[c + 1] - p[a + 1];
    const wz = p[c + 2] - p[a + 2];
    const nx = uy * wz - uz * wy;
    const ny = uz * wx - ux * wz;
    const nz = ux * wy - uy * wx;
    for (let corner = 0; corner < 3; corner++) {
      const v = 3 * triangles[t + corner];
      normals[v] += nx;
      normals[v + 1] += ny;
      normals[v + 2] += nz;
    }
  }
  for (let v = 0; v < normals.length; v += 3) {
    const [x, y, z] = [normals[v], normals[v + 1], normals[v + 2]];
    const length = Math.sqrt(x * x + y * y + z * z) || 1;
    normals[v] /= length;
    normals[v + 1] /= length;
    normals[v + 2] /= length;
  }
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
    for (let i = 0; i < m.triangles.length; i++) triangles[t + i] = m.triangles[i] + v / 3;
    materials.set(m.materials, t / 3);
    v += m.positions.length;
    t += m.triangles.length;
  }
  return { positions, normals, triangles, materials };
}

/** Third of the area of the triangles that meet at each vertex. */
export function vertexAreas({
  positions: p,
  triangles,
}: Pick<Mesh, "positions" | "triangles">): Float64Array {
  const out = new Float64Array(p.length / 3);
  for (let t = 0; t < triangles.length; t += 3) {
    const a = 3 * triangles[t];
    const b = 3 * triangles[t + 1];
    const c = 3 * triangles[t + 2];
    const ux = p[b] - p[a];
    const uy = p[b + 1] - p[a + 1];
    const uz = p[b + 2] - p[a + 2];
    const wx = p[c] - p[a];
    const wy = p[c + 1] - p[a + 1];
    const wz = p[c + 2] - p[a + 2];
    const x = uy * wz - uz * wy;
    const y = uz * wx - ux * wz;
    const z = ux * wy - uy * wx;
    const third = Math.sqrt(x * x + y * y + z * z) / 6;
    out[triangles[t]] += third;
    out[triangles[t + 1]] += third;
    out[triangles[t + 2]] += third;
  }
  return out;
}
