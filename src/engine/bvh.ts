/** A bounding volume hierarchy over one rigid triangle mesh, in flat typed arrays.
 *
 * Layout  nodeBounds: 6 floats a node (min xyz, max xyz), rounded outward from 64-bit positions;
 *         nodeLink: 2 ints a node, (left child, 0) inside, (first triangle, count) in a leaf; the right
 *         child stands behind the left one, so that one number links both;
 *         triData: 9 doubles a triangle in leaf order (corner, edge 1, edge 2); triId: the mesh's own index. */
export interface Bvh {
  readonly nodeBounds: Float32Array;
  readonly nodeLink: Int32Array;
  readonly triData: Float64Array;
  readonly triId: Uint32Array;
}

const BINS = 16;
const LEAF_SIZE = 4;
/** Nodes of so few triangles are split along their widest axis alone: half the time of a build, and as quick to walk. */
const FEW = 64;
/** A traversal step costs about this many triangle tests (measured on the head, plain JavaScript). */
const STEP_COST = 1.2;

/** Builds the hierarchy by binned surface-area heuristic.
 * Shape   positions: xyz per vertex; triangles: three indices each
 * Units   metres
 * Errors  none; an empty mesh gives one empty leaf */
export function buildBvh(positions: Float64Array, triangles: Uint32Array): Bvh {
  const count = triangles.length / 3;
  const boxes = triangleBoxes(positions, triangles);
  const order = new Uint32Array(count);
  for (let i = 0; i < count; i++) order[i] = i;
  const nodeBounds = new Float32Array(6 * Math.max(1, 2 * count));
  const nodeLink = new Int32Array(2 * Math.max(1, 2 * count));
  let nodes = 1;
  const todo: number[] = [0, 0, count];
  const box = new Float64Array(6);
  while (todo.length > 0) {
    const last = todo.pop() as number;
    const first = todo.pop() as number;
    const node = todo.pop() as number;
    boundsOf(boxes, order, first, last, box);
    writeOutward(nodeBounds, 6 * node, box);
    const middle = last - first <= LEAF_SIZE ? -1 : split(boxes, order, first, last);
    if (middle < 0) {
      nodeLink[2 * node] = first;
      nodeLink[2 * node + 1] = last - first;
      continue;
    }
    const left = nodes;
    nodes += 2;
    nodeLink[2 * node] = left;
    nodeLink[2 * node + 1] = 0;
    todo.push(left, first, middle, left + 1, middle, last);
  }
  return {
    nodeBounds: nodeBounds.slice(0, 6 * nodes),
    nodeLink: nodeLink.slice(0, 2 * nodes),
    triData: packTriangles(positions, triangles, order),
    triId: order,
  };
}

/** Per triangle: box minimum, box maximum (6 numbers); centres are taken from them. */
function triangleBoxes(positions: Float64Array, triangles: Uint32Array): Float64Array {
  const boxes = new Float64Array(2 * triangles.length);
  for (let t = 0; t < triangles.length / 3; t++) {
    for (let axis = 0; axis < 3; axis++) {
      const a = positions[3 * triangles[3 * t] + axis];
      const b = positions[3 * triangles[3 * t + 1] + axis];
      const c = positions[3 * triangles[3 * t + 2] + axis];
      boxes[6 * t + axis] = Math.min(a, b, c);
      boxes[6 * t + 3 + axis] = Math.max(a, b, c);
    }
  }
  return boxes;
}

function boundsOf(boxes: Float64Array, order: Uint32Array, first: number, last: number, out: Float64Array) {
  emptyBox(out, 0);
  for (let i = first; i < last; i++) growBox(out, 0, boxes, 6 * order[i]);
}

function emptyBox(out: Float64Array, at: number) {
  for (let k = 0; k < 3; k++) {
    out[at + k] = Number.POSITIVE_INFINITY;
    out[at + 3 + k] = Number.NEGATIVE_INFINITY;
  }
}

function growBox(out: Float64Array, to: number, boxes: Float64Array, at: number) {
  for (let k = 0; k < 3; k++) {
    if (boxes[at + k] < out[to + k]) out[to + k] = boxes[at + k];
    if (boxes[at + 3 + k] > out[to + 3 + k]) out[to + 3 + k] = boxes[at + 3 + k];
  }
}

function halfArea(box: Float64Array): number {
  const x = box[3] - box[0];
  const y = box[4] - box[1];
  const z = box[5] - box[2];
  return x >= 0 ? x * y + y * z + z * x : 0;
}

/** Bounds are stored in 32 bits: pad by one part in 2^22 of the coordinate so that none shrinks. */
function writeOutward(bounds: Float32Array, at: number, box: Float64Array) {
  for (let k = 0; k < 3; k++) {
    bounds[at + k] = box[k] - Math.abs(box[k]) * 2.4e-7 - 1e-9;
    bounds[at + 3 + k] = box[3 + k] + Math.abs(box[3 + k]) * 2.4e-7 + 1e-9;
  }
}

/** One set for all splits of all builds: a build makes ten thousand of them. */
const scratch = {
  lo: new Float64Array(3),
  hi: new Float64Array(3),
  binBox: new Float64Array(6 * BINS),
  binCount: new Int32Array(BINS),
  rightArea: new Float64Array(BINS),
  sweep: new Float64Array(6),
  all: new Float64Array(6),
};

/** Parts order[first, last) in two by the cheapest bin border; -1 where a leaf is cheaper. */
function split(boxes: Float64Array, order: Uint32Array, first: number, last: number): number {
  const { lo, hi, binBox, binCount, rightArea, sweep, all } = scratch;
  for (let axis = 0; axis < 3; axis++) {
    lo[axis] = Number.POSITIVE_INFINITY;
    hi[axis] = Number.NEGATIVE_INFINITY;
    for (let i = first; i < last; i++) {
      const c = boxes[6 * order[i] + axis] + boxes[6 * order[i] + 3 + axis];
      if (c < lo[axis]) lo[axis] = c;
      if (c > hi[axis]) hi[axis] = c;
    }
  }
  let widest = 0;
  for (let axis = 1; axis < 3; axis++) if (hi[axis] - lo[axis] > hi[widest] - lo[widest]) widest = axis;
  let bestCost = Number.POSITIVE_INFINITY;
  let bestAxis = -1;
  let bestBin = 0;
  for (let axis = 0; axis < 3; axis++) {
    const extent = hi[axis] - lo[axis];
    if (!(extent > 0) || (last - first <= FEW && axis !== widest)) continue;
    binCount.fill(0);
    for (let b = 0; b < BINS; b++) emptyBox(binBox, 6 * b);
    for (let i = first; i < last; i++) {
      const bin = binOf(boxes, order[i], axis, lo[axis], extent);
      binCount[bin]++;
      growBox(binBox, 6 * bin, boxes, 6 * order[i]);
    }
    emptyBox(sweep, 0);
    let right = 0;
    for (let b = BINS - 1; b > 0; b--) {
      growBox(sweep, 0, binBox, 6 * b);
      right += binCount[b];
      rightArea[b] = halfArea(sweep) * right;
    }
    emptyBox(sweep, 0);
    let left = 0;
    for (let b = 0; b < BINS - 1; b++) {
      growBox(sweep, 0, binBox, 6 * b);
      left += binCount[b];
      const cost = halfArea(sweep) * left + rightArea[b + 1];
      if (left > 0 && left < last - first && cost < bestCost) {
        bestCost = cost;
        bestAxis = axis;
        bestBin = b;
      }
    }
  }
  if (bestAxis < 0) return last - first > 4 * LEAF_SIZE ? (first + last) >> 1 : -1;
  boundsOf(boxes, order, first, last, all);
  const leafCost = last - first;
  if (last - first <= 2 * LEAF_SIZE && STEP_COST + bestCost / halfArea(all) >= leafCost) return -1;
  let i = first;
  let j = last - 1;
  const extent = hi[bestAxis] - lo[bestAxis];
  while (i <= j) {
    if (binOf(boxes, order[i], bestAxis, lo[bestAxis], extent) <= bestBin) i++;
    else {
      const swap = order[i];
      order[i] = order[j];
      order[j--] = swap;
    }
  }
  return i;
}

function binOf(boxes: Float64Array, triangle: number, axis: number, lo: number, extent: number): number {
  const c = boxes[6 * triangle + axis] + boxes[6 * triangle + 3 + axis];
  return Math.min(BINS - 1, Math.floor((BINS * (c - lo)) / extent));
}

function packTriangles(positions: Float64Array, triangles: Uint32Array, order: Uint32Array): Float64Array {
  const data = new Float64Array(9 * order.length);
  for (let i = 0; i < order.length; i++) {
    const t = 3 * order[i];
    for (let axis = 0; axis < 3; axis++) {
      const a = positions[3 * triangles[t] + axis];
      data[9 * i + axis] = a;
      data[9 * i + 3 + axis] = positions[3 * triangles[t + 1] + axis] - a;
      data[9 * i + 6 + axis] = positions[3 * triangles[t + 2] + axis] - a;
    }
  }
  return data;
}
