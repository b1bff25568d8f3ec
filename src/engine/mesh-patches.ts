/** Cuts a mesh into patches for the interreflection: triangles that lie together and face alike. */
import { buildBvh } from "./bvh.ts";
import { POINT_STRIDE, TILES } from "./scene.ts";
import type { PatchedMesh } from "./scene-builder.ts";
import { Walker } from "./walker.ts";

export interface RawMesh {
  readonly positions: Float64Array;
  readonly normals: Float64Array;
  readonly triangles: Uint32Array;
  readonly materials: Uint8Array;
}

/** Groups triangles by material, by height band and by which of eight ways they face.
 * Units   metres; `band` is the height of a band */
export function patchMesh(mesh: RawMesh, band: number): PatchedMesh {
  const count = mesh.triangles.length / 3;
  const keys = new Map<number, number>();
  const members: number[][] = [];
  const patchMaterial: number[] = [];
  const tileOfTriangle = new Int32Array(count);
  const geometry = triangleGeometry(mesh);
  for (let t = 0; t < count; t++) {
    const at = 7 * t;
    const turn = Math.floor((Math.atan2(geometry[at + 5], geometry[at + 4]) / Math.PI + 1) * 2.999);
    const height = Math.floor(geometry[at + 2] / band) + 512;
    const key = (mesh.materials[t] * 1024 + height) * 8 + turn;
    let patch = keys.get(key);
    if (patch === undefined) {
      patch = members.length;
      keys.set(key, patch);
      members.push([]);
      patchMaterial.push(mesh.materials[t]);
    }
    members[patch].push(t);
    tileOfTriangle[t] = patch * TILES;
  }
  const patchArea = new Float64Array(members.length);
  const patchPoints = new Float64Array(members.length * TILES * POINT_STRIDE);
  members.forEach((list, p) => {
    for (const t of list) patchArea[p] += geometry[7 * t + 3];
    writePoints(geometry, list, patchArea[p], patchPoints, p * TILES * POINT_STRIDE);
    for (const t of list)
      tileOfTriangle[t] += nearestPoint(geometry, t, patchPoints, p * TILES * POINT_STRIDE);
  });
  return {
    walker: new Walker(buildBvh(mesh.positions, mesh.triangles)),
    positions: mesh.positions,
    normals: mesh.normals,
    triangles: mesh.triangles,
    tileOfTriangle,
    patchCount: members.length,
    patchArea,
    patchPoints,
    patchMaterial: Uint8Array.from(patchMaterial),
    sphere: boundingSphere(mesh.positions),
  };
}

/** 7 numbers a triangle: centre xyz, area, unit normal. */
function triangleGeometry(mesh: RawMesh): Float64Array {
  const { positions: p, triangles } = mesh;
  const out = new Float64Array((7 * triangles.length) / 3);
  for (let t = 0; t < triangles.length / 3; t++) {
    const a = 3 * triangles[3 * t];
    const b = 3 * triangles[3 * t + 1];
    const c = 3 * triangles[3 * t + 2];
    const ux = p[b] - p[a];
    const uy = p[b + 1] - p[a + 1];
    const uz = p[b + 2] - p[a + 2];
    const wx = p[c] - p[a];
    const wy = p[c + 1] - p[a + 1];
    const wz = p[c + 2] - p[a + 2];
    const nx = uy * wz - uz * wy;
    const ny = uz * wx - ux * wz;
    const nz = ux * wy - uy * wx;
    const size = Math.sqrt(nx * nx + ny * ny + nz * nz);
    const scale = size > 0 ? 1 / size : 0;
    for (let k = 0; k < 3; k++) out[7 * t + k] = (p[a + k] + p[b + k] + p[c + k]) / 3;
    out[7 * t + 3] = size / 2;
    out[7 * t + 4] = nx * scale;
    out[7 * t + 5] = ny * scale;
    out[7 * t + 6] = nz * scale;
  }
  return out;
}

/** Points at equal steps of accumulated area, at triangle centres. */
function writePoints(g: Float64Array, list: readonly number[], area: number, out: Float64Array, at: number) {
  let member = 0;
  let passed = g[7 * list[0] + 3];
  for (let k = 0; k < TILES; k++) {
    const target = (area * (k + 0.5)) / TILES;
    while (passed < target && member < list.length - 1) passed += g[7 * list[++member] + 3];
    const from = 7 * list[member];
    for (let c = 0; c < 3; c++) {
      out[at + POINT_STRIDE * k + c] = g[from + c];
      out[at + POINT_STRIDE * k + 3 + c] = g[from + 4 + c];
    }
  }
}

/** Which of the patch's points stands for a triangle: near it, and facing as it does (a right angle weighs as 5 cm). */
function nearestPoint(g: Float64Array, triangle: number, points: Float64Array, at: number): number {
  const from = 7 * triangle;
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < TILES; k++) {
    const p = at + POINT_STRIDE * k;
    let far = 0;
    let apart = 1;
    for (let c = 0; c < 3; c++) {
      far += (points[p + c] - g[from + c]) ** 2;
      apart -= points[p + 3 + c] * g[from + 4 + c];
    }
    const d = far + 0.0025 * apart;
    if (d < least) {
      least = d;
      best = k;
    }
  }
  return best;
}

function boundingSphere(p: Float64Array): Float64Array {
  const lo = [1e9, 1e9, 1e9];
  const hi = [-1e9, -1e9, -1e9];
  for (let i = 0; i < p.length; i++) {
    lo[i % 3] = Math.min(lo[i % 3], p[i]);
    hi[i % 3] = Math.max(hi[i % 3], p[i]);
  }
  const centre = lo.map((x, k) => (x + hi[k]) / 2);
  let r2 = 0;
  for (let i = 0; i < p.length; i += 3) {
    r2 = Math.max(r2, (p[i] - centre[0]) ** 2 + (p[i + 1] - centre[1]) ** 2 + (p[i + 2] - centre[2]) ** 2);
  }
  return Float64Array.of(centre[0], centre[1], centre[2], Math.sqrt(r2) * (1 + 1e-9));
}
