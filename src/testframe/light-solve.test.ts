import { expect, test } from "vitest";
import { Pcg32 } from "../math/index.ts";
import { quickLog, writeNormalMatrix } from "./light-solve.ts";

test("[LF13] logarithms between the entries of a table rank as true ones do", () => {
  for (let x = 0.03; x < 40; x *= 1.0037) {
    const off = Math.abs(quickLog(x) - Math.log(x));
    expect(off, `${x}`).toBeLessThan(x < 0.25 ? 6e-4 : 1e-5);
  }
});

test("[LF13] sums made four at a time are those made one by one, whatever their number", () => {
  const random = new Pcg32(5);
  for (const size of [1, 3, 4, 6, 9]) {
    const count = 17;
    const row = () => Float64Array.from({ length: count }, () => random.next() - 0.5);
    const slopes = Array.from({ length: size }, row);
    const [pulls, left] = [row(), row()];
    const matrix = new Float64Array(size * size);
    const pull = new Float64Array(size);
    writeNormalMatrix(matrix, pull, slopes, pulls, left);
    const sum = (a: Float64Array, b: Float64Array) => a.reduce((all, x, i) => all + pulls[i] * x * b[i], 0);
    for (let a = 0; a < size; a++) {
      expect(pull[a]).toBeCloseTo(sum(slopes[a], left), 12);
      for (let b = 0; b < size; b++) expect(matrix[a * size + b]).toBeCloseTo(sum(slopes[a], slopes[b]), 12);
    }
  }
});
