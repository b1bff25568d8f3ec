/** A face thinned to evenly spread samples that know their neighbours: enough to read it, few enough to drag. */
import { frontNeighbours, type Head } from "../figure/index.ts";

export interface FaceSamples {
  readonly count: number;
  /** head-mesh vertex per sample */
  readonly vertex: Uint32Array;
  /** xyz in head axes, and unit normal */
  readonly position: Float64Array;
  readonly normal: Float64Array;
  /** area that the sample stands for, m2 */
  readonly area: Float64Array;
  /** REGION per sample */
  readonly region: Uint8Array;
  /** neighbours of sample i are neighbour[offset[i] .. offset[i + 1]) */
  readonly offset: Uint32Array;
  readonly neighbour: Uint32Array;
}

const made = new WeakMap<Head, Map<number, FaceSamples>>();

/** Samples about `spacing` metres apart over the front of the face; kept per head and spacing. */
export function faceSamples(head: Head, spacing: number): FaceSamples {
  let kept = made.get(head);
  if (!kept) {
    kept = new Map();
    made.set(head, kept);
  }
  let samples = kept.get(spacing);
  if (!samples) {
    samples = thin(head, spacing);
    kept.set(spacing, samples);
  }
  return samples;
}

/** Greedy in vertex order: a vertex is taken unless a taken one lies within the spacing. Every front vertex then
 * belongs to the taken one that reaches it first over the mesh, which gives areas and neighbours. */
function thin(head: Head, spacing: number): FaceSamples {
  const p = head.mesh.positions;
  const n = head.mesh.normals;
  const graph = frontNeighbours(head);
  const taken: number[] = [];
  const cells = new Map<string, number[]>();
  const near = (v: number) => {
    const [i, j, k] = cellOf(p, v, spacing);
    for (let a = i - 1; a <= i + 1; a++)
      for (let b = j - 1; b <= j + 1; b++)
        for (let c = k - 1; c <= k + 1; c++)
          for (const other of cells.get(`${a},${b},${c}`) ?? []) {
            const d =
              (p[3 * v] - p[3 * other]) ** 2 +
              (p[3 * v + 1] - p[3 * other + 1]) ** 2 +
              (p[3 * v + 2] - p[3 * other + 2]) ** 2;
            if (d < spacing * spacing) return true;
          }
    return false;
  };
  for (let v = 0; v < p.length / 3; v++) {
    if (!head.front[v] || near(v)) continue;
    taken.push(v);
    const key = cellOf(p, v, spacing).join(",");
    cells.set(key, [...(cells.get(key) ?? []), v]);
  }
  const owner = new Int32Array(p.length / 3).fill(-1);
  const queue = new Uint32Array(p.length / 3);
  let tail = 0;
  taken.forEach((v, s) => {
    owner[v] = s;
    queue[tail++] = v;
  });
  const links = taken.map(() => new Set<number>());
  for (let headAt = 0; headAt < tail; headAt++) {
    const v = queue[headAt];
    for (let k = graph.offsets[v]; k < graph.offsets[v + 1]; k++) {
      const w = graph.neighbours[k];
      if (owner[w] < 0) {
        owner[w] = owner[v];
        queue[tail++] = w;
      } else if (owner[w] !== owner[v]) {
        links[owner[v]].add(owner[w]);
        links[owner[w]].add(owner[v]);
      }
    }
  }
  const area = new Float64Array(taken.length);
  for (let v = 0; v < owner.length; v++) if (owner[v] >= 0) area[owner[v]] += head.vertexAreas[v];
  const pick = (from: Float64Array) => {
    const out = new Float64Array(3 * taken.length);
    for (let s = 0; s < taken.length; s++) out.set(from.subarray(3 * taken[s], 3 * taken[s] + 3), 3 * s);
    return out;
  };
  const offset = new Uint32Array(taken.length + 1);
  links.forEach((set, s) => {
    offset[s + 1] = offset[s] + set.size;
  });
  return {
    count: taken.length,
    vertex: Uint32Array.from(taken),
    position: pick(p),
    normal: pick(n),
    area,
    region: Uint8Array.from(taken, (v) => head.regions[v]),
    offset,
    neighbour: Uint32Array.from(links.flatMap((set) => [...set].sort((a, b) => a - b))),
  };
}

function cellOf(p: Float64Array, v: number, spacing: number): [number, number, number] {
  return [
    Math.floor(p[3 * v] / spacing),
    Math.floor(p[3 * v + 1] / spacing),
    Math.floor(p[3 * v + 2] / spacing),
  ];
}
