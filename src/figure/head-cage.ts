/** The coarse head: the measured mask, eyes cut open, joined to cranium, jaw and neck by rings, closed at the neck's
 * foot. Centimetres, head axes. The mask's own vertices come first and keep their numbers. */
import { CANONICAL_TRIANGLES, CANONICAL_VERTICES } from "./canonical-face.generated.ts";
import { craniumRings } from "./cranium.ts";
import { LEFT_EYE, LIP_CORNERS, LIPS, LOWER_LIP, RIGHT_EYE, RIM, UPPER_LIP } from "./mask-parts.ts";
import { CORNEA, fromMask, GLOBE, type Point } from "./measures.ts";
import type { Cage } from "./subdivide.ts";
import { MATERIAL } from "./types.ts";

/** xyz and, as a fourth number, 1 on the mask and 0 elsewhere and along the line between the lips. */
export const CAGE_STRIDE = 4;

interface Draft {
  readonly points: Point[];
  readonly onMask: number[];
  readonly triangles: number[];
  readonly tags: number[];
}

export function headCage(): Cage {
  const draft: Draft = { points: maskPoints(), onMask: [], triangles: [], tags: [] };
  const lipLine = new Set([...UPPER_LIP.slice(-1).flat(), ...LOWER_LIP.slice(-1).flat(), ...LIP_CORNERS]);
  draft.onMask.push(...draft.points.map((_, v) => (lipLine.has(v) ? 0 : 1)));
  const eyes = [new Set(LEFT_EYE), new Set(RIGHT_EYE)];
  for (let t = 0; t < CANONICAL_TRIANGLES.length; t += 3) {
    const corners = CANONICAL_TRIANGLES.slice(t, t + 3);
    if (eyes.some((eye) => corners.every((c) => eye.has(c)))) continue;
    draft.triangles.push(...corners);
    draft.tags.push(corners.every((c) => LIPS.has(c)) ? MATERIAL.lip : MATERIAL.skin);
  }
  addLidRim(draft, LEFT_EYE, 1);
  addLidRim(draft, RIGHT_EYE, -1);
  let previous: readonly number[] = RIM;
  for (const ring of craniumRings(RIM.map((v) => draft.points[v]))) previous = addRing(draft, previous, ring);
  closeFoot(draft, previous);
  return {
    values: Float64Array.from(draft.points.flatMap((p, v) => [...p, draft.onMask[v]])),
    stride: CAGE_STRIDE,
    triangles: Uint32Array.from(draft.triangles),
    tags: Uint8Array.from(draft.tags),
  };
}

/** The mask is drawn with narrowed eyes and its lips apart: the lids are opened by this much, round these centres. */
const EYE_ASIDE = 3.15;
const EYE_UP = 2.63;
const OPENED = 0.4;
const OPENED_WIDE = 1.9;
const OPENED_HIGH = 1.1;

function maskPoints(): Point[] {
  const raw: Point[] = [];
  for (let i = 0; i < CANONICAL_VERTICES.length; i += 3) {
    const [x, y, z] = CANONICAL_VERTICES.slice(i, i + 3);
    const up = y - EYE_UP;
    const r2 = ((Math.abs(x) - EYE_ASIDE) / OPENED_WIDE) ** 2 + (up / OPENED_HIGH) ** 2;
    raw.push([x, r2 < 1 ? EYE_UP + up * (1 + OPENED * (1 - r2) ** 2) : y, z]);
  }
  closeLips(raw);
  const points = raw.map((p) => fromMask(...p));
  for (const [ring, side] of [
    [LEFT_EYE, 1],
    [RIGHT_EYE, -1],
  ] as const)
    for (const v of ring) points[v] = onGlobe(points[v], side);
  return points;
}

/** The mask's lips are half a centimetre apart: each row is drawn toward the line between them by this share of the
 * way, so that they close without folding in. */
const LIP_SHARES = [0.15, 0.42, 0.72, 1];
/** The line lies deeper than the rows beside it, the more the wider the lips were open. Mask centimetres. */
const LINE_DEEPER = 0.03;
const LINE_DEEPER_OPEN = 0.18;
/** Half the opening that is left, so that the two lips' edges stay two. */
const LIP_GAP = 0.03;

function closeLips(raw: Point[]) {
  const inner = LIP_SHARES.length - 1;
  UPPER_LIP[inner].forEach((up, column) => {
    const low = LOWER_LIP[inner][column];
    const half = (raw[up][1] - raw[low][1]) / 2;
    LIP_SHARES.forEach((share, row) => {
      raw[UPPER_LIP[row][column]][1] -= share * (half - LIP_GAP);
      raw[LOWER_LIP[row][column]][1] += share * (half - LIP_GAP);
    });
    const beside = Math.min(raw[UPPER_LIP[inner - 1][column]][2], raw[LOWER_LIP[inner - 1][column]][2]);
    raw[up][2] = beside - LINE_DEEPER - LINE_DEEPER_OPEN * half;
    raw[low][2] = raw[up][2];
  });
}

/** Lids lie on the eye with this thickness between; measured along the line of sight. */
export const LID = 0.06;

/** Moves a point of a lid's edge ahead or back until it lies on the eye; beside the eye, at the corners, it stays. */
function onGlobe(p: Point, side: number): Point {
  const lateral = (p[1] - side * GLOBE.aside) ** 2 + (p[2] - GLOBE.up) ** 2;
  const ahead = (radius: number, from: number) => from + Math.sqrt(Math.max(0, radius * radius - lateral));
  const fits = Math.max(ahead(GLOBE.radius + LID, 0), ahead(CORNEA.radius + LID, CORNEA.ahead));
  const share = Math.min(1, Math.max(0, (GLOBE.radius * GLOBE.radius - lateral) / 0.5));
  return [p[0] + share * (GLOBE.ahead + fits - p[0]), p[1], p[2]];
}

/** From each lid's edge a narrow skirt runs back into the globe, so that no light gets in beside the eye. */
const INSIDE_GLOBE = 0.93;

function addLidRim(draft: Draft, ring: readonly number[], side: number) {
  const centre = [GLOBE.ahead, side * GLOBE.aside, GLOBE.up];
  const inner = ring.map((v): Point => {
    const d = draft.points[v].map((x, k) => x - centre[k]);
    const scale = (INSIDE_GLOBE * GLOBE.radius) / Math.hypot(d[0], d[1], d[2]);
    return [centre[0] + scale * d[0], centre[1] + scale * d[1], centre[2] + scale * d[2]];
  });
  // a loop that the mask runs along the other way round wants the skirt turned
  const along = edgeRuns(draft.triangles, ring[0], ring[1]);
  addRing(draft, along ? ring : [...ring].reverse(), along ? inner : inner.reverse());
}

/** Whether some triangle has the edge from a to b in this direction. */
function edgeRuns(triangles: readonly number[], a: number, b: number): boolean {
  return triangles.some((v, i) => v === a && triangles[i - (i % 3) + ((i + 1) % 3)] === b);
}

/** Joins a new loop to one whose edges the triangles so far run along. Quadrilaterals are cut along their shorter
 * diagonal; where there is none, mirrored on the two sides, so that the head is symmetric. */
function addRing(draft: Draft, previous: readonly number[], ring: readonly Point[]): number[] {
  const { points, triangles, tags } = draft;
  const first = points.length;
  points.push(...ring);
  draft.onMask.push(...ring.map(() => 0));
  const n = ring.length;
  const apart = (v: number, w: number) => Math.hypot(...points[v].map((x, k) => x - points[w][k]));
  for (let i = 0; i < n; i++) {
    const [a, b] = [previous[i], previous[(i + 1) % n]];
    const [c, d] = [first + i, first + ((i + 1) % n)];
    const longer = apart(b, c) - apart(a, d);
    const cut = Math.abs(longer) < EVEN_CUT ? points[a][1] + points[b][1] > 0 : longer < 0;
    if (cut) triangles.push(b, a, c, b, c, d);
    else triangles.push(b, a, d, a, c, d);
    tags.push(MATERIAL.skin, MATERIAL.skin);
  }
  return ring.map((_, i) => first + i);
}

/** Diagonals closer than this count as equal, centimetres. */
const EVEN_CUT = 1e-6;

/** The neck's foot, hidden in the body's neck: drawn in and closed, ahead and up from its middle. */
const FOOT: readonly (readonly [number, number, number])[] = [
  [0.88, -0.25, -0.5],
  [0.5, -0.4, -0.8],
];

function closeFoot(draft: Draft, last: readonly number[]) {
  const outline = last.map((v) => draft.points[v]);
  const middle = [0, 1, 2].map((k) => outline.reduce((sum, p) => sum + p[k], 0) / outline.length);
  let previous = last;
  for (const [share, ahead, up] of FOOT) {
    const shift = [ahead, 0, up];
    const ring = outline.map((p) => p.map((x, k) => middle[k] + share * (x - middle[k]) + shift[k]) as Point);
    previous = addRing(draft, previous, ring);
  }
  const pole = draft.points.length;
  draft.points.push([middle[0] - 0.45, 0, middle[2] - 0.9]);
  draft.onMask.push(0);
  previous.forEach((v, i) => {
    draft.triangles.push(previous[(i + 1) % previous.length], v, pole);
    draft.tags.push(MATERIAL.skin);
  });
}
