/** A picture of the canonical face under one far lamp, painted triangle by triangle: for tests of what reads it. */
import { CANONICAL_VERTICES } from "../../figure/index.ts";
import { makeShadows, writePlane } from "../light-shadows.ts";
import { seeFace } from "../surface.ts";
import { type FoundFace, type LinearPicture, POINTS } from "../types.ts";

export interface Lamp {
  /** degrees, from the camera axis */
  readonly azimuth: number;
  readonly elevation: number;
  /** even light from all round, in the lamp's own on a surface squarely facing it */
  readonly ambient?: number;
  /** exponent of the picture's tones: 1 as light, 2.2 as a file of bare levels is read */
  readonly tone?: number;
  /** of the skin: red, green, blue */
  readonly tint?: readonly [number, number, number];
  /** of the whole picture */
  readonly gain?: number;
  /** by how much skin differs from place to place, log luminance */
  readonly spots?: number;
}

export const WIDTH = 168;
export const HEIGHT = 192;
const PIXELS_PER_CM = 9.6;
const DEGREE = Math.PI / 180;

export function canonicalFound(): FoundFace {
  const points = new Float32Array(3 * POINTS);
  for (let v = 0; v < CANONICAL_VERTICES.length / 3; v++) {
    points[3 * v] = WIDTH / 2 + PIXELS_PER_CM * CANONICAL_VERTICES[3 * v];
    points[3 * v + 1] = HEIGHT / 2 - PIXELS_PER_CM * CANONICAL_VERTICES[3 * v + 1];
    points[3 * v + 2] = -PIXELS_PER_CM * CANONICAL_VERTICES[3 * v + 2];
  }
  return { points, box: { left: 10, top: 12, width: 148, height: 174 }, score: 1, isLifted: false };
}

export function direction({ azimuth, elevation }: { azimuth: number; elevation: number }): number[] {
  const level = Math.cos(elevation * DEGREE);
  return [
    level * Math.sin(azimuth * DEGREE),
    Math.sin(elevation * DEGREE),
    level * Math.cos(azimuth * DEGREE),
  ];
}

export function lampPicture(lamp: Lamp): LinearPicture {
  const found = canonicalFound();
  const { ambient = 0.05, tone = 1, tint = [1, 1, 1], gain = 1, spots = 0 } = lamp;
  const rgb = Float32Array.from({ length: 3 * WIDTH * HEIGHT }, (_, i) => 0.1 * gain * tint[i % 3]);
  const face = seeFace({ width: WIDTH, height: HEIGHT, rgb }, null, found);
  const { count, normals, pixels, triangles, reflectance, positions } = face;
  const [lx, ly, lz] = direction(lamp);
  const visible = new Float64Array(count);
  const flat = new Float64Array(2);
  writePlane(flat, lx, ly, lz);
  makeShadows(face, positions).writeVisible(visible, flat[0], flat[1]);
  const shade = new Float64Array(count);
  for (let v = 0; v < count; v++) {
    const cosine = normals[3 * v] * lx + normals[3 * v + 1] * ly + normals[3 * v + 2] * lz;
    const [x, y] = [positions[3 * v], positions[3 * v + 1]];
    const skin = reflectance[v] * Math.exp(spots * Math.sin(160 * x + 1) * Math.sin(210 * y));
    shade[v] = 0.6 * skin * (Math.max(0, cosine) * visible[v] + ambient);
  }
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t], triangles[t + 1], triangles[t + 2]];
    const xs = [a, b, c].map((v) => pixels[2 * v]);
    const ys = [a, b, c].map((v) => pixels[2 * v + 1]);
    const mean = gain * ((shade[a] + shade[b] + shade[c]) / 3) ** tone;
    for (let j = Math.floor(Math.min(...ys)); j <= Math.max(...ys); j++)
      for (let i = Math.floor(Math.min(...xs)); i <= Math.max(...xs); i++) {
        if (i < 0 || j < 0 || i >= WIDTH || j >= HEIGHT) continue;
        for (let k = 0; k < 3; k++) rgb[3 * (j * WIDTH + i) + k] = tint[k] * mean;
      }
  }
  return { width: WIDTH, height: HEIGHT, rgb };
}
