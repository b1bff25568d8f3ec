/** One face's light fitted from nothing: the best places of a scan followed down, then what else may explain it better. */
import {
  type Candidate,
  type Expected,
  expectedNumbers,
  type Fitted,
  fitLight,
  type LightFit,
  scanLights,
} from "./light-fit.ts";
import { AT, type LightModel, makeLightModel } from "./light-model.ts";
import { type LightSamples, lightSamples } from "./light-samples.ts";
import { scanPairs, writeLit } from "./light-second.ts";
import { makeShadows } from "./light-shadows.ts";
import { shapeWays } from "./light-shape.ts";
import type { SeenFace } from "./types.ts";

/** How many places of the scan are followed down, and how far apart they lie, degrees. */
const FOLLOWED = 2;
const APART = 24;
/** Logarithm of the exponent by which such a file's tones are stretched. */
const LINEAR_FILE = Math.log(2.2);
const FAR_WORSE = 8;
/** Beyond any camera's own curve: 1.25 has a logarithm of 0.22. */
const STRETCHED = 0.25;
const LEAST_SHARE = 0.1;

const AMBIENT_OF_PAIR = 0.06;
/** How much better two lights must explain a picture than one does, in the cost's unit. */
const LARGE_GAIN = 15;

export function fitFace(face: SeenFace): Fitted | null {
  const samples = lightSamples(face);
  if (!samples) return null;
  const shadows = makeShadows(face, samples.positions);
  const shape = shapeWays(face, samples);
  const model = makeLightModel(samples, shape, shadows);
  const expected = expectedNumbers(samples, shape);
  const found = scanLights(samples, shadows, model.open);
  const from = (start: Candidate, second: number): LightFit => {
    const numbers = expected.mean.slice();
    numbers[AT.u] = start.u;
    numbers[AT.v] = start.v;
    numbers[AT.logAmbient] = start.logAmbient;
    numbers[AT.logGain] = start.logGain;
    numbers[AT.second] = second;
    return fitLight(samples, model, expected, numbers);
  };
  const fits = apart(found).map((start) => from(start, 0));
  if (fits.length === 0) return null;
  const best = asLinearFile(samples, model, expected, leastOf(fits));
  const pair = scanPairs(samples, shadows, model.open, found);
  if (pair) {
    writeLit(model.other, samples, shadows, pair.u, pair.v);
    const both = from({ ...pair.first, logAmbient: Math.log(AMBIENT_OF_PAIR) }, pair.share);
    if (best.cost - both.cost > LARGE_GAIN)
      return inTurn({ samples, shadows, model, fit: both, second: pair }, expected);
  }
  return { samples, shadows, model, fit: best, second: null };
}

/** The second light's direction is found with the first held, then the first's anew with the second held. */
function inTurn(fitted: Fitted, expected: Expected): Fitted {
  const { samples, shadows, model } = fitted;
  let { fit, second } = fitted;
  for (let round = 0; round < 3 && second; round++) {
    // once more where what began as the second turned out the stronger
    if (round === 2 && fit.numbers[AT.second] <= 1) break;
    const numbers = fit.numbers.slice();
    const held = { u: numbers[AT.u], v: numbers[AT.v] };
    const share = Math.max(LEAST_SHARE, numbers[AT.second]);
    writeLit(model.other, samples, shadows, held.u, held.v);
    numbers[AT.u] = second.u;
    numbers[AT.v] = second.v;
    // strengths are told by the light that is being found
    numbers[AT.second] = 1 / share;
    numbers[AT.logGain] += Math.exp(numbers[AT.logTone]) * Math.log(share);
    numbers[AT.logAmbient] -= Math.log(share);
    numbers[AT.shine] = Math.min(1, numbers[AT.shine]);
    fit = fitLight(samples, model, expected, numbers);
    second = held;
  }
  return { samples, shadows, model, fit, second };
}
function leastOf(fits: readonly LightFit[]): LightFit {
  return fits.reduce((best, fit) => (fit.cost < best.cost ? fit : best));
}

/** Files whose levels are light itself are read as if they followed the standard curve when nothing in them says so: then
 * all tones are stretched. Where even a fit that does not expect it stretches them beyond any camera's curve, the other
 * explanation is taken unless it is far worse. */
function asLinearFile(
  samples: LightSamples,
  model: LightModel,
  expected: Expected,
  plain: LightFit,
): LightFit {
  if (!isStretched(plain.numbers)) return plain;
  const stretched = { ...expected, mean: expected.mean.slice() };
  stretched.mean[AT.logTone] = LINEAR_FILE;
  const numbers = plain.numbers.slice();
  numbers[AT.logTone] = LINEAR_FILE;
  const fit = fitLight(samples, model, stretched, numbers);
  return fit.cost < plain.cost + FAR_WORSE ? fit : plain;
}

function apart(candidates: readonly Candidate[]): Candidate[] {
  const kept: Candidate[] = [];
  for (const c of candidates) {
    if (kept.every((k) => Math.hypot(k.u - c.u, k.v - c.v) > APART)) kept.push(c);
    if (kept.length === FOLLOWED) break;
  }
  return kept;
}

export function isStretched(numbers: Float64Array): boolean {
  return numbers[AT.logTone] > STRETCHED;
}
