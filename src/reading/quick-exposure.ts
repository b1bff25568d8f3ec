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
export const SHARES = 512;
const segment = Float32Array.from({ length: 2 * SHARES + 2 }, (_, k) => {
  const t = Math.max(-1, Math.min(1, k / SHARES - 1));
  return 0.5 + (t * Math.sqrt(1 - t * t) + Math.asin(t)) / Math.PI;
});

const spot = new Float64Array(3);
/** Of each group of the light at hand: where it stands, its share, steps of the table of shares per step of an edge, and
 * how many of those it takes to be certain. */
const GROUP = 6;
const ready = new Float64Array(4 * GROUP);
/** Angles farther than nearly EDGE_RANGE are not told apart, in steps. */
const WIDEST = 120;
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
  const { each, groups } = light;
  placeParts(e, light, spots);
  readyLamp(e);
  const groupLevel = levelOf(quick, e, light, light.groupRight_m, light.groupUp_m, light.groupShare);
  const level = each === 1 ? groupLevel : levelOf(quick, e, light, light.right_m, light.up_m, light.share);
  for (let g = 0; g < groups; g++) {
    place(e, light.groupRight_m[g], light.groupUp_m[g], spot, 0);
    const k = GROUP * g;
    for (let c = 0; c < 3; c++) ready[k + c] = spot[c];
    ready[k + 3] = groupLevel * light.groupShare[g];
    ready[k + 4] = SHARES * (EDGE_STEP / apparentRadius(quick, e, light.area_m2));
    // so many steps from an edge the whole group is seen or hidden
    ready[k + 5] = (SURE * light.groupReach_m[g]) / (distanceFrom(quick) * EDGE_STEP);
  }
  const [cx, cy, cz] = e.centre;
  place(e, 0, 0, spot, 0);
  // and so many the whole light; of one too large for that only its groups tell
  const whole = (SURE * light.reach_m) / (distanceFrom(quick) * EDGE_STEP);
  const told = each > 1 && whole < WIDEST;
  for (let s = 0; s < count; s++) {
    const p = 6 * s;
    const px = points[p];
    const py = points[p + 1];
    const pz = points[p + 2];
    const nx = points[p + 3];
    const ny = points[p + 4];
    const nz = points[p + 5];
    let open = false;
    if (told) {
      const x = cx - px;
      const y = cy - py;
      const z = cz - pz;
      const facing = x * nx + y * ny + z * nz;
      if (facing <= -light.reach_m) continue;
      const angle = edgeToward(edges, count, s, x, y, z);
      if (angle <= -whole) continue;
      open = angle >= whole && facing > light.reach_m;
    }
    let sum = 0;
    for (let g = 0, k = 0; g < groups; g++, k += GROUP) {
      const x = ready[k] - px;
      const y = ready[k + 1] - py;
      const z = ready[k + 2] - pz;
      const facing = x * nx + y * ny + z * nz;
      if (open) sum += ready[k + 3] * sent(e, light, x, y, z, facing);
      else if (each === 1) {
        if (!(facing > 0)) continue;
        const seen = shareOfDisc(ready[k + 4] * edgeToward(edges, count, s, x, y, z));
        if (seen > 0) sum += seen * ready[k + 3] * sent(e, light, x, y, z, facing);
      } else if (facing > -light.groupReach_m[g]) {
        const angle = edgeToward(edges, count, s, x, y, z);
        const certain = ready[k + 5];
        if (facing > light.groupReach_m[g] && angle >= certain)
          sum += ready[k + 3] * sent(e, light, x, y, z, facing);
        else if (angle > -certain) sum += level * sumParts(quick, e, light, edges, s, g, ready[k + 4]);
      }
    }
    out[s] += sum;
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
    const seen = shareOfDisc(perStep * edgeToward(edges, samples.count, s, x, y, z));
    if (seen > 0) sum += seen * share[k] * sent(e, light, x, y, z, facing);
  }
  return sum;
}

/** Angle, in EDGE_STEP, from a direction (of any length) to the nearest edge, between the four nodes round it. */
export function edgeToward(
  edges: Int8Array,
  count: number,
  s: number,
  x: number,
  y: number,
  z: number,
): number {
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

/** Share of a disc that is seen, by SHARES times the distance of its middle from an edge over its radius. */
export function shareOfDisc(place: number): number {
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
  quick: Pick<QuickFace, "middle">,
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
  quick: Pick<QuickFace, "middle">,
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
