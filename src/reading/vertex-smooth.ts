/** Evens out light that was gathered from each vertex of a mesh by a few rays, along the surface. */
import type { MeshInstance } from "../engine/index.ts";

/** Rounds of taking the mean with the neighbours: grain falls to two fifths, over a centimetre of a face. */
const ROUNDS = 2;
/** So many neighbours away light still counts. */
export const SMOOTHED_OVER = ROUNDS;
/** Neighbours across a sharper crease than this (cosine between normals) do not count: lids, lips, ears. */
const CREASE = 0.8;

interface Graph {
  readonly offsets: Uint32Array;
  readonly neighbours: Uint32Array;
}

const made = new WeakMap<Uint32Array, Graph>();

/** rgb per vertex, in place. */
export function smoothOverMesh(mesh: Pick<MeshInstance, "normals" | "triangles">, light: Float32Array) {
  const { offsets, neighbours } = graphOf(mesh);
  const before = new Float32Array(light.length);
  for (let round = 0; round < ROUNDS; round++) {
    before.set(light);
    for (let v = 0; v + 1 < offsets.length; v++) {
      const first = offsets[v];
      const end = offsets[v + 1];
      if (first === end) continue;
      for (let c = 0; c < 3; c++) {
        // as much of its own as of all neighbours together
        let sum = before[3 * v + c] * (end - first);
        for (let k = first; k < end; k++) sum += before[3 * neighbours[k] + c];
        light[3 * v + c] = sum / (2 * (end - first));
      }
    }
  }
}

/** Marks all that are joined with a marked one, in place. */
export function joinedVertices(mesh: Pick<MeshInstance, "normals" | "triangles">, marks: Uint8Array) {
  const { offsets, neighbours } = graphOf(mesh);
  const before = marks.slice();
  for (let v = 0; v + 1 < offsets.length; v++)
    if (before[v] === 1) for (let k = offsets[v]; k < offsets[v + 1]; k++) marks[neighbours[k]] = 1;
}

/** Which vertices are joined by an edge and look much the same way; worked out once for each mesh. */
function graphOf({ normals, triangles }: Pick<MeshInstance, "normals" | "triangles">): Graph {
  let graph = made.get(triangles);
  if (!graph) {
    graph = build(normals, triangles);
    made.set(triangles, graph);
  }
  return graph;
}

function build(normals: Float64Array, triangles: Uint32Array): Graph {
  const count = normals.length / 3;
  const joined: [number, number][] = [];
  const offsets = new Uint32Array(count + 1);
  for (let i = 0; i < triangles.length; i++) {
    const a = triangles[i];
    const b = triangles[i % 3 === 2 ? i - 2 : i + 1];
    // every edge of a closed surface is met once each way
    const alike =
      normals[3 * a] * normals[3 * b] +
      normals[3 * a + 1] * normals[3 * b + 1] +
      normals[3 * a + 2] * normals[3 * b + 2];
    if (alike < CREASE) continue;
    joined.push([a, b]);
    offsets[a + 1]++;
  }
  for (let v = 0; v < count; v++) offsets[v + 1] += offsets[v];
  const at = offsets.slice(0, count);
  const neighbours = new Uint32Array(joined.length);
  for (const [a, b] of joined) neighbours[at[a]++] = b;
  return { offsets, neighbours };
}
