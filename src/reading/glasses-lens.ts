/** A spectacle lens as a mirror, in the world: its surface, its outline, and where on it a point is mirrored. Places on
 * a lens are [toward the own left, up] of its vertex, metres. */
import type { Lens } from "../figure/index.ts";
import { dot, subtract } from "../math/index.ts";
import type { StagedPerson } from "../staging/index.ts";
import { alongHead, toWorld } from "./head-axes.ts";

export interface WorldLens extends Omit<Lens, "centre" | "ahead" | "left" | "up"> {
  readonly centre: readonly number[];
  readonly ahead: readonly number[];
  readonly left: readonly number[];
  readonly up: readonly number[];
}

export type LensPlace = readonly [number, number];

export function lensInWorld(
  lens: Lens,
  person: Pick<StagedPerson, "headRotation" | "headOffset">,
): WorldLens {
  return {
    ...lens,
    centre: toWorld(person, lens.centre),
    ahead: alongHead(person, lens.ahead),
    left: alongHead(person, lens.left),
    up: alongHead(person, lens.up),
  };
}

export function isOnLens(lens: WorldLens, [a, b]: LensPlace): boolean {
  const { halfWidth: w, halfHeight: h, cornerRadius: r } = lens;
  const across = Math.abs(a);
  const upward = Math.abs(b);
  if (across > w || upward > h) return false;
  return (
    Math.hypot(Math.max(0, across - (w - r)), Math.max(0, upward - (h - r))) <= Math.max(r, 0) || r === 0
  );
}

/** Of the outline, flat. */
export function lensArea({ halfWidth, halfHeight, cornerRadius }: WorldLens): number {
  return 4 * halfWidth * halfHeight - (4 - Math.PI) * cornerRadius * cornerRadius;
}

/** Point and unit normal of the front at a place, into the first and the last three of out. */
export function writeOnLens(lens: WorldLens, [a, b]: LensPlace, out: Float64Array) {
  const bend = 1 / lens.curveRadius;
  const sag = sagOf(lens, a, b);
  const { centre, ahead, left, up } = lens;
  for (let k = 0; k < 3; k++) {
    out[k] = centre[k] + a * left[k] + b * up[k] - sag * ahead[k];
    out[k + 3] = bend * (a * left[k] + b * up[k]) + (1 - bend * sag) * ahead[k];
  }
}

/** How far the front lies behind its vertex. */
function sagOf({ curveRadius: r }: WorldLens, a: number, b: number): number {
  if (r === Number.POSITIVE_INFINITY) return 0;
  const square = Math.min(a * a + b * b, r * r);
  return square / (r + Math.sqrt(r * r - square));
}

/** Where the straight way from one point to another goes through the front; it must not run along it. */
export function throughLens(lens: WorldLens, from: ArrayLike<number>, to: ArrayLike<number>): LensPlace {
  const way = subtract(to, from);
  const start = subtract(from, lens.centre);
  const height = dot(start, lens.ahead);
  const slope = dot(way, lens.ahead);
  let place: LensPlace = [0, 0];
  // a lens is so flat that each round leaves a few hundredths of the error
  for (let round = 0; round < 12; round++) {
    const t = (-sagOf(lens, place[0], place[1]) - height) / slope;
    place = [dot(start, lens.left) + t * dot(way, lens.left), dot(start, lens.up) + t * dot(way, lens.up)];
  }
  return place;
}

const MOST_ROUNDS = 20;
const DIFFERENCE = 1e-6;
/** Sines of angles: a hundred-millionth is far under what a lens is ground to. */
const SETTLED = 1e-8;
/** Further out than any lens, metres: the search stays within. */
const BEYOND = 0.12;

/** Where the front mirrors one point into another; null where it does so nowhere near or they stand behind it.
 * Units   metres
 * Accuracy 1e-8 of the law of reflection at any curve; glasses.test.ts [GL2]
 * Source  law of reflection, by Newton's method in the two places, from the flat mirror's own answer */
export function mirrorOnLens(
  lens: WorldLens,
  from: ArrayLike<number>,
  to: ArrayLike<number>,
): LensPlace | null {
  const behind = dot(subtract(to, lens.centre), lens.ahead);
  if (!(behind > 0) || !(dot(subtract(from, lens.centre), lens.ahead) > 0)) return null;
  const image = [0, 1, 2].map((k) => to[k] - 2 * behind * lens.ahead[k]);
  const flat = throughLens({ ...lens, curveRadius: Number.POSITIVE_INFINITY }, from, image);
  if (lens.curveRadius === Number.POSITIVE_INFINITY) return flat;
  let [a, b] = flat.map(within);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const [p, q] = unevenness(lens, from, to, a, b);
    if (Math.hypot(p, q) < SETTLED) return [a, b];
    const [pa, qa] = unevenness(lens, from, to, a + DIFFERENCE, b);
    const [pb, qb] = unevenness(lens, from, to, a, b + DIFFERENCE);
    const [m, n, o, r] = [pa - p, pb - p, qa - q, qb - q];
    const scale = DIFFERENCE / (m * r - n * o);
    const next = [within(a - scale * (r * p - n * q)), within(b - scale * (m * q - o * p))];
    [a, b] = next;
  }
  return null;
}

function within(x: number): number {
  return Math.max(-BEYOND, Math.min(BEYOND, x));
}

/** Both unit ways added up, along the front: nothing where they lean alike. */
function unevenness(
  lens: WorldLens,
  from: ArrayLike<number>,
  to: ArrayLike<number>,
  a: number,
  b: number,
): [number, number] {
  const { centre, ahead, left, up } = lens;
  const sag = sagOf(lens, a, b);
  const x = centre[0] + a * left[0] + b * up[0] - sag * ahead[0];
  const y = centre[1] + a * left[1] + b * up[1] - sag * ahead[1];
  const z = centre[2] + a * left[2] + b * up[2] - sag * ahead[2];
  const p = 1 / Math.sqrt((from[0] - x) ** 2 + (from[1] - y) ** 2 + (from[2] - z) ** 2);
  const q = 1 / Math.sqrt((to[0] - x) ** 2 + (to[1] - y) ** 2 + (to[2] - z) ** 2);
  const sx = p * (from[0] - x) + q * (to[0] - x);
  const sy = p * (from[1] - y) + q * (to[1] - y);
  const sz = p * (from[2] - z) + q * (to[2] - z);
  // the front slopes back from its vertex, the more the further out
  const along = (sx * ahead[0] + sy * ahead[1] + sz * ahead[2]) / (lens.curveRadius - sag);
  return [
    sx * left[0] + sy * left[1] + sz * left[2] - a * along,
    sx * up[0] + sy * up[1] + sz * up[2] - b * along,
  ];
}
