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

/** Sums over each vertex's neighbours: those along the boundary where it lies on one, else all. */
interface Rings {
  readonly sum: Float64Array;
  readonly degree: Uint32Array;
  readonly onRim: Uint8Array;
}

/** One step: old vertices first, in their order, then one new vertex per edge. */
export function subdivide(cage: Cage): Cage {
  const { values, stride, triangles, tags } = cage;
  const vertices = values.length / stride;
  const edges = findEdges(triangles, vertices);
  const out = new Float64Array((vertices + edges.count) * stride);
  const { sum, degree, onRim } = ringsOf(values, stride, edges);
  for (let v = 0; v < vertices; v++) {
    const n = degree[v];
    const weight = onRim[v] ? 1 / 8 : n === 3 ? 3 / 16 : 3 / (8 * n);
    for (let i = v * stride; i < (v + 1) * stride; i++)
      out[i] = (1 - n * weight) * values[i] + weight * sum[i];
  }
  for (let e = 0; e < edges.count; e++) {
    const a = edges.ends[4 * e] * stride;
    const b = edges.ends[4 * e + 1] * stride;
    const c = edges.ends[4 * e + 2] * stride;
    const d = edges.ends[4 * e + 3] * stride;
    const to = (vertices + e) * stride;
    for (let k = 0; k < stride; k++) {
      const middle = values[a + k] + values[b + k];
      out[to + k] = d < 0 ? middle / 2 : 0.375 * middle + 0.125 * (values[c + k] + values[d + k]);
    }
  }
  const parts = new Uint32Array(4 * triangles.length);
  const partTags = new Uint8Array(4 * tags.length);
  for (let t = 0, at = 0; t < tags.length; t++) {
    const ab = vertices + edges.ofCorner[3 * t];
    const bc = vertices + edges.ofCorner[3 * t + 1];
    const ca = vertices + edges.ofCorner[3 * t + 2];
    parts[at++] = triangles[3 * t];
    parts[at++] = ab;
    parts[at++] = ca;
    parts[at++] = ab;
    parts[at++] = triangles[3 * t + 1];
    parts[at++] = bc;
    parts[at++] = ca;
    parts[at++] = bc;
    parts[at++] = triangles[3 * t + 2];
    parts[at++] = ab;
    parts[at++] = bc;
    parts[at++] = ca;
    partTags.fill(tags[t], 4 * t, 4 * t + 4);
  }
  return { values: out, stride, triangles: parts, tags: partTags };
}

/** Moves the cage so that its smooth surface passes through the vertices given: Loop surfaces shrink otherwise.
 * Each round adds to a vertex what its place on the limit surface lacks. Few rounds leave the finest ripples out. */
export function fitCage(cage: Cage, rounds: number): Cage {
  const { stride } = cage;
  const values = cage.values.slice();
  const edges = findEdges(cage.triangles, values.length / stride);
  for (let round = 0; round < rounds; round++) {
    const { sum, degree, onRim } = ringsOf(values, stride, edges);
    for (let v = 0; v < degree.length; v++) {
      const n = degree[v];
      const beta = n === 3 ? 3 / 16 : 3 / (8 * n);
      // limit of the vertex itself: Loop's for a full ring, a cubic curve's on a boundary
      const weight = onRim[v] ? 1 / 6 : 1 / (3 / (8 * beta) + n);
      for (let k = 0; k < 3; k++) {
        const i = v * stride + k;
        values[i] += cage.values[i] - ((1 - n * weight) * values[i] + weight * sum[i]);
      }
    }
  }
  return { ...cage, values };
}

function findEdges(triangles: Uint32Array, vertices: number): Edges {
  const ofCorner = new Uint32Array(triangles.length);
  const ends = new Int32Array(4 * triangles.length);
  // edges that start at a vertex (its lower end), as linked lists
  const first = new Int32Array(vertices).fill(-1);
  const next = new Int32Array(triangles.length);
  let count = 0;
  for (let i = 0; i < triangles.length; i++) {
    const t = i - (i % 3);
    const a = triangles[i];
    const b = triangles[t + ((i + 1) % 3)];
    const opposite = triangles[t + ((i + 2) % 3)];
    const low = Math.min(a, b);
    const high = Math.max(a, b);
    let e = first[low];
    while (e >= 0 && ends[4 * e + 1] !== high) e = next[e];
    if (e < 0) {
      e = count++;
      next[e] = first[low];
      first[low] = e;
      ends[4 * e] = low;
      ends[4 * e + 1] = high;
      ends[4 * e + 2] = opposite;
      ends[4 * e + 3] = -1;
    } else ends[4 * e + 3] = opposite;
    ofCorner[i] = e;
  }
  return { ofCorner, ends, count };
}

function ringsOf(values: Float64Array, stride: number, edges: Edges): Rings {
  const vertices = values.length / stride;
  const onRim = new Uint8Array(vertices);
  for (let e = 0; e < edges.count; e++)
    if (edges.ends[4 * e + 3] < 0) {
      onRim[edges.ends[4 * e]] = 1;
      onRim[edges.ends[4 * e + 1]] = 1;
    }
  const sum = new Float64Array(values.length);
  const degree = new Uint32Array(vertices);
  for (let e = 0; e < edges.count; e++) {
    const rim = edges.ends[4 * e + 3] < 0;
    for (let side = 0; side < 2; side++) {
      const to = edges.ends[4 * e + side];
      const from = edges.ends[4 * e + 1 - side];
      if (onRim[to] && !rim) continue;
      degree[to]++;
      for (let k = 0; k < stride; k++) sum[to * stride + k] += values[from * stride + k];
    }
  }
  return { sum, degree, onRim };
}
