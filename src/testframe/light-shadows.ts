/** Which places of a face a far light reaches, by direction: shadow maps on a grid of directions, made when asked for.
 *
 * The grid lies evenly in the angle from the lens, to the right and up: (u, v) degrees. Between its nodes shadows are
 * blended, which makes them as soft as a light of about the grid's step: what is not known of the face's shape does too. */
import type { SeenFace } from "./types.ts";

/** Degrees between nodes. */
export const STEP = 6;
/** Degrees from the lens to which lights are looked for. */
export const REACH = 126;
const ACROSS = (2 * REACH) / STEP + 3;
/** Shadow maps: cells along a side, metres each; enough for any face turned any way. */
const CELLS = 96;
const CELL = 0.0026;
/** A place is lit that lies no deeper than this under the foremost surface, metres: more than cells leave in doubt. */
const SLACK = 0.0035;
const DEGREE = Math.PI / 180;

export interface Shadows {
  /** 0 to 1 per sample from the direction (u, v) */
  writeVisible(out: Float64Array, u: number, v: number): void;
  /** nodes made so far */
  readonly made: () => number;
}

/** Unit, camera axes, from (u, v). */
export function writeDirection(out: Float64Array, u: number, v: number): void {
  const angle = Math.sqrt(u * u + v * v);
  const aside = angle > 1e-9 ? Math.sin(angle * DEGREE) / angle : DEGREE;
  out[0] = u * aside;
  out[1] = v * aside;
  out[2] = Math.cos(angle * DEGREE);
}

/** Writes (u, v) of a direction of any length. */
export function writePlane(out: Float64Array, x: number, y: number, z: number): void {
  const aside = Math.sqrt(x * x + y * y);
  const angle = Math.atan2(aside, z) / DEGREE;
  const k = aside > 1e-12 ? angle / aside : 1 / DEGREE;
  out[0] = x * k;
  out[1] = y * k;
}

export function makeShadows(face: SeenFace, positions: Float64Array): Shadows {
  const count = positions.length / 3;
  const triangles = coarser(face.triangles);
  const vertices = triangles.reduce((most, v) => Math.max(most, v), 0) + 1;
  const nodes: (Float32Array | undefined)[] = new Array(ACROSS * ACROSS);
  const map = new Float64Array(CELLS * CELLS);
  const flat = new Float64Array(3 * vertices);
  const cells = new Int32Array(vertices);
  const direction = new Float64Array(3);
  const [midX, midY, midZ] = middle(face.positions, vertices);
  let made = 0;

  const nodeAt = (i: number, j: number): Float32Array => {
    const at = j * ACROSS + i;
    const kept = nodes[at];
    if (kept) return kept;
    const node = new Float32Array(count);
    nodes[at] = node;
    made++;
    writeDirection(direction, (i - 1) * STEP - REACH, (j - 1) * STEP - REACH);
    const [lx, ly, lz] = direction;
    // axes across the direction
    const level = Math.hypot(lx, lz);
    const [ex, ez] = level > 1e-6 ? [lz / level, -lx / level] : [1, 0];
    const fx = ly * ez;
    const fy = lz * ex - lx * ez;
    const fz = -ly * ex;
    const half = CELLS / 2;
    const p = face.positions;
    for (let v = 0; v < vertices; v++) {
      const x = p[3 * v] - midX;
      const y = p[3 * v + 1] - midY;
      const z = p[3 * v + 2] - midZ;
      flat[3 * v] = half + (ex * x + ez * z) / CELL;
      flat[3 * v + 1] = half + (fx * x + fy * y + fz * z) / CELL;
      flat[3 * v + 2] = lx * x + ly * y + lz * z;
      cells[v] = (Math.ceil(flat[3 * v]) << 16) | (Math.ceil(flat[3 * v + 1]) & 0xffff);
    }
    writeDepths(map, flat, cells, triangles);
    for (let s = 0; s < count; s++) {
      const x = positions[3 * s] - midX;
      const y = positions[3 * s + 1] - midY;
      const z = positions[3 * s + 2] - midZ;
      const a = half + (ex * x + ez * z) / CELL;
      const b = half + (fx * x + fy * y + fz * z) / CELL;
      const depth = lx * x + ly * y + lz * z + SLACK;
      const ia = Math.min(CELLS - 2, Math.max(0, Math.floor(a)));
      const ib = Math.min(CELLS - 2, Math.max(0, Math.floor(b)));
      const ga = a - ia;
      const gb = b - ib;
      const m = ib * CELLS + ia;
      let lit = 0;
      if (depth > map[m]) lit += (1 - ga) * (1 - gb);
      if (depth > map[m + 1]) lit += ga * (1 - gb);
      if (depth > map[m + CELLS]) lit += (1 - ga) * gb;
      if (depth > map[m + CELLS + 1]) lit += ga * gb;
      node[s] = lit;
    }
    return node;
  };

  return {
    made: () => made,
    writeVisible(out, u, v) {
      const a = Math.min(ACROSS - 1.001, Math.max(0, (u + REACH) / STEP + 1));
      const b = Math.min(ACROSS - 1.001, Math.max(0, (v + REACH) / STEP + 1));
      const i = Math.floor(a);
      const j = Math.floor(b);
      const ga = a - i;
      const gb = b - j;
      const p = nodeAt(i, j);
      if (ga === 0 && gb === 0) {
        out.set(p);
        return;
      }
      const q = nodeAt(i + 1, j);
      const r = nodeAt(i, j + 1);
      const t = nodeAt(i + 1, j + 1);
      const wp = (1 - ga) * (1 - gb);
      const wq = ga * (1 - gb);
      const wr = (1 - ga) * gb;
      const wt = ga * gb;
      for (let s = 0; s < count; s++) out[s] = wp * p[s] + wq * q[s] + wr * r[s] + wt * t[s];
    },
  };
}

/** Subdivided triangles come in fours, of which the first three hold the corners of the one they are parts of. */
export function coarser(triangles: Uint32Array): Uint32Array {
  const out = new Uint32Array(triangles.length / 4);
  for (let t = 0; t < out.length; t += 3) {
    out[t] = triangles[4 * t];
    out[t + 1] = triangles[4 * t + 4];
    out[t + 2] = triangles[4 * t + 8];
  }
  return out;
}

function middle(p: Float64Array, vertices: number): [number, number, number] {
  const sum: [number, number, number] = [0, 0, 0];
  for (let v = 0; v < vertices; v++) for (let k = 0; k < 3; k++) sum[k] += p[3 * v + k] / vertices;
  return sum;
}

/** The foremost depth per cell. `cells`: column and row at or after each corner, 16 bits each; most triangles lie between
 * the cells' middles, which these tell alone. */
function writeDepths(map: Float64Array, flat: Float64Array, cells: Int32Array, triangles: Uint32Array): void {
  map.fill(Number.NEGATIVE_INFINITY);
  for (let t = 0; t < triangles.length; t += 3) {
    const v0 = triangles[t];
    const v1 = triangles[t + 1];
    const v2 = triangles[t + 2];
    const pa = cells[v0];
    const pb = cells[v1];
    const pc = cells[v2];
    const differ = (pa ^ pb) | (pa ^ pc);
    if ((differ & 0xffff) === 0 || differ >>> 16 === 0) continue;
    const a = 3 * v0;
    const b = 3 * v1;
    const c = 3 * v2;
    const ax = flat[a];
    const ay = flat[a + 1];
    const bx = flat[b] - ax;
    const by = flat[b + 1] - ay;
    const cx = flat[c] - ax;
    const cy = flat[c + 1] - ay;
    const twice = bx * cy - by * cx;
    if (Math.abs(twice) < 1e-9) continue;
    const i0 = Math.max(0, Math.min(pa >> 16, pb >> 16, pc >> 16));
    const i1 = Math.min(CELLS, Math.max(pa >> 16, pb >> 16, pc >> 16)) - 1;
    const [ra, rb, rc] = [(pa << 16) >> 16, (pb << 16) >> 16, (pc << 16) >> 16];
    const j0 = Math.max(0, Math.min(ra, rb, rc));
    const j1 = Math.min(CELLS, Math.max(ra, rb, rc)) - 1;
    const az = flat[a + 2];
    const du = (flat[b + 2] - az) / twice;
    const dw = (flat[c + 2] - az) / twice;
    for (let j = j0; j <= j1; j++)
      for (let i = i0; i <= i1; i++) {
        const u = (i - ax) * cy - (j - ay) * cx;
        const w = bx * (j - ay) - by * (i - ax);
        const outside = twice > 0 ? u < 0 || w < 0 || u + w > twice : u > 0 || w > 0 || u + w < twice;
        if (outside) continue;
        const z = az + u * du + w * dw;
        const at = j * CELLS + i;
        if (z > map[at]) map[at] = z;
      }
  }
}
