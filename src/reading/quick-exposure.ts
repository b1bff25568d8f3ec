/** What one light sends straight onto a quick face, looked up. Lights are given in head axes (quick-place.ts). */
import { type Emitter, FAN } from "../engine/index.ts";
import { EDGE_STEP } from "./quick-edges.ts";
import type { QuickFace } from "./quick-face.ts";
import type { QuickLight } from "./quick-light.ts";
import { readyLamp, sent } from "./quick-sent.ts";
import { SKY_ACROSS, SKY_CELLS } from "./quick-sky.ts";

/** A light smaller than this is taken to be of this radius, radians: edges are not known better. */
const LEAST_RADIUS = 0.004;
/** A group's reach is seen from the middle of the face; from its nearer and farther ends it differs by so much. */
const SURE = 0.8;

/** Share of a disc that a straight edge leaves, by the edge's distance from its middle: -1 (all hidden) to 1 (all seen).
 * Source  area of a circle's segment */
const SHARES = 512;
const segment = Float32Array.from({ length: 2 * SHARES + 2 }, (_, k) => {
  const t = Math.max(-1, Math.min(1, k / SHARES - 1));
  return 0.5 + (t * Math.sqrt(1 - t * t) + Math.asin(t)) / Math.PI;
});

const spot = new Float64Array(3);
/** Where the parts of the light at hand stand, xyz each. */
const spots = new Float64Array(3 * FAN);

/** Adds lx.s per lm.s at every sample, past the person's own body. Where a group of the light's parts is far enough from
 * any edge it is all seen or all hidden; where not, its parts are asked, each a disc of its size cut by the nearest edge.
 * Shape    e in head axes; light cut from a face of the same shape, size, lobe and edge; out one number a sample
 * Units    metres
 * Accuracy against rays: docs/spec/quick.md [QF2], [QF3]
 * Source   as `directFlat`: cosine law, (m + 1) / (2 pi) cos^m, inverse square from every part */
export function writeQuickExposure(quick: QuickFace, e: Emitter, light: QuickLight, out: Float64Array) {
  const edges = quick.edges();
  const { points } = quick;
  const { count } = quick.samples;
  const { each } = light;
  placeParts(e, light, spots);
  readyLamp(e);
  const groupLevel = levelOf(quick, e, light, light.groupRight_m, light.groupUp_m, light.groupShare);
  const level = each === 1 ? groupLevel : levelOf(quick, e, light, light.right_m, light.up_m, light.share);
  for (let g = 0; g < light.groups; g++) {
    place(e, light.groupRight_m[g], light.groupUp_m[g], spot, 0);
    const lx = spot[0];
    const ly = spot[1];
    const lz = spot[2];
    const reach_m = light.groupReach_m[g];
    const share = groupLevel * light.groupShare[g];
    const perStep = SHARES * (EDGE_STEP / apparentRadius(quick, e, light.area_m2));
    // so many steps from an edge the whole group is seen or hidden
    const certain = (SURE * reach_m) / (distanceFrom(quick) * EDGE_STEP);
    for (let s = 0; s < count; s++) {
      const p = 6 * s;
      const x = lx - points[p];
      const y = ly - points[p + 1];
      const z = lz - points[p + 2];
      const facing = x * points[p + 3] + y * points[p + 4] + z * points[p + 5];
      if (each === 1) {
        if (!(facing > 0)) continue;
        const seen = shareSeen(perStep * edgeToward(edges, count, s, x, y, z));
        if (seen > 0) out[s] += seen * share * sent(e, light, x, y, z, facing);
      } else if (facing > -reach_m) {
        const angle = edgeToward(edges, count, s, x, y, z);
        if (facing > reach_m && angle >= certain) out[s] += share * sent(e, light, x, y, z, facing);
        else if (angle > -certain) out[s] += level * sumParts(quick, e, light, edges, s, g, perStep);
      }
    }
  }
}

/** What the parts of a group bring past an edge, one by one. */
function sumParts(
  quick: QuickFace,
  e: Emitter,
  light: QuickLight,
  edges: Int8Array,
  s: number,
  g: number,
  perStep: number,
): number {
  const { points, samples } = quick;
  const { each, share } = light;
  const p = 6 * s;
  const px = points[p];
  const py = points[p + 1];
  const pz = points[p + 2];
  const nx = points[p + 3];
  const ny = points[p + 4];
  const nz = points[p + 5];
  const last = (g + 1) * each;
  let sum = 0;
  for (let k = g * each; k < last; k++) {
    const x = spots[3 * k] - px;
    const y = spots[3 * k + 1] - py;
    const z = spots[3 * k + 2] - pz;
    const facing = x * nx + y * ny + z * nz;
    if (!(facing > 0)) continue;
    const seen = shareSeen(perStep * edgeToward(edges, samples.count, s, x, y, z));
    if (seen > 0) sum += seen * share[k] * sent(e, light, x, y, z, facing);
  }
  return sum;
}

/** Angle, in EDGE_STEP, from a direction (of any length) to the nearest edge, between the four nodes round it. */
function edgeToward(edges: Int8Array, count: number, s: number, x: number, y: number, z: number): number {
  const ax = x < 0 ? -x : x;
  const ay = y < 0 ? -y : y;
  const az = z < 0 ? -z : z;
  const half = SKY_CELLS / 2 / (ax + ay + az);
  let u = y * half + SKY_CELLS / 2;
  let v = z * half + SKY_CELLS / 2;
  if (x < 0) {
    // folded out, as writeSkyDirection has it
    u = y < 0 ? az * half : SKY_CELLS - az * half;
    v = z < 0 ? ay * half : SKY_CELLS - ay * half;
  }
  // on the last line of nodes the share of what lies beyond is 0
  const i = u | 0;
  const j = v | 0;
  u -= i;
  v -= j;
  const at = (j * SKY_ACROSS + i) * count + s;
  const above = at + SKY_ACROSS * count;
  const low = edges[at] + u * (edges[at + count] - edges[at]);
  const high = edges[above] + u * (edges[above + count] - edges[above]);
  return low + v * (high - low);
}

function shareSeen(place: number): number {
  if (place <= -SHARES) return 0;
  return place >= SHARES ? 1 : segment[(place + (SHARES + 0.5)) | 0];
}

function place(e: Emitter, a: number, b: number, out: Float64Array, at: number) {
  for (let k = 0; k < 3; k++) out[at + k] = e.centre[k] + a * e.right[k] + b * e.up[k];
}

/** Where the parts of a light stand, xyz each. */
export function placeParts(e: Emitter, light: QuickLight, out: Float64Array) {
  for (let k = 0; k < light.share.length; k++) place(e, light.right_m[k], light.up_m[k], out, 3 * k);
}

function distanceFrom(quick: QuickFace): number {
  const m = quick.middle;
  return Math.sqrt((spot[0] - m[0]) ** 2 + (spot[1] - m[1]) ** 2 + (spot[2] - m[2]) ** 2);
}

/** Of a disc as large as a part at the spot, as the middle of the face sees it, radians. */
function apparentRadius(quick: QuickFace, e: Emitter, area_m2: number): number {
  const m = quick.middle;
  const f = e.forward;
  const x = spot[0] - m[0];
  const y = spot[1] - m[1];
  const z = spot[2] - m[2];
  const d2 = x * x + y * y + z * z;
  const cosine = Math.abs(x * f[0] + y * f[1] + z * f[2]) / Math.sqrt(d2);
  return Math.max(LEAST_RADIUS, Math.sqrt((area_m2 * cosine) / (Math.PI * d2)));
}

/** What a light brings to the middle of the face, turned to the light, from the places that are given for it. */
function levelFrom(
  quick: QuickFace,
  e: Emitter,
  light: QuickLight,
  right_m: Float64Array,
  up_m: Float64Array,
  share: Float64Array,
): number {
  const m = quick.middle;
  const c = e.centre;
  let sum = 0;
  for (let k = 0; k < share.length; k++) {
    place(e, right_m[k], up_m[k], spot, 0);
    const x = spot[0] - m[0];
    const y = spot[1] - m[1];
    const z = spot[2] - m[2];
    const toward = x * (c[0] - m[0]) + y * (c[1] - m[1]) + z * (c[2] - m[2]);
    if (toward > 0) sum += share[k] * sent(e, light, x, y, z, toward);
  }
  return sum;
}

/** By how much few places of a light under- or overstate what it sends to the face. `readyLamp` comes first. */
export function levelOf(
  quick: QuickFace,
  e: Emitter,
  light: QuickLight,
  right_m: Float64Array,
  up_m: Float64Array,
  share: Float64Array,
): number {
  const few = levelFrom(quick, e, light, right_m, up_m, share);
  const { level } = light;
  return few > 0 ? levelFrom(quick, e, light, level.right_m, level.up_m, level.share) / few : 1;
}
