/** Whether a second light explains far more of a picture than one does. Fill near the lens looks like light from all
 * round, and its direction is not to be had: only lights well apart from the first are looked for. */
import { type Candidate, quickLossOf, WORTH } from "./light-fit.ts";
import type { LightSamples } from "./light-samples.ts";
import { REACH, type Shadows, STEP, writeDirection } from "./light-shadows.ts";
import { quickLog } from "./light-solve.ts";

/** Degrees from the first light, and from the lens. */
const APART = 65;
const OFF_LENS = 35;
const SHARES = [0.3, 0.8];
const AMBIENT = 0.06;
/** Even light that one light alone is tried with. */
const AMBIENTS_ALONE = [0.02, AMBIENT, 0.2, 0.6];
/** Less than so much better, in the cost's unit, and a pair is not worth following. */
const HOPEFUL = 1;
/** First lights that are tried with a second one: so many of the best alone, and a grid of all that are not far off. */
const FIRST = 6;
const FIRST_APART = 16;
const FIRST_REACH = 80;
/** Samples that are asked in the scan. */
const EVERY = 4;
/** Steps of the grid between second lights: their shadows hardly matter where the first one shines. */
const GRID = 4;
/** Spread of what the typical face leaves over, log luminance. */
const LEFT = 0.2;
const DEGREE = Math.PI / 180;

export interface Pair {
  readonly first: Candidate;
  readonly u: number;
  readonly v: number;
  readonly share: number;
  /** as of the scan's candidates, but by `quickLossOf` */
  readonly loss: number;
}

/** The pair of lights that fits the typical face best; null where one does nearly as well. */
export function scanPairs(
  samples: LightSamples,
  shadows: Shadows,
  open: Float64Array,
  candidates: readonly Candidate[],
): Pair | null {
  const { count, seen, weights, logReflectance } = samples;
  const lit = new Float64Array(count);
  const log = new Float64Array(count);
  const lossOfPair = (other: Float64Array, share: number, ambient: number): number => {
    let mean = 0;
    let weight = 0;
    for (let i = 0; i < count; i += EVERY) {
      log[i] = logReflectance[i] + quickLog(lit[i] + share * other[i] + ambient * open[i] + 0.03);
      mean += weights[i] * (seen[i] - log[i]);
      weight += weights[i];
    }
    mean /= weight;
    let loss = 0;
    for (let i = 0; i < count; i += EVERY)
      loss += weights[i] * quickLossOf(seen[i] - log[i] - mean, LEFT * LEFT);
    return loss / weight;
  };
  const seconds = secondsOf(samples, shadows);
  let best: Pair | null = null;
  let alone = Number.POSITIVE_INFINITY;
  for (const first of spread(candidates)) {
    writeLit(lit, samples, shadows, first.u, first.v);
    for (const ambient of AMBIENTS_ALONE) alone = Math.min(alone, lossOfPair(lit, 0, ambient));
    for (const second of seconds) {
      if (angle(first, second) < APART * DEGREE) continue;
      for (const share of SHARES) {
        const loss = lossOfPair(second.lit, share, AMBIENT);
        if (!best || loss < best.loss) best = { first, u: second.u, v: second.v, share, loss };
      }
    }
  }
  return best && WORTH * (alone - best.loss) > HOPEFUL ? best : null;
}

/** Cosine and shadow of a far light, per sample. */
export function writeLit(
  lit: Float64Array,
  { count, normals }: LightSamples,
  shadows: Shadows,
  u: number,
  v: number,
): void {
  const light = new Float64Array(3);
  writeDirection(light, u, v);
  shadows.writeVisible(lit, u, v);
  for (let i = 0, n = 0; i < count; i++, n += 3)
    lit[i] *= Math.max(0, normals[n] * light[0] + normals[n + 1] * light[1] + normals[n + 2] * light[2]);
}

function secondsOf(samples: LightSamples, shadows: Shadows) {
  const out: { u: number; v: number; lit: Float64Array }[] = [];
  for (let v = -REACH; v <= REACH; v += GRID * STEP)
    for (let u = -REACH; u <= REACH; u += GRID * STEP) {
      const off = Math.hypot(u, v);
      if (off > REACH - STEP || off < OFF_LENS) continue;
      const lit = new Float64Array(samples.count);
      writeLit(lit, samples, shadows, u, v);
      out.push({ u, v, lit });
    }
  return out;
}

function spread(candidates: readonly Candidate[]): Candidate[] {
  const kept: Candidate[] = [];
  for (const c of candidates) {
    if (kept.every((k) => Math.hypot(k.u - c.u, k.v - c.v) > FIRST_APART)) kept.push(c);
    if (kept.length === FIRST) break;
  }
  const onGrid = ({ u, v }: Candidate) =>
    (u + REACH) % (GRID * STEP) === 0 && (v + REACH) % (GRID * STEP) === 0 && Math.hypot(u, v) < FIRST_REACH;
  const seen = new Set(kept.map(({ u, v }) => `${u} ${v}`));
  for (const c of candidates) {
    const key = `${c.u} ${c.v}`;
    if (!onGrid(c) || seen.has(key)) continue;
    seen.add(key);
    kept.push(c);
  }
  return kept;
}

function angle(a: { u: number; v: number }, b: { u: number; v: number }): number {
  const [p, q] = [new Float64Array(3), new Float64Array(3)];
  writeDirection(p, a.u, a.v);
  writeDirection(q, b.u, b.v);
  return Math.acos(Math.max(-1, Math.min(1, p[0] * q[0] + p[1] * q[1] + p[2] * q[2])));
}
