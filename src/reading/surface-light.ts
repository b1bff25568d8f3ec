/** Light that surfaces send onto surfaces, looked up at any point that a picture or a spot meter sees. */
import { HIT, LIFT, type MeshInstance, rotate, TILE_BITS, type Tracer, WALL_AXES } from "../engine/index.ts";
import type { Lighting } from "./lighting.ts";
import { type Looked, type VertexLight, vertexLight } from "./vertex-light.ts";

/** Where a ray ended, as a Tracer says it. */
export type Hit = Pick<Tracer, "kind" | "index" | "triangle" | "u" | "v" | "fromFront">;

export class SurfaceLight {
  private readonly perMesh: (VertexLight | null)[] = [];

  /** `looked` has light looked up at the vertices of the people who are seen, which takes a second; without it their patches
   * serve, good for a mean over a region and for a picture while something is being dragged. Backdrops are always smooth. */
  constructor(
    private readonly lighting: Lighting,
    private readonly looked: Looked | null,
  ) {}

  /** Writes rgb for one light at a hit (a Tracer's last, or one that was kept) into out. */
  write(light: number, hit: Hit, out: Float64Array) {
    out[0] = 0;
    out[1] = 0;
    out[2] = 0;
    const solved = this.lighting.exitance[light];
    const { scene } = this.lighting.stage;
    if (hit.kind === HIT.mesh) {
      const mesh = scene.meshes[hit.index];
      const table = this.tableOf(hit.index)?.[light];
      if (!table) {
        const tile = mesh.tileOfTriangle[hit.triangle];
        if (tile >= 0) for (let k = 0; k < 3; k++) out[k] = solved.arriving[3 * (tile >> TILE_BITS) + k];
        return;
      }
      const a = 3 * mesh.triangles[3 * hit.triangle];
      const b = 3 * mesh.triangles[3 * hit.triangle + 1];
      const c = 3 * mesh.triangles[3 * hit.triangle + 2];
      const w = 1 - hit.u - hit.v;
      for (let k = 0; k < 3; k++) out[k] = w * table[a + k] + hit.u * table[b + k] + hit.v * table[c + k];
    } else if (hit.kind === HIT.room && scene.room) {
      const r = scene.room;
      const wall = hit.index;
      bilinear(solved.arriving, r.first[wall], r.across[wall], r.upward[wall], hit.u, hit.v, out);
    } else if (hit.kind === HIT.quad) {
      const q = scene.quads[hit.index];
      const first = hit.fromFront ? q.frontPatch : q.backPatch;
      bilinear(solved.arriving, first, q.cellsAcross, q.cellsUp, hit.u, hit.v, out);
    }
  }

  private tableOf(index: number): VertexLight | null {
    const { owners, scene } = this.lighting.stage;
    if (this.looked === null && owners[index].kind !== "backdrop") return null;
    this.perMesh[index] ??= vertexLight(this.lighting, scene.meshes[index], index, this.looked);
    return this.perMesh[index];
  }
}

/** Between the centres of the four nearest cells; flat beyond the outermost centres. */
function bilinear(
  values: Float64Array,
  first: number,
  across: number,
  upward: number,
  u: number,
  v: number,
  out: Float64Array,
) {
  const x = Math.max(0, Math.min(across - 1, u * across - 0.5));
  const y = Math.max(0, Math.min(upward - 1, v * upward - 0.5));
  const i = Math.min(Math.floor(x), Math.max(0, across - 2));
  const j = Math.min(Math.floor(y), Math.max(0, upward - 2));
  const fx = x - i;
  const fy = y - j;
  const i1 = Math.min(i + 1, across - 1);
  const j1 = Math.min(j + 1, upward - 1);
  for (let k = 0; k < 3; k++) {
    const a = values[3 * (first + j * across + i) + k];
    const b = values[3 * (first + j * across + i1) + k];
    const c = values[3 * (first + j1 * across + i) + k];
    const d = values[3 * (first + j1 * across + i1) + k];
    out[k] = (1 - fy) * ((1 - fx) * a + fx * b) + fy * ((1 - fx) * c + fx * d);
  }
}

/** A seen point: where shadow rays start, the shading normal and what the surface looks like. */
export interface SeenPoint {
  x: number;
  y: number;
  z: number;
  nx: number;
  ny: number;
  nz: number;
  /** rgb reflectance */
  albedo: Float64Array;
  transmittance: number;
}

export function newSeenPoint(): SeenPoint {
  return { x: 0, y: 0, z: 0, nx: 0, ny: 0, nz: 0, albedo: new Float64Array(3), transmittance: 0 };
}

/** Describes the tracer's last hit (not a light's plate), seen along direction d from o. */
export function writeSeenPoint(
  lighting: Lighting,
  tracer: Tracer,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  out: SeenPoint,
) {
  const { scene, looks } = lighting.stage;
  const t = tracer.t;
  out.x = ox + t * dx;
  out.y = oy + t * dy;
  out.z = oz + t * dz;
  out.transmittance = 0;
  const patches = scene.patches;
  if (tracer.kind === HIT.mesh) {
    const mesh = scene.meshes[tracer.index];
    meshPoint(mesh, tracer, out);
    const tile = mesh.tileOfTriangle[tracer.triangle];
    for (let c = 0; c < 3; c++)
      out.albedo[c] = tile < 0 ? looks[tracer.index][0][c] : patches.reflectance[3 * (tile >> TILE_BITS) + c];
    return;
  }
  if (tracer.kind === HIT.quad) {
    const f = scene.quads[tracer.index].forward;
    const s = tracer.fromFront ? 1 : -1;
    out.nx = s * f[0];
    out.ny = s * f[1];
    out.nz = s * f[2];
    out.transmittance = patches.transmittance[tracer.tile >> TILE_BITS];
  } else {
    const [axis, end] = WALL_AXES[tracer.index];
    const s = end === 1 ? -1 : 1;
    out.nx = axis === 0 ? s : 0;
    out.ny = axis === 1 ? s : 0;
    out.nz = axis === 2 ? s : 0;
  }
  out.x += LIFT * out.nx;
  out.y += LIFT * out.ny;
  out.z += LIFT * out.nz;
  for (let c = 0; c < 3; c++) out.albedo[c] = patches.reflectance[3 * (tracer.tile >> TILE_BITS) + c];
}

const local = new Float64Array(3);
const turned = new Float64Array(3);

/** Smooth normal, and a start for shadow rays on the curved surface that the triangles stand for, so that the
 * facets throw no shadow on each other at the terminator. Source: Hanika 2021, Hacking the shadow terminator. */
function meshPoint(mesh: MeshInstance, tracer: Tracer, out: SeenPoint) {
  const { positions: p, normals: n, triangles } = mesh;
  const weights = [1 - tracer.u - tracer.v, tracer.u, tracer.v];
  local.fill(0);
  let x = 0;
  let y = 0;
  let z = 0;
  for (let k = 0; k < 3; k++) {
    const v = 3 * triangles[3 * tracer.triangle + k];
    x += weights[k] * p[v];
    y += weights[k] * p[v + 1];
    z += weights[k] * p[v + 2];
    for (let c = 0; c < 3; c++) local[c] += weights[k] * n[v + c];
  }
  rotate(mesh.rotation, local, 0, turned, 0);
  const length = Math.hypot(turned[0], turned[1], turned[2]);
  out.nx = turned[0] / length;
  out.ny = turned[1] / length;
  out.nz = turned[2] / length;
  local[0] = 0;
  local[1] = 0;
  local[2] = 0;
  for (let k = 0; k < 3; k++) {
    const v = 3 * triangles[3 * tracer.triangle + k];
    const below = Math.min(0, (x - p[v]) * n[v] + (y - p[v + 1]) * n[v + 1] + (z - p[v + 2]) * n[v + 2]);
    for (let c = 0; c < 3; c++) local[c] -= weights[k] * below * n[v + c];
  }
  rotate(mesh.rotation, local, 0, turned, 0);
  out.x += turned[0] + LIFT * out.nx;
  out.y += turned[1] + LIFT * out.ny;
  out.z += turned[2] + LIFT * out.nz;
}
