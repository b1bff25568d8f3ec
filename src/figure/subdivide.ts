/** Loop subdivision of a triangle mesh with boundaries. Source: Loop 1987, weights of Warren; boundaries as cubic curves. */
export interface Cage {
  /** xyz per vertex and, behind them, any further values that are carried along: `stride` numbers in all */
  readonly values: Float64Array;
  readonly stride: number;
  readonly triangles: Uint32Array;
  /** any number per triangle, inherited by its four parts */
  readonly tags: Uint8Array;
}

interface Edges {
  /** edge number of (triangle, corner), the edge from that corner to the next */
  readonly ofCorner: Uint32Array;
  /** two ends and the two opposite vertices (-1 at a boundary) per edge */
  readonly ends: Int32Array;
  readonly count: number;
}

/** One step: old vertices first, in their order, then one new vertex per edge. */
export function subdivide(cage: Cage): Cage {
  const { values, stride, triangles, tags } = cage;
  const vertices = values.length / stride;
  const edges = findEdges(triangles, vertices);
  const out = new Float64Array((vertices + edges.count) * stride);
  moveOldVertices(cage, edges, out);
  for (let e = 0; e < edges.count; e++) {
    const [a, b, c, d] = edges.ends.subarray(4 * e, 4 * e + 4);
    const to = (vertices + e) * stride;
    for (let k = 0; k < stride; k++) {
      const middle = values[a * stride + k] + values[b * stride + k];
      out[to + k] =
        d < 0 ? middle / 2 : 0.375 * middle + 0.125 * (values[c * stride + k] + values[d * stride + k]);
    }
  }
  const parts = new Uint32Array(4 * triangles.length);
  const partTags = new Uint8Array(4 * tags.length);
  for (let t = 0; t < tags.length; t++) {
    const [a, b, c] = triangles.subarray(3 * t, 3 * t + 3);
    const ab = vertices + edges.ofCorner[3 * t];
    const bc = vertices + edges.ofCorner[3 * t + 1];
    const ca = vertices + edges.ofCorner[3 * t + 2];
    parts.set([a, ab, ca, ab, b, bc, ca, bc, c, ab, bc, ca], 12 * t);
    partTags.fill(tags[t], 4 * t, 4 * t + 4);
  }
  return { values: out, stride, triangles: parts, tags: partTags };
}

/** Moves the cage so that after `levels` steps its vertices lie where they were given: Loop surfaces shrink otherwise. */
export function fitCage(cage: Cage, levels: number, rounds: number): Cage {
  const values = cage.values.slice();
  for (let round = 0; round < rounds; round++) {
    let fine: Cage = { ...cage, values };
    for (let i = 0; i < levels; i++) fine = subdivide(fine);
    for (let v = 0; v < values.length; v += cage.stride)
      for (let k = 0; k < 3; k++) values[v + k] += cage.values[v + k] - fine.values[v + k];
  }
  return { ...cage, values };
}

function findEdges(triangles: Uint32Array, vertices: number): Edges {
  const byKey = new Map<number, number>();
  const ofCorner = new Uint32Array(triangles.length);
  const ends: number[] = [];
  for (let i = 0; i < triangles.length; i++) {
    const t = i - (i % 3);
    const a = triangles[i];
    const b = triangles[t + ((i + 1) % 3)];
    const opposite = triangles[t + ((i + 2) % 3)];
    const key = Math.min(a, b) * vertices + Math.max(a, b);
    const found = byKey.get(key);
    if (found === undefined) {
      byKey.set(key, ends.length / 4);
      ofCorner[i] = ends.length / 4;
      ends.push(a, b, opposite, -1);
    } else {
      ofCorner[i] = found;
      ends[4 * found + 3] = opposite;
    }
  }
  return { ofCorner, ends: Int32Array.from(ends), count: ends.length / 4 };
}

function moveOldVertices(cage: Cage, edges: Edges, out: Float64Array) {
  const { values, stride } = cage;
  const vertices = values.length / stride;
  const sum = new Float64Array(values.length);
  const degree = new Uint32Array(vertices);
  const rimSum = new Float64Array(values.length);
  const rimDegree = new Uint32Array(vertices);
  for (let e = 0; e < edges.count; e++) {
    const a = edges.ends[4 * e];
    const b = edges.ends[4 * e + 1];
    const rim = edges.ends[4 * e + 3] < 0;
    for (const [from, to] of [
      [a, b],
      [b, a],
    ]) {
      degree[to]++;
      if (rim) rimDegree[to]++;
      for (let k = 0; k < stride; k++) {
        sum[to * stride + k] += values[from * stride + k];
        if (rim) rimSum[to * stride + k] += values[from * stride + k];
      }
    }
  }
  for (let v = 0; v < vertices; v++) {
    const n = degree[v];
    const beta = n === 3 ? 3 / 16 : 3 / (8 * n);
    for (let k = 0; k < stride; k++) {
      const i = v * stride + k;
      out[i] =
        rimDegree[v] === 2
          ? 0.75 * values[i] + 0.125 * rimSum[i]
          : (1 - n * beta) * values[i] + beta * sum[i];
    }
  }
}
