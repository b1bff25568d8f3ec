/** Ways in which the seen face's depth may be wrong: a landmark model knows where points fall in the picture better than
 * how far away they are. Each is a depth added to the surface; slopes of depth add up, so they are kept as slopes. */

import { fromMask } from "../figure/index.ts";
import { FLOOR, type LightSamples, SAMPLES } from "./light-samples.ts";
import { coarser } from "./light-shadows.ts";
import { faceTemplate } from "./surface-mesh.ts";
import type { SeenFace } from "./types.ts";

export interface ShapeWays {
  /** slopes of depth across and up per sample: of the face as seen, then of each way */
  readonly baseX: Float64Array;
  readonly baseY: Float64Array;
  readonly across: readonly Float64Array[];
  readonly up: readonly Float64Array[];
  readonly deviations: readonly number[];
  /** what is shown more where points lie off in the picture, per sample, for one deviation of each way of lying off */
  readonly drifts: readonly Float64Array[];
}

/** Ways in which points lie off in the picture, metres right and up: outlines are found worst, worst in tight crops. */
const DRIFTS: readonly ((x: number, y: number) => readonly [number, number])[] = [
  (_, y) => [0, -5 * MM * ramp((-y - 3) / 5)],
  (_, y) => [0, 4 * MM * ramp((y - 3.5) / 4)],
  (x, y) => [0, 2 * MM * bell(x / 2.6) * bell((y + 4.3) / 1.6)],
  (x, y) => [0, 2 * MM * bell(x / 1.8) * bell((y + 1) / 1.8)],
  (x) => [2 * MM * Math.sign(x) * ramp((Math.abs(x) - 3) / 3.5), 0],
  (x, y) => [0, 1.5 * MM * bell((Math.abs(x) - 3) / 2.5) * bell((y - 3) / 2)],
];

/** The first three are those that shadows follow exactly. */
export const PITCH = 0;
export const SKEW = 1;
export const DEPTH = 2;
/** The share of the way from the landmark model's depths to the mean head's. */
export const TYPICAL = 3;

const bell = (t: number) => Math.exp(-t * t);
const ramp = (t: number) => Math.max(0, Math.min(1.3, t));
const MM = 0.001;

/** Depth, metres, at a point of the face (x, y, z camera axes about its middle, metres) and its canonical place (cm), for
 * one deviation. */
type Way = (x: number, y: number, z: number, cx: number, cy: number, typical: number) => number;

const WAYS: readonly (readonly [number, Way])[] = [
  [0.03, (_, y) => y],
  [0.03, (x) => x],
  [0.08, (_, __, z) => z],
  [1, (_, __, z, ___, ____, typical) => typical - z],
  [1.7, (_, y) => y * y],
  [1.25, (x) => x * x],
  [2.8 * MM, (_, __, ___, x, y) => bell(x / 1.7) * bell((y + 0.8) / 1.8)],
  [2.8 * MM, (_, __, ___, x, y) => bell((Math.abs(x) - 2.2) / 2) * bell((y - 4) / 1)],
  [2.8 * MM, (_, __, ___, x, y) => bell((Math.abs(x) - 3.1) / 1.5) * bell((y - 2.6) / 1)],
  [4.2 * MM, (_, __, ___, x, y) => bell(x / 2.6) * bell((y + 7.5) / 1.7)],
  [2.8 * MM, (_, __, ___, x, y) => bell(x / 3) * bell((y + 4.2) / 1.6)],
  [2.8 * MM, (_, __, ___, x, y) => bell((Math.abs(x) - 4.3) / 1.8) * bell((y + 1) / 2)],
  [4.2 * MM, (_, __, ___, x, y) => bell(x / 4.5) * bell((y - 6.8) / 1.8)],
];

/** No edge is followed further than this, log luminance. */
const STEEP = 0.4;
/** Least share of a surface's slant that its slopes are taken from: beyond, it is seen edge on and hardly counts. */
const EDGE_ON = 0.15;

export function shapeWays(face: SeenFace, samples: LightSamples): ShapeWays {
  const { places } = faceTemplate();
  const { count, vertex, normals } = samples;
  const baseX = new Float64Array(count);
  const baseY = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const nz = Math.max(EDGE_ON, normals[3 * i + 2]);
    baseX[i] = -normals[3 * i] / nz;
    baseY[i] = -normals[3 * i + 1] / nz;
  }
  const triangles = coarser(face.triangles);
  const depth = new Float64Array(SAMPLES);
  const slopeX = new Float64Array(SAMPLES);
  const slopeY = new Float64Array(SAMPLES);
  const typical = typicalDepths(face, places);
  const across: Float64Array[] = [];
  const up: Float64Array[] = [];
  const p = face.positions;
  for (const [, way] of WAYS) {
    for (let v = 0; v < SAMPLES; v++)
      depth[v] = way(p[3 * v], p[3 * v + 1], p[3 * v + 2], places[3 * v], places[3 * v + 1], typical[v]);
    writeSlopes(slopeX, slopeY, p, depth, triangles);
    across.push(Float64Array.from(vertex, (v) => slopeX[v]));
    up.push(Float64Array.from(vertex, (v) => slopeY[v]));
  }
  depth.fill(0);
  // the picture's own slopes, from the log of what is seen
  const bright = samples.bright;
  for (let v = 0; v < SAMPLES; v++) {
    const l = face.luminance[v];
    depth[v] = Number.isNaN(l) ? Number.NaN : Math.log(Math.max(0, l) / bright + FLOOR);
  }
  writeSlopes(slopeX, slopeY, p, depth, triangles);
  const drifts = DRIFTS.map((drift) =>
    Float64Array.from(vertex, (v) => {
      const [right, above] = drift(places[3 * v], places[3 * v + 1]);
      const off = right * slopeX[v] + above * slopeY[v];
      return -Math.max(-STEEP, Math.min(STEEP, off));
    }),
  );
  return { baseX, baseY, across, up, drifts, deviations: WAYS.map(([deviation]) => deviation) };
}

/** Depth of the mean head's face where it lies as this one does. */
function typicalDepths(face: SeenFace, places: Float64Array): Float64Array {
  const r = face.cameraFromHead;
  const out = new Float64Array(SAMPLES);
  const p = face.positions;
  let own = 0;
  let typical = 0;
  let square = 0;
  let product = 0;
  for (let v = 0; v < SAMPLES; v++) {
    const [ahead, left, above] = fromMask(places[3 * v], places[3 * v + 1], places[3 * v + 2]);
    const across = r[0] * ahead + r[1] * left + r[2] * above;
    const upward = r[3] * ahead + r[4] * left + r[5] * above;
    out[v] = r[6] * ahead + r[7] * left + r[8] * above;
    product += across * p[3 * v] + upward * p[3 * v + 1];
    square += across * across + upward * upward;
  }
  const scale = product / square;
  for (let v = 0; v < SAMPLES; v++) {
    out[v] *= scale;
    typical += out[v] / SAMPLES;
    own += p[3 * v + 2] / SAMPLES;
  }
  for (let v = 0; v < SAMPLES; v++) out[v] += own - typical;
  return out;
}

/** Slopes of a depth over the picture plane at the points of a mesh: means of its triangles', by their area there. */
function writeSlopes(
  slopeX: Float64Array,
  slopeY: Float64Array,
  p: Float64Array,
  depth: Float64Array,
  triangles: Uint32Array,
): void {
  slopeX.fill(0);
  slopeY.fill(0);
  const areas = new Float64Array(slopeX.length);
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t], triangles[t + 1], triangles[t + 2]];
    const bx = p[3 * b] - p[3 * a];
    const by = p[3 * b + 1] - p[3 * a + 1];
    const cx = p[3 * c] - p[3 * a];
    const cy = p[3 * c + 1] - p[3 * a + 1];
    const twice = bx * cy - by * cx;
    if (twice <= 0) continue;
    if (!(depth[a] + depth[b] + depth[c] < Infinity)) continue;
    const db = depth[b] - depth[a];
    const dc = depth[c] - depth[a];
    for (let k = 0; k < 3; k++) {
      const v = triangles[t + k];
      slopeX[v] += db * cy - dc * by;
      slopeY[v] += dc * bx - db * cx;
      areas[v] += twice;
    }
  }
  for (let v = 0; v < areas.length; v++) {
    if (!(areas[v] > 0)) continue;
    slopeX[v] /= areas[v];
    slopeY[v] /= areas[v];
  }
}
