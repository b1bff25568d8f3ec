/** Few numbers for what many points see: bounced light varies slowly over a face. */

/** Rounds after which the space stands still: what is left out hardly differs from one to the next. */
const ROUNDS = 8;

/** `few` rows of `count` numbers, at right angles to each other and of length 1, that come nearest to holding every
 * column of `matrix` (count x across, row by row).
 * Source  subspace iteration for the largest singular vectors; the start is the columns' own sums, cut into parts */
export function commonShapes(matrix: Float64Array, count: number, few: number): Float64Array {
  const across = matrix.length / count;
  const rank = Math.min(few, count, across);
  const shapes = new Float64Array(rank * count);
  for (let s = 0; s < count; s++)
    for (let j = 0; j < across; j++) shapes[(j % rank) * count + s] += matrix[s * across + j];
  straighten(shapes, count);
  const seen = new Float64Array(rank * across);
  for (let round = 0; round < ROUNDS; round++) {
    seen.fill(0);
    for (let k = 0; k < rank; k++)
      for (let s = 0; s < count; s++) {
        const x = shapes[k * count + s];
        for (let j = 0; j < across; j++) seen[k * across + j] += x * matrix[s * across + j];
      }
    for (let k = 0; k < rank; k++)
      for (let s = 0; s < count; s++) {
        let sum = 0;
        for (let j = 0; j < across; j++) sum += seen[k * across + j] * matrix[s * across + j];
        shapes[k * count + s] = sum;
      }
    straighten(shapes, count);
  }
  return shapes;
}

/** Each row at right angles to those before it and of length 1; what lies within those before becomes 0. */
function straighten(rows: Float64Array, length: number) {
  const count = rows.length / length;
  for (let k = 0; k < count; k++) {
    const at = k * length;
    const before = norm(rows, at, length);
    // twice is enough for what one pass leaves through rounding
    for (let pass = 0; pass < 2; pass++)
      for (let j = 0; j < k; j++) {
        let dot = 0;
        for (let s = 0; s < length; s++) dot += rows[at + s] * rows[j * length + s];
        for (let s = 0; s < length; s++) rows[at + s] -= dot * rows[j * length + s];
      }
    const size = norm(rows, at, length);
    const scale = size > 1e-9 * before ? 1 / size : 0;
    for (let s = 0; s < length; s++) rows[at + s] *= scale;
  }
}

function norm(rows: Float64Array, at: number, length: number): number {
  let sum = 0;
  for (let s = 0; s < length; s++) sum += rows[at + s] ** 2;
  return Math.sqrt(sum);
}
