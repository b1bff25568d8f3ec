/** Least squares over readings and over what is known beforehand, with what does not fit singled out. */
import { levenbergMarquardt } from "ml-levenberg-marquardt";

/** One thing that is known: a reading, or what was known of an unknown beforehand. */
export interface Row {
  readonly stops: number;
  readonly uncertaintyStops: number;
  predict(at: readonly number[]): number;
  gradient(at: readonly number[]): number[];
  /** it may be wrong: where it does not fit it is singled out; otherwise it only says where to start */
  readonly mayBeWrong: boolean;
}

export interface Bounds {
  /** what rows that only say where to start say */
  readonly start: readonly number[];
  readonly least: readonly number[];
  readonly most: readonly number[];
}

export interface Solved {
  readonly at: readonly number[];
  /** of the unknowns, row-major */
  readonly covariance: readonly (readonly number[])[];
  /** rows left out, in the order in which they were found: one that is wrong by itself, or several of which one must be */
  readonly leftOut: readonly (readonly number[])[];
  /** by which the spread of the readings exceeds what was taken for them: 1 or more */
  readonly scatter: number;
}

/** A reading that lies so many standard deviations from what all others say is not one of them: at a tenth of a stop
 * 0.4 stop; by chance one reading in 16,000. */
const WRONG = 4;
/** Two readings are equally to blame where leaving out the one or the other helps alike: a factor of 20 in likelihood. */
const ALIKE = 2 * Math.log(20);
/** A row that decides an unknown nearly by itself cannot be judged by the others. */
const UNCHECKED = 0.02;
/** Few readings say little about their own scatter: as many as these agree with what was taken for them. */
const STEADY = 4;
const MOST_STEPS = 15;

export function solve(rows: readonly Row[], bounds: Bounds): Solved {
  const isUsed = rows.map(() => true);
  const leftOut: number[][] = [];
  for (;;) {
    const at = fitted(rows, isUsed, bounds);
    const covariance = covarianceAt(rows, isUsed, at);
    const misfits = rows.map((row, i) => (isUsed[i] ? misfit(row, at, covariance) : null));
    const blamed = toBlame(rows, misfits);
    if (blamed.length === 0) {
      const scatter = scatterOf(rows, misfits);
      return { at, covariance: covariance.map((row) => row.map((x) => x * scatter)), leftOut, scatter };
    }
    for (const i of blamed) isUsed[i] = false;
    leftOut.push(blamed);
  }
}

/** Everything in standard deviations, so that all rows weigh alike: the library's own weights go one way in its steps and the
 * other in the sum by which it judges them (5.1.0). */
function fitted(rows: readonly Row[], isUsed: readonly boolean[], bounds: Bounds): number[] {
  const used = rows.filter((_, i) => isUsed[i]);
  // the library wants two; what is left is where the one unknown starts
  if (used.length < 2) return [...bounds.start];
  const { parameterValues } = levenbergMarquardt(
    { x: used.map((_, i) => i), y: used.map((row) => row.stops / row.uncertaintyStops) },
    (at) => (i) => used[i].predict(at) / used[i].uncertaintyStops,
    {
      initialValues: bounds.start,
      minValues: bounds.least,
      maxValues: bounds.most,
      jacobianFunction: (at) => (i) => used[i].gradient(at).map((d) => d / used[i].uncertaintyStops),
      maxIterations: MOST_STEPS,
      errorTolerance: 1e-9,
    },
  );
  return parameterValues;
}

function covarianceAt(rows: readonly Row[], isUsed: readonly boolean[], at: readonly number[]): number[][] {
  const information = at.map(() => at.map(() => 0));
  rows.forEach((row, i) => {
    if (!isUsed[i]) return;
    const g = row.gradient(at);
    const weight = 1 / row.uncertaintyStops ** 2;
    for (let j = 0; j < at.length; j++)
      for (let k = 0; k < at.length; k++) information[j][k] += weight * g[j] * g[k];
  });
  return inverse(information);
}

interface Misfit {
  /** how far off in standard deviations, judged by all other rows */
  readonly deviations: number;
  /** in its own standard deviations, squared */
  readonly square: number;
  /** share of it that the others leave free */
  readonly free: number;
}

/** Source  externally studentised residual with known variance, r / (s sqrt(1 - h)): leaving one out without fitting again */
function misfit(row: Row, at: readonly number[], covariance: readonly (readonly number[])[]): Misfit {
  const g = row.gradient(at);
  const leverage = along(covariance, g, g) / row.uncertaintyStops ** 2;
  const own = (row.stops - row.predict(at)) / row.uncertaintyStops;
  const free = Math.max(0, 1 - leverage);
  return { deviations: free > UNCHECKED ? Math.abs(own) / Math.sqrt(free) : 0, square: own * own, free };
}

/** The row that fits worst, with those that may as well be what is wrong; none where all fit. */
function toBlame(rows: readonly Row[], misfits: readonly (Misfit | null)[]): number[] {
  const deviations = misfits.map((m, i) => (m !== null && rows[i].mayBeWrong ? m.deviations : 0));
  const worst = Math.max(...deviations);
  if (!(worst > WRONG)) return [];
  return deviations.flatMap((d, i) => (d > WRONG && worst ** 2 - d ** 2 < ALIKE ? [i] : []));
}

function scatterOf(rows: readonly Row[], misfits: readonly (Misfit | null)[]): number {
  let squares = STEADY;
  let free = STEADY;
  misfits.forEach((m, i) => {
    if (m === null || !rows[i].mayBeWrong) return;
    squares += m.square;
    free += m.free;
  });
  return Math.max(1, squares / free);
}

/** a C b */
export function along(
  covariance: readonly (readonly number[])[],
  a: readonly number[],
  b: readonly number[],
): number {
  let sum = 0;
  for (let j = 0; j < a.length; j++) for (let k = 0; k < b.length; k++) sum += a[j] * covariance[j][k] * b[k];
  return sum;
}

/** Of a symmetric positive definite matrix, by elimination without exchange of rows: every unknown has something known
 * beforehand, so that no pivot vanishes. */
function inverse(matrix: readonly (readonly number[])[]): number[][] {
  const n = matrix.length;
  const rows = matrix.map((row, i) => [...row, ...row.map((_, k) => (k === i ? 1 : 0))]);
  for (let i = 0; i < n; i++) {
    const pivot = rows[i][i];
    for (let k = 0; k < 2 * n; k++) rows[i][k] /= pivot;
    for (let j = 0; j < n; j++) {
      if (j === i) continue;
      const factor = rows[j][i];
      for (let k = 0; k < 2 * n; k++) rows[j][k] -= factor * rows[i][k];
    }
  }
  return rows.map((row) => row.slice(n));
}
