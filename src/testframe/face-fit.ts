/** Shares of known parts in what was measured, none below nothing. */

const ROUNDS = 6;
const SWEEPS = 60;
/** Of the typical residual: what lies farther off counts less and less (Tukey's biweight). */
const CUT = 4.685;
/** Mean absolute deviation of a normal spread, in its standard deviations: 1 / 0.6745. */
const NORMAL = 1.4826;

/** Least squares with weights, robust, non-negative.
 * Shape   parts: one number a sample each; weights 0 leaves a sample out
 * Source  iteratively reweighted least squares with Tukey's biweight (Huber and Ronchetti 2009); coordinate descent */
export function fitShares(
  parts: readonly Float64Array[],
  measured: Float64Array,
  weights: Float64Array,
): Float64Array {
  const shares = new Float64Array(parts.length);
  const robust = weights.slice();
  for (let round = 0; round < ROUNDS; round++) {
    descend(parts, measured, robust, shares);
    const off: number[] = [];
    const residual = (i: number) => parts.reduce((sum, part, k) => sum + shares[k] * part[i], -measured[i]);
    for (let i = 0; i < measured.length; i++) if (weights[i] > 0) off.push(Math.abs(residual(i)));
    if (off.length === 0) break;
    off.sort((a, b) => a - b);
    const cut = CUT * NORMAL * off[off.length >> 1];
    if (!(cut > 0)) break;
    for (let i = 0; i < measured.length; i++) {
      const u = weights[i] > 0 ? residual(i) / cut : 1;
      robust[i] = Math.abs(u) < 1 ? weights[i] * (1 - u * u) ** 2 : 0;
    }
  }
  return shares;
}

function descend(
  parts: readonly Float64Array[],
  measured: Float64Array,
  weights: Float64Array,
  shares: Float64Array,
) {
  const n = parts.length;
  const square = new Float64Array(n * n);
  const right = new Float64Array(n);
  for (let i = 0; i < measured.length; i++) {
    if (!(weights[i] > 0)) continue;
    for (let a = 0; a < n; a++) {
      right[a] += weights[i] * parts[a][i] * measured[i];
      for (let b = 0; b < n; b++) square[n * a + b] += weights[i] * parts[a][i] * parts[b][i];
    }
  }
  for (let sweep = 0; sweep < SWEEPS; sweep++)
    for (let a = 0; a < n; a++) {
      if (!(square[n * a + a] > 0)) continue;
      let rest = right[a];
      for (let b = 0; b < n; b++) if (b !== a) rest -= square[n * a + b] * shares[b];
      shares[a] = Math.max(0, rest / square[n * a + a]);
    }
}
