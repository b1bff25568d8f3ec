/** What a light is fitted to: places of the face, evenly spread, with what the picture shows there. */
import { faceTemplate } from "./surface-mesh.ts";
import { rise } from "./surface-skin.ts";
import type { SeenFace } from "./types.ts";

/** The first points of a seen face are those of the mesh one step coarser: enough to read a light by. */
export const SAMPLES = 1833;
/** Below this a place says too little to be asked. */
const LEAST_WEIGHT = 0.03;
/** Of the luminance that the scale is taken from: bright skin, but not its shine. */
const BRIGHT = 0.9;
/** Light at so small a share of bright skin tells shadow from shadow no more: stray light, noise, what is fitted wrong. */
export const FLOOR = 0.04;

export interface LightSamples {
  readonly count: number;
  /** point of the seen face */
  readonly vertex: Uint32Array;
  readonly positions: Float64Array;
  readonly normals: Float64Array;
  /** log of luminance over that of bright skin plus FLOOR */
  readonly seen: Float64Array;
  readonly logReflectance: Float64Array;
  /** trust x area, summing to 1 */
  readonly weights: Float64Array;
  /** luminance of bright skin */
  readonly bright: number;
  /** one row of `count` per way in which people's skin differs, and the standard deviation of each in log luminance */
  readonly ways: readonly Float64Array[];
  readonly wayDeviations: readonly number[];
}

/** Ways in which one face's skin is lighter or darker than the typical one, by canonical place (cm), with how much
 * (log luminance). Common practice, no source: wide enough for a dark beard, bare or made-up lips, a shiny forehead. */
const WAYS: readonly (readonly [number, (x: number, y: number, z: number) => number])[] = [
  [0.2, (x, y) => rise(-3.4, -5.4, y + 0.2 * Math.max(0, Math.abs(x) - 2.5))],
  [0.1, (x, y) => rise(3.6, 5.4, y) * rise(7, 4, Math.abs(x))],
  [0.1, (x, y, z) => bell(x / 1.5) * bell((y + 0.8) / 2) * rise(4, 5.5, z)],
  [0.15, (x, y) => bell((Math.abs(x) - 3.1) / 1.6) * bell((y - 2.4) / 1.2)],
  [0.25, (x, y) => bell(x / 2.2) * bell((y + 4.3) / 0.8)],
  [0.12, (x) => rise(4.8, 6.6, Math.abs(x))],
  [0.1, (x, y) => bell(x / 2) * bell((y + 2.8) / 0.7)],
  [0.08, (x, y) => bell(x / 2.4) * bell((y + 7) / 1.3)],
  [0.08, (x, y) => bell((Math.abs(x) - 4.2) / 1.5) * bell((y + 0.6) / 1.5)],
  [0.06, (_, y) => y / 8],
  [0.04, (x) => x / 7],
];

function bell(t: number): number {
  return Math.exp(-t * t);
}

/** Null where too little of the face is to be seen. */
export function lightSamples(face: SeenFace): LightSamples | null {
  const { places } = faceTemplate();
  const kept: number[] = [];
  for (let v = 0; v < SAMPLES; v++) if (face.weights[v] > LEAST_WEIGHT) kept.push(v);
  const count = kept.length;
  if (count < LEAST_SAMPLES) return null;
  const bright = brightSkin(face, kept);
  if (!(bright > 0)) return null;
  const positions = new Float64Array(3 * count);
  const normals = new Float64Array(3 * count);
  const seen = new Float64Array(count);
  const logReflectance = new Float64Array(count);
  const weights = new Float64Array(count);
  const ways = WAYS.map(() => new Float64Array(count));
  const middle = kept.reduce((sum, v) => sum + face.areas[v], 0) / count;
  let total = 0;
  kept.forEach((v, i) => {
    for (let k = 0; k < 3; k++) {
      positions[3 * i + k] = face.positions[3 * v + k];
      normals[3 * i + k] = face.normals[3 * v + k];
    }
    seen[i] = Math.log(Math.max(0, face.luminance[v]) / bright + FLOOR);
    logReflectance[i] = Math.log(face.reflectance[v]);
    weights[i] = face.weights[v] * Math.min(3, face.areas[v] / middle);
    total += weights[i];
    const at = 3 * v;
    ways.forEach((way, k) => {
      way[i] = WAYS[k][1](places[at], places[at + 1], places[at + 2]);
    });
  });
  for (let i = 0; i < count; i++) weights[i] /= total;
  return {
    count,
    vertex: Uint32Array.from(kept),
    positions,
    normals,
    seen,
    logReflectance,
    weights,
    bright,
    ways,
    wayDeviations: WAYS.map(([deviation]) => deviation),
  };
}

const LEAST_SAMPLES = 150;

function brightSkin(face: SeenFace, kept: readonly number[]): number {
  const sorted = Float64Array.from(kept, (v) => face.luminance[v] / face.reflectance[v]).sort();
  return sorted[Math.floor(BRIGHT * (sorted.length - 1))];
}
