/** What a light's fit does most: sums over all samples, logarithms, and the equations that a step solves. */

const TABLE_PER_ONE = 512;
const TABLE_END = 16;
const logs = Float64Array.from({ length: TABLE_PER_ONE * TABLE_END + 2 }, (_, i) =>
  Math.log(Math.max(i, 1e-3) / TABLE_PER_ONE),
);

/** Natural logarithm between the entries of a table; good enough to rank directions by.
 * Domain  above 0
 * Accuracy 0.0006 from 0.03 on, 0.00001 from 0.25 on; light-solve.test.ts */
export function quickLog(x: number): number {
  if (!(x < TABLE_END)) return Math.log(x);
  const place = x * TABLE_PER_ONE;
  const i = place | 0;
  return logs[i] + (place - i) * (logs[i + 1] - logs[i]);
}

/** J' W J and J' W e of least squares: `slopes` the rows of J', `pulls` the weights, `left` what is left over.
 * Four sums at a time: one alone waits for its own last addition. Each sum's order is that of the samples. */
export function writeNormalMatrix(
  matrix: Float64Array,
  pull: Float64Array,
  slopes: readonly Float64Array[],
  pulls: Float64Array,
  left: Float64Array,
): void {
  const size = slopes.length;
  const count = pulls.length;
  if (weighed.length !== count) weighed = new Float64Array(count);
  const own = weighed;
  for (let a = 0; a < size; a++) {
    const rowA = slopes[a];
    let g = 0;
    for (let i = 0; i < count; i++) {
      own[i] = pulls[i] * rowA[i];
      g += own[i] * left[i];
    }
    pull[a] = g;
    for (let b = 0; b <= a; b += 4) {
      // past the diagonal the sums are made in vain: those of the row itself stand for rows that are not there
      const [r0, r1, r2, r3] = [
        slopes[b],
        slopes[b + 1] ?? rowA,
        slopes[b + 2] ?? rowA,
        slopes[b + 3] ?? rowA,
      ];
      let s0 = 0;
      let s1 = 0;
      let s2 = 0;
      let s3 = 0;
      for (let i = 0; i < count; i++) {
        const w = own[i];
        s0 += w * r0[i];
        s1 += w * r1[i];
        s2 += w * r2[i];
        s3 += w * r3[i];
      }
      put(matrix, size, a, b, s0);
      if (b + 1 <= a) put(matrix, size, a, b + 1, s1);
      if (b + 2 <= a) put(matrix, size, a, b + 2, s2);
      if (b + 3 <= a) put(matrix, size, a, b + 3, s3);
    }
  }
}

function put(matrix: Float64Array, size: number, a: number, b: number, value: number): void {
  matrix[a * size + b] = value;
  matrix[b * size + a] = value;
}

let weighed = new Float64Array(0);

/** Solves matrix x out = right for a symmetric positive definite matrix by Cholesky's factors; allocates nothing but
 * grows its own room once. A pivot that is no longer positive counts as a very large one: that number stays. */
let room = new Float64Array(0);

export function solveSymmetric(
  matrix: Float64Array,
  right: Float64Array,
  out: Float64Array,
  size: number,
): void {
  if (room.length < size * size) room = new Float64Array(size * size);
  const l = room;
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * size + j];
      for (let k = 0; k < j; k++) sum -= l[i * size + k] * l[j * size + k];
      if (i === j) l[i * size + i] = sum > 0 ? Math.sqrt(sum) : 1e12;
      else l[i * size + j] = sum / l[j * size + j];
    }
  for (let i = 0; i < size; i++) {
    let sum = right[i];
    for (let k = 0; k < i; k++) sum -= l[i * size + k] * out[k];
    out[i] = sum / l[i * size + i];
  }
  for (let i = size - 1; i >= 0; i--) {
    let sum = out[i];
    for (let k = i + 1; k < size; k++) sum -= l[k * size + i] * out[k];
    out[i] = sum / l[i * size + i];
  }
}
