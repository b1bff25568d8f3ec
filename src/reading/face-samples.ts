/** A face thinned to evenly spread samples that know their neighbours: enough to read it, few enough to drag. */
import { buildHead, frontNeighbours, type Head } from "../figure/index.ts";

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

const made = new WeakMap<Head, Map<string, FaceSamples>>();

/** Where a pattern is decided, round nose and mouth and on the cheeks beside them, samples lie closer by this. */
export const CLOSER_SHARE = 0.6;
/** That place, in metres from the tip of the nose: aside, up and down. */
const CLOSER_ASIDE = 0.042;
const CLOSER_UP = 0.03;
const CLOSER_DOWN = 0.036;

/** Samples about `spacing` metres apart over the front of the face, `closer` round the nose; kept per head and both. */
export function faceSamples(head: Head, spacing: number, closer = CLOSER_SHARE * spacing): FaceSamples {
  let kept = made.get(head);
  if (!kept) {
    kept = new Map();
    made.set(head, kept);
  }
  const key = `${spacing} ${closer}`;
  let samples = kept.get(key);
  if (!samples) {
    samples = thin(head, spacing, closer);
    kept.set(key, samples);
  }
  return samples;
}

/** The sample of one set that lies nearest to sample `s` of another. */
export function nearestSample(
  { position: from }: FaceSamples,
  { position: to }: FaceSamples,
  s: number,
): number {
  let best = 0;
  let bestSquare = Number.POSITIVE_INFINITY;
  for (let i = 0; i < from.length / 3; i++) {
    const square =
      (from[3 * i] - to[3 * s]) ** 2 +
      (from[3 * i + 1] - to[3 * s + 1]) ** 2 +
      (from[3 * i + 2] - to[3 * s + 2]) ** 2;
    if (square < bestSquare) {
      bestSquare = square;
      best = i;
    }
  }
  return best;
}

/** Greedy in vertex order over the own left half, each taken vertex with its mirror image, so that a mirrored light
 * reads as the mirrored face: a vertex is taken unless a taken one lies within the spacing there. Every front vertex
 * then belongs to the taken one that reaches it first over the mesh, which gives areas and neighbours. */
function thin(head: Head, spacing: number, closer: number): FaceSamples {
  const taken = takenVertices(head, spacing, closer);
  const { mirror } = taken;
  const owner = ownersOf(head, taken.vertices);
  const graph = frontNeighbours(head);
  const count = taken.vertices.length;
  const links = taken.vertices.map(() => new Set<number>());
  const own = new Float64Array(count);
  for (let v = 0; v < owner.length; v++) {
    const s = owner[v];
    if (s < 0) continue;
    own[s] += head.vertexAreas[v];
    for (let k = graph.offsets[v]; k < graph.offsets[v + 1]; k++) {
      const other = owner[graph.neighbours[k]];
      if (other < 0 || other === s) continue;
      links[s].add(other);
      links[mirror[s]].add(mirror[other]);
    }
  }
  const pick = (from: Float64Array) => {
    const out = new Float64Array(3 * count);
    taken.vertices.forEach((v, s) => {
      out.set(from.subarray(3 * v, 3 * v + 3), 3 * s);
    });
    return out;
  };
  const offset = new Uint32Array(count + 1);
  links.forEach((set, s) => {
    offset[s + 1] = offset[s] + set.size;
  });
  return {
    count,
    vertex: Uint32Array.from(taken.vertices),
    position: pick(head.mesh.positions),
    normal: pick(head.mesh.normals),
    area: own.map((area, s) => (area + own[mirror[s]]) / 2),
    region: Uint8Array.from(taken.vertices, (v) => head.regions[v]),
    offset,
    neighbour: Uint32Array.from(links.flatMap((set) => [...set].sort((a, b) => a - b))),
  };
}

/** Vertices nearer to the middle than this lie on it. */
const MIDDLE = 1e-6;

/** The vertices taken and, for each, which one is its mirror image (itself on the middle). */
function takenVertices(
  head: Head,
  spacing: number,
  closer: number,
): { vertices: number[]; mirror: number[] } {
  const p = head.mesh.positions;
  const tip = head.landmarks.noseTip;
  // on the mean head, which all others share their vertices with: one that is not even still has two halves
  const even = buildHead();
  const across = mirrorVertices(even);
  const vertices: number[] = [];
  const mirror: number[] = [];
  const cells = new Map<number, number[]>();
  const take = (v: number) => {
    const key = cellKey(...cellOf(p, v, spacing));
    const held = cells.get(key);
    if (held) held.push(v);
    else cells.set(key, [v]);
    return vertices.push(v) - 1;
  };
  for (let v = 0; v < p.length / 3; v++) {
    const side = even.mesh.positions[3 * v + 1];
    if (!head.front[v] || side < -MIDDLE) continue;
    const y = p[3 * v + 1];
    const up = p[3 * v + 2] - tip[2];
    const near = y < CLOSER_ASIDE && up < CLOSER_UP && up > -CLOSER_DOWN;
    const apart = near ? closer : spacing;
    // its own image must not lie within the spacing either
    if ((side > MIDDLE && 2 * y < apart) || isNear(p, cells, v, spacing, apart)) continue;
    const s = take(v);
    mirror[s] = s;
    if (side <= MIDDLE) continue;
    mirror[s] = take(across[v]);
    mirror[mirror[s]] = s;
  }
  return { vertices, mirror };
}

/** Whether a taken vertex lies within `apart` of v; cells are `spacing` wide, which is no less. */
function isNear(p: Float64Array, cells: Map<number, number[]>, v: number, spacing: number, apart: number) {
  const [i, j, k] = cellOf(p, v, spacing);
  for (let a = i - 1; a <= i + 1; a++)
    for (let b = j - 1; b <= j + 1; b++)
      for (let c = k - 1; c <= k + 1; c++)
        for (const other of cells.get(cellKey(a, b, c)) ?? NONE) {
          const d =
            (p[3 * v] - p[3 * other]) ** 2 +
            (p[3 * v + 1] - p[3 * other + 1]) ** 2 +
            (p[3 * v + 2] - p[3 * other + 2]) ** 2;
          if (d < apart * apart) return true;
        }
  return false;
}

const NONE: readonly number[] = [];

/** One number for a cell: a head is far less than 2^16 cells across either way. */
function cellKey(i: number, j: number, k: number): number {
  return ((i + 0x8000) * 0x10000 + (j + 0x8000)) * 0x10000 + (k + 0x8000);
}

/** Per front vertex the one that lies where its mirror image would; the head is symmetric to less than the rounding. */
function mirrorVertices(head: Head): Int32Array {
  const p = head.mesh.positions;
  const key = (x: number, y: number, z: number) =>
    `${Math.round(x / ROUNDING)},${Math.round(Math.abs(y) / ROUNDING)},${Math.round(z / ROUNDING)}`;
  const out = new Int32Array(p.length / 3).fill(-1);
  const waiting = new Map<string, number>();
  for (let v = 0; v < out.length; v++) {
    if (!head.front[v]) continue;
    const at = key(p[3 * v], p[3 * v + 1], p[3 * v + 2]);
    const other = waiting.get(at);
    if (other === undefined) waiting.set(at, v);
    else {
      out[v] = other;
      out[other] = v;
    }
  }
  return out;
}

const ROUNDING = 1e-7;

/** Per vertex the sample that it belongs to, -1 off the front. */
function ownersOf(head: Head, taken: readonly number[]): Int32Array {
  const graph = frontNeighbours(head);
  const count = head.mesh.positions.length / 3;
  const owner = new Int32Array(count).fill(-1);
  const queue = new Uint32Array(count);
  let tail = 0;
  taken.forEach((v, s) => {
    owner[v] = s;
    queue[tail++] = v;
  });
  for (let at = 0; at < tail; at++) {
    const v = queue[at];
    for (let k = graph.offsets[v]; k < graph.offsets[v + 1]; k++) {
      const w = graph.neighbours[k];
      if (owner[w] >= 0) continue;
      owner[w] = owner[v];
      queue[tail++] = w;
    }
  }
  return owner;
}

function cellOf(p: Float64Array, v: number, spacing: number): [number, number, number] {
  return [
    Math.floor(p[3 * v] / spacing),
    Math.floor(p[3 * v + 1] / spacing),
    Math.floor(p[3 * v + 2] / spacing),
  ];
}
