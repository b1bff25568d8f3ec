/** Rays through a Scene. One Tracer serves one thread; its hit fields hold the last `closest`. */
import { closestInBvh, found, occludedInBvh } from "./bvhwalk.ts";
import { type Emitter, type MeshInstance, type Quad, rimFraction, type Scene, WALL_AXES } from "./scene.ts";

export const HIT = { nothing: 0, mesh: 1, quad: 2, emitter: 3, room: 4 } as const;

export class Tracer {
  readonly scene: Scene;
  kind: number = HIT.nothing;
  /** which mesh, quad, emitter or wall */
  index = -1;
  t = 0;
  /** the patch that is seen, -1 where nothing comes back (a light's plate, the inside of a body) */
  patch = -1;
  triangle = -1;
  u = 0;
  v = 0;
  /** a quad or emitter was met from the side its forward axis points to */
  fromFront = false;

  constructor(scene: Scene) {
    this.scene = scene;
  }

  /** Nearest thing along a unit direction within tMax; false where there is none. */
  closest(
    ox: number,
    oy: number,
    oz: number,
    dx: number,
    dy: number,
    dz: number,
    tMax: number,
    withEmitters: boolean,
  ): boolean {
    this.kind = HIT.nothing;
    this.index = -1;
    this.patch = -1;
    this.t = tMax;
    const { meshes, quads, emitters, room } = this.scene;
    for (let i = 0; i < meshes.length; i++) this.closestMesh(meshes[i], i, ox, oy, oz, dx, dy, dz);
    for (let i = 0; i < quads.length; i++) {
      const t = hitQuad(quads[i], ox, oy, oz, dx, dy, dz, this.t);
      if (t > 0) this.takeQuad(quads[i], i, t, ox, oy, oz, dx, dy, dz);
    }
    if (withEmitters) {
      for (let i = 0; i < emitters.length; i++) {
        const t = hitEmitter(emitters[i], ox, oy, oz, dx, dy, dz, this.t);
        if (t > 0) {
          const f = emitters[i].forward;
          this.t = t;
          this.kind = HIT.emitter;
          this.index = i;
          this.patch = -1;
          this.fromFront = dx * f[0] + dy * f[1] + dz * f[2] < 0;
        }
      }
    }
    if (room) this.closestWall(ox, oy, oz, dx, dy, dz);
    return this.kind !== HIT.nothing;
  }

  /** Whether a body, a panel or a light's plate (but not number `except`) stands before tMax.
   * Walls never do: everything that is asked about lies inside the room. */
  occluded(
    ox: number,
    oy: number,
    oz: number,
    dx: number,
    dy: number,
    dz: number,
    tMax: number,
    except: number,
  ): boolean {
    const { meshes, quads, emitters } = this.scene;
    for (let i = 0; i < quads.length; i++)
      if (hitQuad(quads[i], ox, oy, oz, dx, dy, dz, tMax) > 0) return true;
    for (let i = 0; i < emitters.length; i++)
      if (i !== except && hitEmitter(emitters[i], ox, oy, oz, dx, dy, dz, tMax) > 0) return true;
    for (let i = 0; i < meshes.length; i++) {
      const m = meshes[i];
      if (!nearSphere(m.sphere, ox, oy, oz, dx, dy, dz, tMax)) continue;
      const r = m.rotation;
      const px = ox - m.offset[0];
      const py = oy - m.offset[1];
      const pz = oz - m.offset[2];
      if (
        occludedInBvh(
          m.bvh,
          r[0] * px + r[3] * py + r[6] * pz,
          r[1] * px + r[4] * py + r[7] * pz,
          r[2] * px + r[5] * py + r[8] * pz,
          r[0] * dx + r[3] * dy + r[6] * dz,
          r[1] * dx + r[4] * dy + r[7] * dz,
          r[2] * dx + r[5] * dy + r[8] * dz,
          tMax,
        )
      )
        return true;
    }
    return false;
  }

  private closestMesh(
    m: MeshInstance,
    index: number,
    ox: number,
    oy: number,
    oz: number,
    dx: number,
    dy: number,
    dz: number,
  ) {
    if (!nearSphere(m.sphere, ox, oy, oz, dx, dy, dz, this.t)) return;
    const r = m.rotation;
    const px = ox - m.offset[0];
    const py = oy - m.offset[1];
    const pz = oz - m.offset[2];
    const lx = r[0] * dx + r[3] * dy + r[6] * dz;
    const ly = r[1] * dx + r[4] * dy + r[7] * dz;
    const lz = r[2] * dx + r[5] * dy + r[8] * dz;
    const hit = closestInBvh(
      m.bvh,
      r[0] * px + r[3] * py + r[6] * pz,
      r[1] * px + r[4] * py + r[7] * pz,
      r[2] * px + r[5] * py + r[8] * pz,
      lx,
      ly,
      lz,
      this.t,
    );
    if (!hit) return;
    this.t = found.t;
    this.kind = HIT.mesh;
    this.index = index;
    this.triangle = found.triangle;
    this.u = found.u;
    this.v = found.v;
    this.fromFront = facing(m, found.triangle, lx, ly, lz) < 0;
    this.patch = this.fromFront ? m.patchOfTriangle[found.triangle] : -1;
  }

  private takeQuad(
    q: Quad,
    index: number,
    t: number,
    ox: number,
    oy: number,
    oz: number,
    dx: number,
    dy: number,
    dz: number,
  ) {
    const x = ox + t * dx - q.centre[0];
    const y = oy + t * dy - q.centre[1];
    const z = oz + t * dz - q.centre[2];
    const a = (x * q.right[0] + y * q.right[1] + z * q.right[2]) / q.halfWidth;
    const b = (x * q.up[0] + y * q.up[1] + z * q.up[2]) / q.halfHeight;
    this.t = t;
    this.kind = HIT.quad;
    this.index = index;
    this.u = 0.5 + 0.5 * a;
    this.v = 0.5 + 0.5 * b;
    this.fromFront = dx * q.forward[0] + dy * q.forward[1] + dz * q.forward[2] < 0;
    const cell = cellOf(this.v, q.cellsUp) * q.cellsAcross + cellOf(this.u, q.cellsAcross);
    this.patch = (this.fromFront ? q.frontPatch : q.backPatch) + cell;
  }

  private closestWall(ox: number, oy: number, oz: number, dx: number, dy: number, dz: number) {
    const room = this.scene.room;
    if (!room) return;
    const size = room.size;
    // From inside a box the ray leaves by the nearest plane it heads for; a ray that starts on a wall
    // and heads out leaves at once and meets nothing.
    let t = Number.POSITIVE_INFINITY;
    let wall = -1;
    const tx = dx > 0 ? (size[0] - ox) / dx : dx < 0 ? -ox / dx : t;
    const ty = dy > 0 ? (size[1] - oy) / dy : dy < 0 ? -oy / dy : t;
    const tz = dz > 0 ? (size[2] - oz) / dz : dz < 0 ? -oz / dz : t;
    if (tx < t) {
      t = tx;
      wall = dx > 0 ? 3 : 2;
    }
    if (ty < t) {
      t = ty;
      wall = dy > 0 ? 1 : 0;
    }
    if (tz < t) {
      t = tz;
      wall = dz > 0 ? 5 : 4;
    }
    if (!(t > 1e-9 && t < this.t)) return;
    const axes = WALL_AXES[wall];
    const along = axes[2] === 0 ? ox + t * dx : oy + t * dy;
    const up = axes[3] === 1 ? oy + t * dy : oz + t * dz;
    this.t = t;
    this.kind = HIT.room;
    this.index = wall;
    this.u = along / size[axes[2]];
    this.v = up / size[axes[3]];
    this.fromFront = true;
    this.patch =
      room.first[wall] +
      cellOf(this.v, room.upward[wall]) * room.across[wall] +
      cellOf(this.u, room.across[wall]);
  }
}

function cellOf(fraction: number, cells: number): number {
  const i = Math.floor(fraction * cells);
  return i < 0 ? 0 : i >= cells ? cells - 1 : i;
}

/** Sign of (ray direction . outward normal) on a triangle, in the mesh's own axes. */
function facing(m: MeshInstance, triangle: number, dx: number, dy: number, dz: number): number {
  const p = m.positions;
  const a = 3 * m.triangles[3 * triangle];
  const b = 3 * m.triangles[3 * triangle + 1];
  const c = 3 * m.triangles[3 * triangle + 2];
  const ux = p[b] - p[a];
  const uy = p[b + 1] - p[a + 1];
  const uz = p[b + 2] - p[a + 2];
  const wx = p[c] - p[a];
  const wy = p[c + 1] - p[a + 1];
  const wz = p[c + 2] - p[a + 2];
  return dx * (uy * wz - uz * wy) + dy * (uz * wx - ux * wz) + dz * (ux * wy - uy * wx);
}

function nearSphere(
  s: Float64Array,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMax: number,
): boolean {
  const x = s[0] - ox;
  const y = s[1] - oy;
  const z = s[2] - oz;
  const r2 = s[3] * s[3];
  const d2 = x * x + y * y + z * z;
  if (d2 <= r2) return true;
  const along = x * dx + y * dy + z * dz;
  if (along <= 0 || along - s[3] > tMax) return false;
  return d2 - along * along <= r2;
}

/** Distance to the rectangle along the ray, 0 where it is missed or lies beyond tMax. */
function hitQuad(
  q: Quad,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMax: number,
): number {
  const f = q.forward;
  const c = q.centre;
  const slope = dx * f[0] + dy * f[1] + dz * f[2];
  if (slope === 0) return 0;
  const t = ((c[0] - ox) * f[0] + (c[1] - oy) * f[1] + (c[2] - oz) * f[2]) / slope;
  if (!(t > 1e-9 && t < tMax)) return 0;
  const x = ox + t * dx - c[0];
  const y = oy + t * dy - c[1];
  const z = oz + t * dz - c[2];
  if (Math.abs(x * q.right[0] + y * q.right[1] + z * q.right[2]) > q.halfWidth) return 0;
  if (Math.abs(x * q.up[0] + y * q.up[1] + z * q.up[2]) > q.halfHeight) return 0;
  return t;
}

/** The same for the plate of a light; a point light has no plate. */
export function hitEmitter(
  e: Emitter,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMax: number,
): number {
  if (e.shape === "point") return 0;
  const f = e.forward;
  const c = e.centre;
  const slope = dx * f[0] + dy * f[1] + dz * f[2];
  if (slope === 0) return 0;
  const t = ((c[0] - ox) * f[0] + (c[1] - oy) * f[1] + (c[2] - oz) * f[2]) / slope;
  if (!(t > 1e-9 && t < tMax)) return 0;
  const x = ox + t * dx - c[0];
  const y = oy + t * dy - c[1];
  const z = oz + t * dz - c[2];
  const a = x * e.right[0] + y * e.right[1] + z * e.right[2];
  const b = x * e.up[0] + y * e.up[1] + z * e.up[2];
  return rimFraction(e, a, b) <= 1 ? t : 0;
}
