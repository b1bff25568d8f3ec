/** What skin is coloured like, over the mean head: brows, lashes, lips, beard, make-up, blotches. Factors on the
 * reflectance that a plan gives to skin as a whole; places in head axes of the mean head, centimetres. */
import { buildHead } from "../src/figure/index.ts";
import type { Pcg32 } from "../src/math/index.ts";
import { normal } from "./photo-truth-heads.ts";

type Line = readonly (readonly [number, number])[];

/** Of the own left, [aside, up]: middle of the brow from the nose outward, edges of the lids. Numbers of mask points. */
const points = buildHead().mesh.positions;
const place = (v: number): [number, number] => [100 * points[3 * v + 1], 100 * points[3 * v + 2]];
const between = (a: number, b: number): [number, number] => {
  const [p, q] = [place(a), place(b)];
  return [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
};
const BROW: Line = [
  between(336, 285),
  between(296, 295),
  between(334, 282),
  between(293, 283),
  between(300, 276),
];
const UPPER_LID: Line = [362, 398, 384, 385, 386, 387, 388, 466, 263].map(place);
const LOWER_LID: Line = [380, 374, 373, 390, 249, 263].map(place);

/** Edges of the lips, and how far they fade. */
const UPPER_EDGE: Line = [0, 267, 269, 270, 409, 291].map(place);
const LOWER_EDGE: Line = [17, 314, 405, 321, 375, 291].map(place);
const LIP_FADE = 0.1;

export interface SkinMap {
  /** rgb factors on skin at a place of the mean head */
  write(x: number, y: number, z: number, out: Float64Array): void;
  /** on the whites of the eyes */
  readonly sclera: number;
}

/** A person's own, the same in all frames. */
export function drawSkin(rng: Pcg32, seed: number): SkinMap {
  const uniform = (from: number, to: number) => from + (to - from) * rng.next();
  const brow = {
    factor: uniform(0.12, 0.6),
    half: uniform(0.28, 0.5),
    up: 0.12 * normal(rng),
    arch: 0.1 * normal(rng),
    uneven: 0.06 * normal(rng),
  };
  const lash = uniform(0.35, 0.8);
  const lowerLash = uniform(0.75, 1);
  const lidTone = uniform(0.75, 1.02);
  const underEye = uniform(0.72, 1);
  const lip = uniform(0.55, 0.95);
  const lipRed = uniform(0.15, 0.5);
  const isBearded = rng.next() < 0.45;
  const beard = isBearded ? uniform(0.15, 0.6) : 0;
  const beardLine = uniform(-3.8, -2.6);
  const forehead = 1 + 0.05 * normal(rng);
  const nose = 1 - 0.05 * Math.abs(normal(rng));
  const temples = 1 - 0.06 * Math.abs(normal(rng));
  const blush = rng.next() < 0.4 ? uniform(0.04, 0.18) : 0;
  const blotch = [uniform(0.02, 0.06), uniform(0.015, 0.05), uniform(0.01, 0.04)];
  const spots = Array.from({ length: Math.floor(8 * rng.next() ** 2) }, () => ({
    aside: uniform(-6, 6),
    up: uniform(-8, 6),
    size: uniform(0.07, 0.2),
    factor: uniform(0.35, 0.8),
  }));
  return {
    sclera: uniform(0.45, 0.85),
    write(x, y, z, out) {
      const aside = Math.abs(y);
      let f = 1;
      // colour of blood and pigment: takes more of green and blue than of red
      let red = 0;
      const front = step(1.5, 5, x);
      // brows
      const along = Math.min(1, Math.max(0, (aside - 1.3) / 4));
      const lift = brow.up + brow.arch * Math.sin(Math.PI * along) + (y > 0 ? brow.uneven : 0);
      const offBrow = distance(BROW, aside, z - lift);
      const half = brow.half * (1 - 0.55 * along ** 2);
      const hairs = 0.75 + 0.5 * noise(9 * aside + 4 * z, 3 * z, seed + 7);
      f *= 1 - (1 - brow.factor) * (1 - step(0.55 * half, 1.25 * half, offBrow)) * Math.min(1, hairs) * front;
      // lashes and lids
      const offLash = distance(UPPER_LID, aside, z);
      f *= 1 - (1 - lash) * (1 - step(0.05, 0.17, offLash)) * front;
      f *= 1 - (1 - lowerLash) * (1 - step(0.04, 0.14, distance(LOWER_LID, aside, z))) * front;
      f *= 1 - (1 - lidTone) * Math.exp(-(((aside - 3.1) / 1.4) ** 2) - ((z - 2.7) / 0.7) ** 2) * front;
      f *= 1 - (1 - underEye) * Math.exp(-(((aside - 2.8) / 1.3) ** 2) - ((z - 0.9) / 0.5) ** 2) * front;
      const onLip = lipShare(aside, z) * step(7, 8, x);
      f *= 1 - (1 - lip) * onLip;
      red += lipRed * onLip;
      if (beard > 0) {
        const onJaw =
          step(beardLine + 0.8 * step(3, 6, aside), beardLine - 1.6 - 0.4 * aside, z) *
          step(-11, -9.3, z + 0.25 * aside);
        const moustache =
          Math.exp(-((aside / 2.1) ** 2) * 1.2 - ((z + 3.2) / 0.62) ** 2 * 1.2) * step(8.4, 9.2, x);
        const grown = Math.max(onJaw * step(-1, 1.5, x), moustache) * (1 - onLip);
        f *= 1 - beard * grown * (0.75 + 0.5 * noise(6 * y, 6 * z, seed + 11));
      }
      f *= 1 + (forehead - 1) * step(3.5, 5.5, z);
      const onNose = Math.exp(-((aside / 1.6) ** 2) - ((z + 1.2) / 1.6) ** 2);
      f *= 1 - (1 - nose) * onNose;
      red += 1.2 * (1 - nose) * onNose;
      f *= 1 - (1 - temples) * step(4, 6.5, aside);
      const onCheek = Math.exp(-(((aside - 4.6) / 1.5) ** 2) - ((z + 0.8) / 1.3) ** 2);
      f *= 1 - 0.6 * blush * onCheek;
      red += blush * onCheek;
      f *= 1 + blotch[0] * swing(y / 2.6, z / 2.6, x / 2.6, seed);
      f *= 1 + blotch[1] * swing(y / 0.9, z / 0.9, x / 0.9, seed + 1);
      f *= 1 + blotch[2] * swing(y / 0.3, z / 0.3, x / 0.3, seed + 2);
      for (const spot of spots) {
        const off = Math.sqrt((y - spot.aside) ** 2 + (z - spot.up) ** 2);
        f *= 1 - (1 - spot.factor) * (1 - step(0.6 * spot.size, 1.3 * spot.size, off)) * front;
      }
      out[0] = f * (1 + 0.3 * red);
      out[1] = f * (1 - 0.5 * red);
      out[2] = f * (1 - 0.5 * red);
    },
  };
}

/** Rises smoothly from 0 to 1; falls where `to` is the smaller. */
function step(from: number, to: number, x: number): number {
  const t = Math.min(1, Math.max(0, (x - from) / (to - from)));
  return t * t * (3 - 2 * t);
}

/** 1 on the lips, 0 off them. */
function lipShare(aside: number, z: number): number {
  const top = heightAt(UPPER_EDGE, aside);
  const bottom = heightAt(LOWER_EDGE, aside);
  const inside = Math.min(top - z, z - bottom);
  return step(-LIP_FADE, LIP_FADE, inside) * step(2.75, 2.3, aside);
}

/** Of a line that runs outward. */
function heightAt(line: Line, aside: number): number {
  for (let i = 1; i < line.length; i++) {
    const [ax, ay] = line[i - 1];
    const [bx, by] = line[i];
    if (aside <= bx) return ay + ((by - ay) * Math.max(0, aside - ax)) / (bx - ax);
  }
  return line[line.length - 1][1];
}

function distance(line: Line, x: number, y: number): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 1; i < line.length; i++) {
    const [ax, ay] = line[i - 1];
    const dx = line[i][0] - ax;
    const dy = line[i][1] - ay;
    const t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
    best = Math.min(best, (x - ax - t * dx) ** 2 + (y - ay - t * dy) ** 2);
  }
  return Math.sqrt(best);
}

/** Of whole numbers, 0 to 1. */
function hash(i: number, j: number, k: number): number {
  let h = (Math.imul(i, 374761393) + Math.imul(j, 668265263) + Math.imul(k, 1274126177)) | 0;
  h = Math.imul(h ^ (h >>> 13), 1103515245);
  return ((h ^ (h >>> 16)) >>> 0) / 2 ** 32;
}

/** Smooth, 0 to 1, over a plane. */
function noise(x: number, y: number, seed: number): number {
  const i = Math.floor(x);
  const j = Math.floor(y);
  const u = step(0, 1, x - i);
  const v = step(0, 1, y - j);
  const low = hash(i, j, seed) * (1 - u) + hash(i + 1, j, seed) * u;
  const high = hash(i, j + 1, seed) * (1 - u) + hash(i + 1, j + 1, seed) * u;
  return low * (1 - v) + high * v;
}

/** Smooth, -2 to 2 with a mean of 0 and a standard deviation near 1, in space. */
function swing(x: number, y: number, z: number, seed: number): number {
  return 3 * (noise(x + 0.31 * z, y, seed) + noise(z + 0.17 * y, x - 0.23 * y, seed + 100) - 1);
}
