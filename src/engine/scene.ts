/** The flat scene that the engine works on. It knows shapes and how they reflect; no plan, no person, no screen.
 * Lengths in metres, world axes right-handed. */
import type { LightDistribution } from "./distribution.ts";
import type { Walker } from "./walker.ts";

/** A rigid mesh set somewhere. Its tiles are global tile numbers, -1 where nothing comes back. */
export interface MeshInstance {
  readonly walker: Walker;
  readonly positions: Float64Array;
  readonly normals: Float64Array;
  readonly triangles: Uint32Array;
  readonly tileOfTriangle: Int32Array;
  /** 3 x 3 row-major, world from local */
  readonly rotation: Float64Array;
  readonly offset: Float64Array;
  /** bounding sphere in the world: centre xyz, radius */
  readonly sphere: Float64Array;
}

/** A flat two-sided rectangle. Front is the side that `forward` points from. */
export interface Quad {
  readonly centre: Float64Array;
  readonly right: Float64Array;
  readonly up: Float64Array;
  readonly forward: Float64Array;
  readonly halfWidth: number;
  readonly halfHeight: number;
  readonly cellsAcross: number;
  readonly cellsUp: number;
  readonly frontPatch: number;
  readonly backPatch: number;
}

/** The emitting face of a light, which also stands in the way as a thin opaque plate. */
export interface Emitter {
  readonly shape: "point" | "disc" | "rectangle" | "polygon";
  readonly centre: Float64Array;
  readonly right: Float64Array;
  readonly up: Float64Array;
  readonly forward: Float64Array;
  /** disc: radius; rectangle: half width; polygon: radius of the inscribed circle; point: 0 */
  readonly halfWidth: number;
  readonly halfHeight: number;
  readonly sides: number;
  /** lobe exponent m: intensity of every part goes as cos^m */
  readonly exponent: number;
  /** stops by which the rim is darker than the centre */
  readonly edgeDrop: number;
  /** a photometric file's own spread instead of the lobe */
  readonly distribution: LightDistribution | null;
}

/** The room: a box from the origin. Walls are cut into cells; cell (i, j) of wall w is patch first[w] + j * across[w] + i. */
export interface RoomBox {
  readonly size: readonly [number, number, number];
  readonly first: Int32Array;
  readonly across: Int32Array;
  readonly upward: Int32Array;
}

export const WALL = { near: 0, far: 1, left: 2, right: 3, floor: 4, ceiling: 5 } as const;
/** Per wall: axis it stands on, 0 = at the origin / 1 = at the size; then the two axes its cells run along. */
export const WALL_AXES = [
  [1, 0, 0, 2],
  [1, 1, 0, 2],
  [0, 0, 1, 2],
  [0, 1, 1, 2],
  [2, 0, 0, 1],
  [2, 1, 0, 1],
] as const;

/** Surface patches: what the interreflection is solved on. */
export interface Patches {
  readonly count: number;
  /** rgb per patch, what takes part in the bounce (0 for the walls of a room with bounce off) */
  readonly bounceReflectance: Float64Array;
  /** rgb per patch, what the surface looks like */
  readonly reflectance: Float64Array;
  readonly transmittance: Float64Array;
  /** the patch on the other side of a thin panel, -1 for solid things */
  readonly partner: Int32Array;
  readonly area: Float64Array;
  /** a point in the middle of each tile: position xyz and normal xyz */
  readonly points: Float64Array;
}

/** A patch is cut into so many tiles: tile t belongs to patch t >> TILE_BITS. Light that comes straight from a lamp is
 * kept per tile, because it falls off quickly across a wall; what has bounced is kept per patch, because it is even. */
export const TILE_BITS = 4;
export const TILES = 1 << TILE_BITS;
export const POINT_STRIDE = 6;

export interface Scene {
  readonly room: RoomBox | null;
  readonly meshes: readonly MeshInstance[];
  readonly quads: readonly Quad[];
  readonly emitters: readonly Emitter[];
  readonly patches: Patches;
}

/** How far out a point of the face lies: 0 at the centre, 1 on the rim along that ray. */
export function rimFraction(e: Emitter, x: number, y: number): number {
  switch (e.shape) {
    case "disc":
      return Math.sqrt(x * x + y * y) / e.halfWidth;
    case "rectangle":
      return Math.max(Math.abs(x) / e.halfWidth, Math.abs(y) / e.halfHeight);
    case "polygon": {
      const step = (2 * Math.PI) / e.sides;
      // angle from the nearest side's own normal; the first side's normal points up
      const raw = (Math.atan2(y, x) - Math.PI / 2) / step;
      const angle = (raw - Math.round(raw)) * step;
      return (Math.sqrt(x * x + y * y) * Math.cos(angle)) / e.halfWidth;
    }
    case "point":
      return 0;
  }
}

export function emitterArea(e: Emitter): number {
  switch (e.shape) {
    case "disc":
      return Math.PI * e.halfWidth * e.halfWidth;
    case "rectangle":
      return 4 * e.halfWidth * e.halfHeight;
    case "polygon":
      return e.sides * e.halfWidth * e.halfWidth * Math.tan(Math.PI / e.sides);
    case "point":
      return 0;
  }
}
