/** Rays through a Scene. One Tracer serves one thread; its hit fields hold the last `closest`. */
import { facing, hitEmitter, hitPlate, nearSphere, onPlate, type Plate } from "./hits.ts";
import { type Emitter, type MeshInstance, type Quad, type Scene, TILES, WALL_AXES } from "./scene.ts";
import { cast, FAN, found } from "./walker.ts";

export const HIT = { nothing: 0, mesh: 1, quad: 2, emitter: 3, room: 4 } as const;

/** Rays stop this much short of what they aim at. */
const NEARLY = 1 - 1e-6;

export class Tracer {
  readonly scene: Scene;
  kind: number = HIT.nothing;
  /** which mesh, quad, emitter or wall */
  index = -1;
  t = 0;
  /** the tile that is seen, -1 where nothing comes back (a light's plate, the inside of a body) */
  tile = -1;
  triangle = -1;
  u = 0;
  v = 0;
  /** a quad or emitter was met from the side its forward axis points to */
  fromFront = false;
  /** per ray of a fan: whether its end is seen */
  readonly seen = new Uint8Array(FAN);
  private readonly ways = new Float64Array(3 * FAN);
  private readonly near = new Uint16Array(FAN);

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
    this.tile = -1;
    this.t = tMax;
    const { meshes, quads, emitters, room } = this.scene;
    for (let i = 0; i < meshes.length; i++) this.closestMesh(meshes[i], i, ox, oy, oz, dx, dy, dz);
    for (let i = 0; i < quads.length; i++) {
      const t = hitPlate(quads[i], null, ox, oy, oz, dx, dy, dz, this.t);
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
          this.tile = -1;
          this.fromFront = dx * f[0] + dy * f[1] + dz * f[2] < 0;
        }
      }
    }
    if (room) this.closestWall(ox, oy, oz, dx, dy, dz);
    return this.kind !== HIT.nothing;
  }

  /** One ray of a fan: to (dx, dy, dz) from the fan's point, which `look` is told. Fewer than FAN fit. */
  aim(i: number, dx: number, dy: number, dz: number) {
    const k = 3 * i;
    this.ways[k] = dx;
    this.ways[k + 1] = dy;
    this.ways[k + 2] = dz;
    this.seen[i] = 1;
  }

  /** Looks from a point at the ends of the first `count` rays aimed: `seen` is 0 where a body, a panel or a light's
   * plate (but not number `except`) stands between. Walls never do: everything that is asked about lies inside the room.
   * Rays stop a millionth short, so that the rim of what they aim at, and what touches it, is not met. */
  look(count: number, ox: number, oy: number, oz: number, except: number) {
    const { emitters } = this.scene;
    for (let i = 0; i < emitters.length; i++)
      if (i !== except && emitters[i].shape !== "point")
        this.stopAtPlate(emitters[i], emitters[i], count, ox, oy, oz);
    this.lookPastLights(count, ox, oy, oz);
  }

  /** The same as if there were no lights. */
  lookPastLights(count: number, ox: number, oy: number, oz: number) {
    const { meshes, quads } = this.scene;
    cast.rays += count;
    for (let i = 0; i < quads.length; i++) this.stopAtPlate(quads[i], null, count, ox, oy, oz);
    for (let i = 0; i < meshes.length; i++) this.stopAtMesh(meshes[i], count, ox, oy, oz);
  }

  /** Whether anything that `look` knows stands on one ray before tMax. */
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
    this.aim(0, dx * tMax, dy * tMax, dz * tMax);
    this.look(1, ox, oy, oz, except);
    return this.seen[0] === 0;
  }

  private stopAtPlate(q: Plate, emitter: Emitter | null, count: number, ox: number, oy: number, oz: number) {
    const { ways, seen } = this;
    const f = q.forward;
    const sx = q.centre[0] - ox;
    const sy = q.centre[1] - oy;
    const sz = q.centre[2] - oz;
    const height = sx * f[0] + sy * f[1] + sz * f[2];
    for (let i = 0; i < count; i++) {
      if (seen[i] === 0) continue;
      const k = 3 * i;
      const slope = ways[k] * f[0] + ways[k + 1] * f[1] + ways[k + 2] * f[2];
      // the plane must be crossed on the way: 0 < height / slope < 1
      if (height > 0 ? !(slope * NEARLY > height) : !(slope * NEARLY < height)) continue;
      const t = height / slope;
      if (!(t > 1e-9)) continue;
      const x = t * ways[k] - sx;
      const y = t * ways[k + 1] - sy;
      const z = t * ways[k + 2] - sz;
      const a = x * q.right[0] + y * q.right[1] + z * q.right[2];
      const b = x * q.up[0] + y * q.up[1] + z * q.up[2];
      if (onPlate(q, emitter, a, b)) seen[i] = 0;
    }
  }

  /** Rays that come near the mesh's ball are packed close together, walked, and told apart again. */
  private stopAtMesh(m: MeshInstance, count: number, ox: number, oy: number, oz: number) {
    const { ways, seen, near } = this;
    const s = m.sphere;
    const sx = s[0] - ox;
    const sy = s[1] - oy;
    const sz = s[2] - oz;
    const outside = sx * sx + sy * sy + sz * sz - s[3] * s[3];
    const r = m.rotation;
    const { walker } = m;
    let asked = 0;
    for (let i = 0; i < count; i++) {
      if (seen[i] === 0) continue;
      const k = 3 * i;
      const dx = ways[k];
      const dy = ways[k + 1];
      const dz = ways[k + 2];
      if (outside > 0) {
        const d2 = dx * dx + dy * dy + dz * dz;
        const along = sx * dx + sy * dy + sz * dz;
        // behind, or the line passes the ball by, or the ray ends before it
        if (along <= 0 || along * along < outside * d2) continue;
        if (along > d2 && (sx - dx) ** 2 + (sy - dy) ** 2 + (sz - dz) ** 2 > s[3] * s[3]) continue;
      }
      near[asked] = i;
      walker.seen[asked] = 1;
      walker.setRay(
        asked++,
        r[0] * dx + r[3] * dy + r[6] * dz,
        r[1] * dx + r[4] * dy + r[7] * dz,
        r[2] * dx + r[5] * dy + r[8] * dz,
        NEARLY,
      );
    }
    if (asked === 0) return;
    const px = ox - m.offset[0];
    const py = oy - m.offset[1];
    const pz = oz - m.offset[2];
    walker.fan(
      asked,
      r[0] * px + r[3] * py + r[6] * pz,
      r[1] * px + r[4] * py + r[7] * pz,
      r[2] * px + r[5] * py + r[8] * pz,
    );
    for (let i = 0; i < asked; i++) if (walker.seen[i] === 0) seen[near[i]] = 0;
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
    const hit = m.walker.closest(
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
    this.tile = this.fromFront ? m.tileOfTriangle[found.triangle] : -1;
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
    this.tile = tileOf(this.fromFront ? q.frontPatch : q.backPatch, q.cellsAcross, q.cellsUp, this.u, this.v);
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
    this.tile = tileOf(room.first[wall], room.across[wall], room.upward[wall], this.u, this.v);
  }
}

/** The tile of a surface of across x upward patches at (u, v), both 0 to 1: 4 x 4 tiles in each patch, row by row. */
function tileOf(first: number, across: number, upward: number, u: number, v: number): number {
  const i = cellOf(u, 4 * across);
  const j = cellOf(v, 4 * upward);
  return TILES * (first + (j >> 2) * across + (i >> 2)) + 4 * (j & 3) + (i & 3);
}

function cellOf(fraction: number, cells: number): number {
  const i = Math.floor(fraction * cells);
  return i < 0 ? 0 : i >= cells ? cells - 1 : i;
}
