/** Puts a Scene together: rooms and panels are cut into cells, meshes into the patches they come with. */
import {
  type Emitter,
  type MeshInstance,
  POINT_STRIDE,
  type Quad,
  type RoomBox,
  type Scene,
  TILES,
  WALL_AXES,
} from "./scene.ts";
import type { Walker } from "./walker.ts";

export type Rgb = readonly [number, number, number];

/** A mesh cut into patches once, in its own axes, to be set into any scene. */
export interface PatchedMesh {
  readonly walker: Walker;
  readonly positions: Float64Array;
  readonly normals: Float64Array;
  readonly triangles: Uint32Array;
  /** tile of the mesh per triangle, -1 where nothing comes back */
  readonly tileOfTriangle: Int32Array;
  readonly patchCount: number;
  readonly patchArea: Float64Array;
  /** a point in the middle of each tile: position and normal */
  readonly patchPoints: Float64Array;
  /** what the patch is made of: an index into the reflectances given when it is set */
  readonly patchMaterial: Uint8Array;
  /** bounding sphere: centre xyz, radius */
  readonly sphere: Float64Array;
}

export class SceneBuilder {
  private room: RoomBox | null = null;
  private readonly meshes: MeshInstance[] = [];
  private readonly quads: Quad[] = [];
  private readonly emitters: Emitter[] = [];
  private readonly bounce: number[] = [];
  private readonly look: number[] = [];
  private readonly transmittance: number[] = [];
  private readonly partner: number[] = [];
  private readonly area: number[] = [];
  private readonly points: number[] = [];

  /** A box from the origin; reflectances in the order of WALL. Cells are at most `cell` metres wide. */
  addRoom(
    size: readonly [number, number, number],
    reflectances: readonly Rgb[],
    bounces: boolean,
    cell: number,
  ) {
    const first = new Int32Array(6);
    const across = new Int32Array(6);
    const upward = new Int32Array(6);
    for (let wall = 0; wall < 6; wall++) {
      const [axis, end, a, b] = WALL_AXES[wall];
      first[wall] = this.area.length;
      across[wall] = Math.max(2, Math.ceil(size[a] / cell));
      upward[wall] = Math.max(2, Math.ceil(size[b] / cell));
      const origin = [0, 0, 0];
      const alongA = [0, 0, 0];
      const alongB = [0, 0, 0];
      const normal = [0, 0, 0];
      origin[axis] = end * size[axis];
      alongA[a] = size[a];
      alongB[b] = size[b];
      normal[axis] = end === 1 ? -1 : 1;
      this.addCells(
        origin,
        alongA,
        alongB,
        normal,
        across[wall],
        upward[wall],
        reflectances[wall],
        bounces,
        0,
      );
    }
    this.room = { size, first, across, upward };
  }

  addPanel(
    frame: Pick<Quad, "centre" | "right" | "up" | "forward">,
    width: number,
    height: number,
    reflectance: Rgb,
    transmittance: number,
    cell: number,
  ) {
    const cellsAcross = Math.max(1, Math.ceil(width / cell));
    const cellsUp = Math.max(1, Math.ceil(height / cell));
    const sides: number[] = [];
    for (const sign of [1, -1]) {
      sides.push(this.area.length);
      const origin = [0, 1, 2].map(
        (k) => frame.centre[k] - 0.5 * width * frame.right[k] - 0.5 * height * frame.up[k],
      );
      const alongA = Array.from(frame.right, (x) => x * width);
      const alongB = Array.from(frame.up, (x) => x * height);
      const normal = Array.from(frame.forward, (x) => x * sign);
      this.addCells(origin, alongA, alongB, normal, cellsAcross, cellsUp, reflectance, true, transmittance);
    }
    const [front, back] = sides;
    for (let i = 0; i < cellsAcross * cellsUp; i++) {
      this.partner[front + i] = back + i;
      this.partner[back + i] = front + i;
    }
    this.quads.push({
      ...frame,
      halfWidth: width / 2,
      halfHeight: height / 2,
      cellsAcross,
      cellsUp,
      frontPatch: front,
      backPatch: back,
    });
  }

  /** Sets a mesh at a rigid transform; `materials` gives the reflectance of each of its materials. */
  addMesh(mesh: PatchedMesh, rotation: Float64Array, offset: Float64Array, materials: readonly Rgb[]) {
    const first = this.area.length;
    const turned = new Float64Array(POINT_STRIDE);
    for (let p = 0; p < mesh.patchCount; p++) {
      this.pushPatch(materials[mesh.patchMaterial[p]], true, 0, mesh.patchArea[p]);
      for (let k = 0; k < TILES; k++) {
        const at = POINT_STRIDE * (p * TILES + k);
        rotate(rotation, mesh.patchPoints, at, turned, 0);
        rotate(rotation, mesh.patchPoints, at + 3, turned, 3);
        for (let c = 0; c < 3; c++) this.points.push(turned[c] + offset[c]);
        for (let c = 3; c < 6; c++) this.points.push(turned[c]);
      }
    }
    const tileOfTriangle = mesh.tileOfTriangle.map((t) => (t < 0 ? -1 : t + TILES * first));
    const sphere = new Float64Array(4);
    rotate(rotation, mesh.sphere, 0, sphere, 0);
    for (let c = 0; c < 3; c++) sphere[c] += offset[c];
    sphere[3] = mesh.sphere[3];
    this.meshes.push({
      walker: mesh.walker,
      positions: mesh.positions,
      normals: mesh.normals,
      triangles: mesh.triangles,
      tileOfTriangle,
      rotation,
      offset,
      sphere,
    });
  }

  addEmitter(emitter: Emitter) {
    this.emitters.push(emitter);
  }

  build(): Scene {
    return {
      room: this.room,
      meshes: this.meshes,
      quads: this.quads,
      emitters: this.emitters,
      patches: {
        count: this.area.length,
        bounceReflectance: Float64Array.from(this.bounce),
        reflectance: Float64Array.from(this.look),
        transmittance: Float64Array.from(this.transmittance),
        partner: Int32Array.from(this.partner),
        area: Float64Array.from(this.area),
        points: Float64Array.from(this.points),
      },
    };
  }

  private addCells(
    origin: readonly number[],
    alongA: readonly number[],
    alongB: readonly number[],
    normal: readonly number[],
    across: number,
    upward: number,
    reflectance: Rgb,
    bounces: boolean,
    transmittance: number,
  ) {
    const area = (Math.hypot(...alongA) * Math.hypot(...alongB)) / (across * upward);
    for (let j = 0; j < upward; j++) {
      for (let i = 0; i < across; i++) {
        this.pushPatch(reflectance, bounces, transmittance, area);
        for (let k = 0; k < TILES; k++) {
          const u = (i + ((k & 3) + 0.5) / 4) / across;
          const v = (j + ((k >> 2) + 0.5) / 4) / upward;
          for (let c = 0; c < 3; c++) this.points.push(origin[c] + u * alongA[c] + v * alongB[c]);
          for (let c = 0; c < 3; c++) this.points.push(normal[c]);
        }
      }
    }
  }

  private pushPatch(reflectance: Rgb, bounces: boolean, transmittance: number, area: number) {
    for (const r of reflectance) {
      this.look.push(r);
      this.bounce.push(bounces ? r : 0);
    }
    this.transmittance.push(transmittance);
    this.partner.push(-1);
    this.area.push(area);
  }
}

export function rotate(m: Float64Array, v: Float64Array, from: number, out: Float64Array, to: number) {
  const x = v[from];
  const y = v[from + 1];
  const z = v[from + 2];
  out[to] = m[0] * x + m[1] * y + m[2] * z;
  out[to + 1] = m[3] * x + m[4] * y + m[5] * z;
  out[to + 2] = m[6] * x + m[7] * y + m[8] * z;
}
