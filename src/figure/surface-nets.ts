/** The skin of a distance field as a closed triangle mesh. Source: surface nets (Gibson 1998): one vertex per cell that
 * the surface crosses, here settled on the surface itself, and one quadrilateral per crossed grid edge. */
import type { Field } from "./fields.ts";
import type { Mesh } from "./types.ts";

export interface Box {
  /** the box is mirrored in y: from -y to y */
  readonly x: readonly [number, number];
  readonly y: number;
  readonly z: readonly [number, number];
}

const SETTLE_ROUNDS = 1;

/** The field must be the same on both sides (y and -y) and positive on the faces of the box. */
export function skinOfField(field: Field, box: Box, cell: number, material: number): Mesh {
  const nx = Math.ceil((box.x[1] - box.x[0]) / cell) + 1;
  const halfY = Math.ceil(box.y / cell);
  const ny = 2 * halfY + 1;
  const nz = Math.ceil((box.z[1] - box.z[0]) / cell) + 1;
  const node = (i: number, j: number, k: number) => (k * ny + j) * nx + i;
  const values = sample(field, box, cell, [nx, halfY, nz]);
  const vertexOf = new Int32Array(values.length).fill(-1);
  const positions: number[] = [];
  for (let k = 0; k + 1 < nz; k++)
    for (let j = 0; j + 1 < ny; j++)
      for (let i = 0; i + 1 < nx; i++) {
        const p = crossing(values, nx, ny, node(i, j, k));
        if (!p) continue;
        vertexOf[node(i, j, k)] = positions.length / 3;
        positions.push(box.x[0] + (i + p[0]) * cell, (j + p[1] - halfY) * cell, box.z[0] + (k + p[2]) * cell);
      }
  const steps = [1, nx, nx * ny];
  const quads: number[] = [];
  for (let k = 1; k + 1 < nz; k++)
    for (let j = 1; j + 1 < ny; j++)
      for (let i = 1; i + 1 < nx; i++) {
        const at = node(i, j, k);
        for (let axis = 0; axis < 3; axis++) {
          const inside = values[at] < 0;
          if (inside === values[at + steps[axis]] < 0) continue;
          const u = steps[(axis + 1) % 3];
          const v = steps[(axis + 2) % 3];
          const [a, b, c, d] = [at - u - v, at - v, at, at - u].map((n) => vertexOf[n]);
          if (inside) quads.push(a, b, c, d);
          else quads.push(a, d, c, b);
        }
      }
  const placed = Float64Array.from(positions);
  const normals = settle(field, placed, cell);
  const triangles = cutQuads(quads, normals);
  return {
    positions: placed,
    normals,
    triangles,
    materials: new Uint8Array(triangles.length / 3).fill(material),
  };
}

/** Two triangles for each quadrilateral, cut between the two corners whose normals agree best: along a ridge or a
 * groove and not across it, so that it does not turn into beads. */
function cutQuads(quads: readonly number[], n: Float64Array): Uint32Array {
  const out = new Uint32Array((quads.length / 4) * 6);
  const agree = (v: number, w: number) =>
    n[3 * v] * n[3 * w] + n[3 * v + 1] * n[3 * w + 1] + n[3 * v + 2] * n[3 * w + 2];
  for (let q = 0, at = 0; q < quads.length; q += 4, at += 6) {
    const [a, b, c, d] = quads.slice(q, q + 4);
    if (agree(a, c) >= agree(b, d)) out.set([a, b, c, a, c, d], at);
    else out.set([b, c, d, b, d, a], at);
  }
  return out;
}

/** Nodes along an edge of the blocks that are looked at as a whole first. */
const BLOCK = 4;
/** A block whose middle lies this many half-diagonals from the surface is taken as all in or all out; more than 1
 * because fields of ellipsoids are distances only near their surface. */
const SAFE = 1.5;

/** The field on the grid's nodes; far from the surface only its sign is right. */
function sample(
  field: Field,
  box: Box,
  cell: number,
  [nx, halfY, nz]: readonly [number, number, number],
): Float64Array {
  const ny = 2 * halfY + 1;
  const values = new Float64Array(nx * ny * nz);
  const middle = ((BLOCK - 1) / 2) * cell;
  const far = SAFE * middle * Math.sqrt(3);
  for (let k0 = 0; k0 < nz; k0 += BLOCK)
    for (let j0 = halfY; j0 < ny; j0 += BLOCK)
      for (let i0 = 0; i0 < nx; i0 += BLOCK) {
        const x = box.x[0] + i0 * cell;
        const y = (j0 - halfY) * cell;
        const z = box.z[0] + k0 * cell;
        const whole = field(x + middle, y + middle, z + middle);
        const near = Math.abs(whole) < far;
        for (let k = k0; k < Math.min(nz, k0 + BLOCK); k++)
          for (let j = j0; j < Math.min(ny, j0 + BLOCK); j++)
            for (let i = i0; i < Math.min(nx, i0 + BLOCK); i++) {
              const f = near ? field(x + (i - i0) * cell, y + (j - j0) * cell, z + (k - k0) * cell) : whole;
              values[(k * ny + j) * nx + i] = f;
              values[(k * ny + ny - 1 - j) * nx + i] = f;
            }
      }
  return values;
}

/** Mean of where the surface crosses a cell's edges, in cells from its corner; null where it does not. */
function crossing(values: Float64Array, nx: number, ny: number, at: number): number[] | null {
  const layer = at + nx * ny;
  const inside = values[at] < 0;
  if (
    inside === values[at + 1] < 0 &&
    inside === values[at + nx] < 0 &&
    inside === values[at + nx + 1] < 0 &&
    inside === values[layer] < 0 &&
    inside === values[layer + 1] < 0 &&
    inside === values[layer + nx] < 0 &&
    inside === values[layer + nx + 1] < 0
  )
    return null;
  let count = 0;
  const sum = [0, 0, 0];
  const steps = [1, nx, nx * ny];
  for (let axis = 0; axis < 3; axis++) {
    const u = (axis + 1) % 3;
    const v = (axis + 2) % 3;
    for (let corner = 0; corner < 4; corner++) {
      const du = corner & 1;
      const dv = corner >> 1;
      const from = at + du * steps[u] + dv * steps[v];
      const a = values[from];
      const b = values[from + steps[axis]];
      if (a < 0 === b < 0) continue;
      count++;
      sum[axis] += a / (a - b);
      sum[u] += du;
      sum[v] += dv;
    }
  }
  return sum.map((s) => s / count);
}

/** Moves vertices onto the surface, but not out of their cell's neighbourhood, and returns the field's own normals. */
function settle(field: Field, p: Float64Array, cell: number): Float64Array {
  const normals = new Float64Array(p.length);
  const h = cell / 20;
  for (let v = 0; v < p.length; v += 3) {
    for (let round = 0; round <= SETTLE_ROUNDS; round++) {
      const [x, y, z] = [p[v], p[v + 1], p[v + 2]];
      const gx = field(x + h, y, z) - field(x - h, y, z);
      const gy = field(x, y + h, z) - field(x, y - h, z);
      const gz = field(x, y, z + h) - field(x, y, z - h);
      const length = Math.sqrt(gx * gx + gy * gy + gz * gz) || 1;
      normals[v] = gx / length;
      normals[v + 1] = gy / length;
      normals[v + 2] = gz / length;
      if (round === SETTLE_ROUNDS) break;
      const step = Math.max(-cell / 2, Math.min(cell / 2, (field(x, y, z) * 2 * h) / length));
      for (let k = 0; k < 3; k++) p[v + k] -= step * normals[v + k];
    }
  }
  return normals;
}
