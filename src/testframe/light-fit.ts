/** Finding the light that best explains a face: a scan over the sphere, then descent from the best places. */
import { AT, type LightModel, SKY_STEP } from "./light-model.ts";
import type { LightSamples } from "./light-samples.ts";
import { REACH, type Shadows, STEP, writeDirection } from "./light-shadows.ts";
import type { ShapeWays } from "./light-shape.ts";
import { quickLog, solveSymmetric, writeNormalMatrix } from "./light-solve.ts";

/** Samples lie so close that they err together: they are worth about so many that do not. */
export const WORTH = 150;
/** Degrees of freedom of Student's t: skin has spots, hair and shine that no model has. */
const TAIL = 4;
const ROUNDS = 14;
const SETTLED = 1e-4;

/** What is expected before a picture is looked at, by place in the numbers; infinite: anything. */
export interface Expected {
  readonly mean: Float64Array;
  readonly deviation: Float64Array;
}

export interface LightFit {
  readonly numbers: Float64Array;
  /** minus log likelihood and prior, up to a constant */
  readonly cost: number;
  /** covariance of u, v, degrees squared: uu, uv, vv */
  readonly spread: readonly [number, number, number];
}

export function expectedNumbers(samples: LightSamples, shape: ShapeWays): Expected {
  const skinAt = AT.shape + shape.across.length;
  const driftAt = skinAt + samples.ways.length;
  const size = driftAt + shape.drifts.length;
  const mean = new Float64Array(size);
  const deviation = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
  const put = (at: number, m: number, d: number) => {
    mean[at] = m;
    deviation[at] = d;
  };
  put(AT.logAmbient, Math.log(0.07), 1.2);
  put(AT.logTone, 0, 0.12);
  put(AT.shine, 0.6, 0.5);
  put(AT.second, 0, 0.7);
  shape.deviations.forEach((d, k) => {
    put(AT.shape + k, 0, d);
  });
  samples.wayDeviations.forEach((d, k) => {
    put(skinAt + k, 0, d);
  });
  for (let k = driftAt; k < size; k++) put(k, 0, 1);
  return { mean, deviation };
}

/** A fit with what it was made of. */
export interface Fitted {
  readonly samples: LightSamples;
  readonly shadows: Shadows;
  readonly model: LightModel;
  readonly fit: LightFit;
  /** where a second light stands that it was made with */
  readonly second: { readonly u: number; readonly v: number } | null;
}

/** Loss of what is left over: Student's t. */
export function lossOf(left: number, variance: number): number {
  return 0.5 * (TAIL + 1) * Math.log(1 + (left * left) / (TAIL * variance));
}

/** The same between the entries of a table, to rank by. */
export function quickLossOf(left: number, variance: number): number {
  return 0.5 * (TAIL + 1) * quickLog(1 + (left * left) / (TAIL * variance));
}

/** A node of the scan and how badly it fits. */
export interface Candidate {
  readonly u: number;
  readonly v: number;
  readonly logAmbient: number;
  readonly logGain: number;
  readonly cost: number;
}

const SCAN_AMBIENTS = [0.02, 0.1, 0.4, 1.5];
const SCAN_STEP = 2 * STEP;

/** Every direction of a coarse grid under the typical face, best first. */
export function scanLights(samples: LightSamples, shadows: Shadows, open: Float64Array): Candidate[] {
  const { count, normals, seen, weights, logReflectance } = samples;
  const visible = new Float64Array(count);
  const light = new Float64Array(3);
  const lit = new Float64Array(count);
  const found: Candidate[] = [];
  const left = new Float64Array(count);
  for (let v = -REACH; v <= REACH; v += SCAN_STEP)
    for (let u = -REACH; u <= REACH; u += SCAN_STEP) {
      if (Math.hypot(u, v) > REACH - STEP) continue;
      shadows.writeVisible(visible, u, v);
      writeDirection(light, u, v);
      const [lx, ly, lz] = light;
      let top = 0;
      for (let i = 0, n = 0; i < count; i++, n += 3) {
        const c = normals[n] * lx + normals[n + 1] * ly + normals[n + 2] * lz;
        lit[i] = c > 0 ? visible[i] * c : 0;
        if (lit[i] > top) top = lit[i];
      }
      if (top < 0.05) continue;
      for (const ambient of SCAN_AMBIENTS) {
        let sum = 0;
        for (let i = 0; i < count; i++) {
          left[i] = seen[i] - logReflectance[i] - quickLog(lit[i] + ambient * open[i] + 0.03);
          sum += weights[i] * left[i];
        }
        let cost = 0;
        for (let i = 0; i < count; i++) {
          const e = left[i] - sum;
          cost += weights[i] * quickLog(1 + (e * e) / (TAIL * 0.04));
        }
        found.push({ u, v, logAmbient: Math.log(ambient), logGain: sum, cost });
      }
    }
  return found.sort((a, b) => a.cost - b.cost);
}

/** Levenberg and Marquardt's descent with Student's t for what is left over. */
export function fitLight(
  samples: LightSamples,
  model: LightModel,
  expected: Expected,
  start: Float64Array,
): LightFit {
  const { count, seen, weights } = samples;
  const { size, shown, variance, slopes } = model;
  let numbers = start.slice();
  const trial = new Float64Array(size);
  const matrix = new Float64Array(size * size);
  const damped = new Float64Array(size * size);
  const pull = new Float64Array(size);
  const step = new Float64Array(size);
  const pulls = new Float64Array(count);
  const left = new Float64Array(count);
  const costOf = (q: Float64Array): number => {
    model.write(q);
    let cost = 0;
    for (let i = 0; i < count; i++) {
      cost += weights[i] * (lossOf(seen[i] - shown[i], variance[i]) + 0.5 * Math.log(variance[i]));
    }
    cost *= WORTH;
    for (let k = 0; k < size; k++) cost += 0.5 * ((q[k] - expected.mean[k]) / expected.deviation[k]) ** 2;
    return cost;
  };
  let cost = costOf(numbers);
  let damping = 1e-2;
  for (let round = 0; round < ROUNDS; round++) {
    model.write(numbers);
    model.writeSlopes(numbers);
    for (let i = 0; i < count; i++) {
      const e = seen[i] - shown[i];
      left[i] = e;
      pulls[i] = (WORTH * weights[i] * (TAIL + 1)) / (TAIL * variance[i] + e * e);
    }
    writeNormalMatrix(matrix, pull, slopes, pulls, left);
    for (let a = 0; a < size; a++) {
      const certain = 1 / expected.deviation[a] ** 2;
      pull[a] -= certain * (numbers[a] - expected.mean[a]);
      matrix[a * size + a] += certain + 1e-9;
    }
    let gained = 0;
    for (let tries = 0; tries < 4; tries++) {
      damped.set(matrix);
      for (let k = 0; k < size; k++) damped[k * size + k] *= 1 + damping;
      solveSymmetric(damped, pull, step, size);
      for (let k = 0; k < size; k++) trial[k] = numbers[k] + step[k];
      hold(trial, numbers);
      const next = costOf(trial);
      if (next < cost) {
        gained = cost - next;
        cost = next;
        numbers = trial.slice();
        damping = Math.max(1e-4, damping / 4);
        break;
      }
      damping *= 8;
    }
    if (gained < SETTLED) break;
  }
  return { numbers, cost, spread: spreadOf(matrix, size) };
}

/** Not further than the grid goes, nor in one step further than slopes can be believed. */
function hold(q: Float64Array, from: Float64Array) {
  q[AT.shine] = Math.max(0, q[AT.shine]);
  q[AT.second] = Math.max(0, q[AT.second]);
  q[AT.logAmbient] = Math.min(3, Math.max(-7, q[AT.logAmbient]));
  q[AT.logTone] = Math.min(1.2, Math.max(-1.2, q[AT.logTone]));
  const away = Math.hypot(q[AT.u] - from[AT.u], q[AT.v] - from[AT.v]);
  const share = Math.min(1, SKY_STEP / Math.max(away, 1e-9));
  q[AT.u] = from[AT.u] + share * (q[AT.u] - from[AT.u]);
  q[AT.v] = from[AT.v] + share * (q[AT.v] - from[AT.v]);
  const angle = Math.hypot(q[AT.u], q[AT.v]);
  const within = Math.min(1, REACH / Math.max(angle, 1e-9));
  q[AT.u] *= within;
  q[AT.v] *= within;
}

function spreadOf(matrix: Float64Array, size: number): [number, number, number] {
  const unit = new Float64Array(size);
  const column = new Float64Array(size);
  unit[AT.u] = 1;
  solveSymmetric(matrix, unit, column, size);
  const [uu, uv] = [column[AT.u], column[AT.v]];
  unit[AT.u] = 0;
  unit[AT.v] = 1;
  solveSymmetric(matrix, unit, column, size);
  return [uu, uv, column[AT.v]];
}
