/** Light that surfaces send onto the vertices of a mesh, looked round for from each vertex whose light is asked for. */
import { behindPlates, emptyGather, type Gather, HIT, type MeshInstance, rotate } from "../engine/index.ts";
import type { Lighting } from "./lighting.ts";
import { liftedPoints, lookFrom } from "./skin-rays.ts";
import { joinedVertices, SMOOTHED_OVER, smoothOverMesh } from "./vertex-smooth.ts";

/** Directions per vertex. */
const VERTEX_RAYS = 32;
/** Skin and cloth curve: rays start a little further off than on flat things. */
const SKIN_LIFT = 1e-3;

/** Exposure that arrives from surfaces, rgb per vertex, per light; lx.s per lm.s of a white light. */
export type VertexLight = readonly Float32Array[];

/** What is looked at, as samples of a frame tell it: in a picture of one head most vertices of most people are not. */
export interface Looked {
  /** tells these samples from others, beyond what stands still */
  readonly name: string;
  readonly kind: Uint8Array;
  readonly index: Uint16Array;
  readonly triangle: Int32Array;
}

/** Good at the vertices of what is looked at, and at all where `looked` is null; the same numbers either way. */
export function vertexLight(
  lighting: Lighting,
  mesh: MeshInstance,
  index: number,
  looked: Looked | null,
): VertexLight {
  const { memory, lightKey, stage, thingsKey } = lighting;
  const gather = memory.recall(`vertex gather ${index}`, thingsKey, () => newRound(lighting, mesh));
  return memory.recall(`vertex light ${index}`, lightKey + (looked?.name ?? ""), () => {
    // a backdrop is seen by itself, large and even: its vertices lie far apart
    const isSmoothed = stage.owners[index].kind !== "backdrop";
    const wanted = isSmoothed && looked !== null ? wantedVertices(mesh, index, looked) : null;
    gather.lookFrom(wanted);
    const visible = behindPlates(gather.all, stage.scene.emitters);
    return lighting.exitance.map((solved) => {
      const light = weighVertices(gather.all, visible, mesh, solved.bounced, solved.through, wanted);
      if (isSmoothed) smoothOverMesh(mesh, light);
      return light;
    });
  });
}

/** 1 for each vertex of what is seen, and for those that its light is evened out with. */
function wantedVertices(mesh: MeshInstance, index: number, { kind, triangle, ...of }: Looked): Uint8Array {
  const wanted = new Uint8Array(mesh.positions.length / 3);
  for (let i = 0; i < kind.length; i++) {
    if (kind[i] !== HIT.mesh || of.index[i] !== index) continue;
    for (let k = 0; k < 3; k++) wanted[mesh.triangles[3 * triangle[i] + k]] = 1;
  }
  for (let ring = 0; ring < SMOOTHED_OVER; ring++) joinedVertices(mesh, wanted);
  return wanted;
}

/** What the vertices of a mesh see round them, as far as it has been asked for. */
interface Round {
  readonly all: Gather;
  /** Errors  none; null looks from all */
  lookFrom(wanted: Uint8Array | null): void;
}

function newRound(lighting: Lighting, mesh: MeshInstance): Round {
  const { rotation, offset, positions, normals } = mesh;
  const count = positions.length / 3;
  const world = liftedPoints(rotation, offset, positions, normals, count, SKIN_LIFT);
  const all = emptyGather(count, VERTEX_RAYS);
  const isKnown = new Uint8Array(count);
  return {
    all,
    lookFrom(wanted) {
      for (let i = 0; i < count; i++) {
        if (isKnown[i] === 1 || (wanted !== null && wanted[i] === 0)) continue;
        lookFrom(lighting.stage.tracer, all, world, i, 1);
        isKnown[i] = 1;
      }
    },
  };
}

/** Directions below the horizon were turned over, so the set covers the half-sphere and each ray weighs 2 |cos| / n;
 * dividing by the sum of the weights makes a uniform surround exact. */
function weighVertices(
  g: Gather,
  visible: Int32Array,
  mesh: MeshInstance,
  bounced: Float64Array,
  through: Float64Array,
  wanted: Uint8Array | null,
): Float32Array {
  const out = new Float32Array(3 * g.receivers);
  const n = new Float64Array(3);
  for (let i = 0; i < g.receivers; i++) {
    if (wanted !== null && wanted[i] === 0) continue;
    rotate(mesh.rotation, mesh.normals, 3 * i, n, 0);
    let weight = 0;
    let r = 0;
    let gr = 0;
    let b = 0;
    for (let k = i * g.raysEach; k < (i + 1) * g.raysEach; k++) {
      const at = 6 * k + 3;
      const w = Math.abs(g.rays[at] * n[0] + g.rays[at + 1] * n[1] + g.rays[at + 2] * n[2]);
      weight += w;
      const p = visible[k];
      if (p < 0) continue;
      r += w * (bounced[3 * p] + through[p]);
      gr += w * (bounced[3 * p + 1] + through[p]);
      b += w * (bounced[3 * p + 2] + through[p]);
    }
    out[3 * i] = r / weight;
    out[3 * i + 1] = gr / weight;
    out[3 * i + 2] = b / weight;
  }
  return out;
}
