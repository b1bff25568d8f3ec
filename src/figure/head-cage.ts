/** The coarse head: the measured mask, eyes cut open, joined to a cranium, jaw and neck by rings.
 * Centimetres in the mask's own axes (x own left, y up, z ahead) until `head.ts` turns and scales them. */
import { CANONICAL_TRIANGLES, CANONICAL_VERTICES } from "./canonical-face.generated.ts";
import type { Cage } from "./subdivide.ts";
import { MATERIAL } from "./types.ts";

/** Rim of the mask, from the chin round by the own left side; indices of the canonical mesh. */
const RIM = [
  152, 377, 400, 378, 379, 365, 397, 288, 361, 323, 454, 356, 389, 251, 284, 332, 297, 338, 10, 109, 67, 103,
  54, 21, 162, 127, 234, 93, 132, 58, 172, 136, 150, 149, 176, 148,
];
const LEFT_EYE = [362, 382, 381, 380, 374, 373, 390, 249, 263, 466, 388, 387, 386, 385, 384, 398];
const RIGHT_EYE = [33, 7, 163, 144, 145, 153, 154, 155, 133, 173, 157, 158, 159, 160, 161, 246];
const UPPER_INNER_LIP = [191, 80, 81, 82, 13, 312, 311, 310, 415];
const LOWER_INNER_LIP = [95, 88, 178, 87, 14, 317, 402, 318, 324];
/** Outer lips and what lies between: lips take the lip material. */
const LIPS = new Set([
  61,
  185,
  40,
  39,
  37,
  0,
  267,
  269,
  270,
  409,
  291,
  146,
  91,
  181,
  84,
  17,
  314,
  405,
  321,
  375,
  76,
  184,
  74,
  73,
  72,
  11,
  302,
  303,
  304,
  408,
  306,
  77,
  90,
  180,
  85,
  16,
  315,
  404,
  320,
  307,
  62,
  183,
  42,
  41,
  38,
  12,
  268,
  271,
  272,
  407,
  292,
  96,
  89,
  179,
  86,
  15,
  316,
  403,
  319,
  325,
  78,
  308,
  ...UPPER_INNER_LIP,
  ...LOWER_INNER_LIP,
]);

/** Globe centres and radius, cm: set so that the lids of the mask close on them. */
export const GLOBE_RADIUS = 1.2;
export const LEFT_GLOBE = [3.16, 2.62, 2.56] as const;

/** xyz and, as a fourth number, 1 on the mask and 0 elsewhere. */
export const CAGE_STRIDE = 4;

export function headCage(): Cage {
  const values: number[] = [];
  for (let i = 0; i < CANONICAL_VERTICES.length; i += 3)
    values.push(CANONICAL_VERTICES[i], CANONICAL_VERTICES[i + 1], CANONICAL_VERTICES[i + 2], 1);
  closeLips(values);
  const triangles: number[] = [];
  const tags: number[] = [];
  const eyes = [new Set(LEFT_EYE), new Set(RIGHT_EYE)];
  for (let t = 0; t < CANONICAL_TRIANGLES.length; t += 3) {
    const corners = CANONICAL_TRIANGLES.slice(t, t + 3);
    if (eyes.some((eye) => corners.every((c) => eye.has(c)))) continue;
    triangles.push(...corners);
    tags.push(corners.every((c) => LIPS.has(c)) ? MATERIAL.lip : MATERIAL.skin);
  }
  addLidRims(values, triangles, tags);
  addRings(values, triangles, tags);
  return {
    values: Float64Array.from(values),
    stride: CAGE_STRIDE,
    triangles: Uint32Array.from(triangles),
    tags: Uint8Array.from(tags),
  };
}

/** The mask's lips are a little apart: bring them together and draw the line between them in. */
function closeLips(values: number[]) {
  UPPER_INNER_LIP.forEach((up, k) => {
    const low = LOWER_INNER_LIP[k];
    const y = (values[4 * up + 1] + values[4 * low + 1]) / 2;
    const z = Math.min(values[4 * up + 2], values[4 * low + 2]) - 0.12;
    values[4 * up + 1] = y + 0.03;
    values[4 * low + 1] = y - 0.03;
    values[4 * up + 2] = z;
    values[4 * low + 2] = z;
  });
}

/** From each lid's edge a narrow skirt runs back onto the globe, so that no light gets in beside the eye. */
function addLidRims(values: number[], triangles: number[], tags: number[]) {
  for (const [ring, sign] of [
    [LEFT_EYE, 1],
    [RIGHT_EYE, -1],
  ] as const) {
    const centre = [sign * LEFT_GLOBE[0], LEFT_GLOBE[1], LEFT_GLOBE[2]];
    const first = values.length / 4;
    for (const v of ring) {
      const d = [0, 1, 2].map((k) => values[4 * v + k] - centre[k]);
      const scale = (0.96 * GLOBE_RADIUS) / Math.hypot(d[0], d[1], d[2]);
      values.push(centre[0] + scale * d[0], centre[1] + scale * d[1], centre[2] + scale * d[2], 0);
    }
    for (let i = 0; i < ring.length; i++) {
      const j = (i + 1) % ring.length;
      join(values, triangles, tags, ring[i], ring[j], first + i, first + j, centre);
    }
  }
}

/** Two triangles between an edge and the one inside it, turned so that they face away from `inside`. */
function join(
  values: number[],
  triangles: number[],
  tags: number[],
  a: number,
  b: number,
  c: number,
  d: number,
  inside: readonly number[],
) {
  for (const [p, q, r] of [
    [a, b, c],
    [b, d, c],
  ]) {
    const at = (v: number, k: number) => values[4 * v + k];
    const u = [0, 1, 2].map((k) => at(q, k) - at(p, k));
    const w = [0, 1, 2].map((k) => at(r, k) - at(p, k));
    const n = [u[1] * w[2] - u[2] * w[1], u[2] * w[0] - u[0] * w[2], u[0] * w[1] - u[1] * w[0]];
    const out = n[0] * (at(p, 0) - inside[0]) + n[1] * (at(p, 1) - inside[1]) + n[2] * (at(p, 2) - inside[2]);
    triangles.push(...(out >= 0 ? [p, q, r] : [p, r, q]));
    tags.push(MATERIAL.skin);
  }
}

/** Rings from the mask's rim over the cranium and under the jaw to the foot of the neck. A point is given by the
 * angle round the head: 0 under the chin, 90 at the own left ear, 180 on the crown line.
 * Sizes: ANSUR II means of men and women (head breadth 151, length 195, tragion to top 129 mm) over the mask's scale. */
type RingShape = (sin: number, cos: number) => [number, number, number];
const RING_SHAPES: RingShape[] = [
  // through the temples, under the jaw's edge and close behind the chin
  skull({ low: 7.0, high: 7.65, foot: 1.2, down: 9.2, up: 11.3, ahead: -3.0, chin: 5.0, crown: 4.0 }),
  // over the ears, round the throat
  skull({ low: 6.2, high: 7.95, foot: 1.6, down: 9.8, up: 12.5, ahead: -5.2, chin: 5.4, crown: 1.0 }),
  skull({ low: 5.8, high: 7.8, foot: 0.8, down: 10.2, up: 12.6, ahead: -7.4, chin: 6.9, crown: -1.6 }),
  // the back of the head
  skull({ low: 5.6, high: 7.1, foot: -1.0, down: 9.6, up: 12.2, ahead: -9.0, chin: 8.2, crown: -4.2 }),
  skull({ low: 5.5, high: 6.2, foot: -3.6, down: 8.2, up: 9.8, ahead: -9.0, chin: 8.1, crown: -6.1 }),
  skull({ low: 5.5, high: 5.7, foot: -6.8, down: 6.4, up: 6.4, ahead: -7.8, chin: 6.7, crown: -6.4 }),
  // the neck
  (s, c) => [5.6 * s, -11.6 - 3.0 * c, -6.2 + 5.2 * c],
  (s, c) => [5.8 * s, -15.4 - 2.2 * c, -6.2 + 5.5 * c],
  (s, c) => [6.4 * s, -19.4 - 1.2 * c, -6.2 + 6.0 * c],
];

/** A ring that stands upright in its upper half and slopes toward the throat in its lower half.
 * `low` and `high`: half-widths under and over the ears; `foot`: height of its middle; `down`, `up`: reach under
 * and over it; `ahead`: its middle; `chin`, `crown`: how far its lowest and highest points lie ahead of that. */
function skull(o: {
  low: number;
  high: number;
  foot: number;
  down: number;
  up: number;
  ahead: number;
  chin: number;
  crown: number;
}): RingShape {
  return (s, c) => {
    if (c > 0) {
      return [s * (o.low + (o.high - o.low) * (1 - c) ** 2), o.foot - o.down * c, o.ahead + o.chin * c];
    }
    // fuller than an ellipse: the sides of a skull stand upright before they turn over
    const aside = Math.sign(s) * Math.abs(s) ** 0.76;
    const rise = (-c) ** 0.84;
    return [o.high * aside, o.foot + o.up * rise, o.ahead + o.crown * rise];
  };
}

function addRings(values: number[], triangles: number[], tags: number[]) {
  const angles = RIM.map((v) => Math.atan2(values[4 * v], -(values[4 * v + 1] - 0.6)));
  let previous: number[] = RIM;
  for (const shape of RING_SHAPES) {
    const ring: number[] = [];
    for (const angle of angles) {
      ring.push(values.length / 4);
      values.push(...shape(Math.sin(angle), Math.cos(angle)), 0);
    }
    for (let i = 0; i < ring.length; i++) {
      const j = (i + 1) % ring.length;
      triangles.push(previous[i], ring[i], previous[j], previous[j], ring[i], ring[j]);
      tags.push(MATERIAL.skin, MATERIAL.skin);
    }
    previous = ring;
  }
}
