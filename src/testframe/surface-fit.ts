/** Where a rigid shape lies: turned, moved and scaled onto points that were seen. */

export interface Placed {
  /** 3 x 3 row-major: seen = scale * rotation * model + shift */
  readonly rotation: Float64Array;
  readonly scale: number;
  readonly shift: readonly [number, number, number];
}

/** Least squares over the vertices given.
 * Shape   model, seen: xyz per vertex; vertices: three or more, not on one line
 * Source  Horn 1987, Closed-form solution of absolute orientation using unit quaternions; scale by the spreads along */
export function placeRigid(
  model: ArrayLike<number>,
  seen: ArrayLike<number>,
  vertices: readonly number[],
): Placed {
  const from = middleOf(model, vertices);
  const to = middleOf(seen, vertices);
  const m = new Float64Array(9);
  let spread = 0;
  for (const v of vertices)
    for (let i = 0; i < 3; i++) {
      const p = model[3 * v + i] - from[i];
      spread += p * p;
      for (let j = 0; j < 3; j++) m[3 * i + j] += p * (seen[3 * v + j] - to[j]);
    }
  const [xx, xy, xz, yx, yy, yz, zx, zy, zz] = m;
  const [w, x, y, z] = topVector([
    [xx + yy + zz, yz - zy, zx - xz, xy - yx],
    [yz - zy, xx - yy - zz, xy + yx, zx + xz],
    [zx - xz, xy + yx, yy - xx - zz, yz + zy],
    [xy - yx, zx + xz, yz + zy, zz - xx - yy],
  ]);
  const rotation = Float64Array.of(
    w * w + x * x - y * y - z * z,
    2 * (x * y - w * z),
    2 * (x * z + w * y),
    2 * (x * y + w * z),
    w * w - x * x + y * y - z * z,
    2 * (y * z - w * x),
    2 * (x * z - w * y),
    2 * (y * z + w * x),
    w * w - x * x - y * y + z * z,
  );
  let along = 0;
  for (let i = 0; i < 3; i++) for (let j = 0; j < 3; j++) along += rotation[3 * j + i] * m[3 * i + j];
  const scale = along / spread;
  const shift = [0, 1, 2].map(
    (j) =>
      to[j] -
      scale * (rotation[3 * j] * from[0] + rotation[3 * j + 1] * from[1] + rotation[3 * j + 2] * from[2]),
  );
  return { rotation, scale, shift: [shift[0], shift[1], shift[2]] };
}

function middleOf(points: ArrayLike<number>, vertices: readonly number[]): number[] {
  return [0, 1, 2].map((k) => vertices.reduce((sum, v) => sum + points[3 * v + k], 0) / vertices.length);
}

const SWEEPS = 30;

/** Unit eigenvector of the largest eigenvalue of a symmetric matrix. Source  Jacobi's rotations */
function topVector(a: number[][]): number[] {
  const n = a.length;
  const vectors: number[][] = a.map((_, i) => a.map((__, j) => (i === j ? 1 : 0)));
  for (let sweep = 0; sweep < SWEEPS; sweep++)
    for (let p = 0; p < n; p++)
      for (let q = p + 1; q < n; q++) {
        if (a[p][q] === 0) continue;
        const theta = (a[q][q] - a[p][p]) / (2 * a[p][q]);
        const t = (theta < 0 ? -1 : 1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
        const c = 1 / Math.sqrt(t * t + 1);
        const s = t * c;
        for (let k = 0; k < n; k++) {
          const [kp, kq] = [a[k][p], a[k][q]];
          a[k][p] = c * kp - s * kq;
          a[k][q] = s * kp + c * kq;
        }
        for (let k = 0; k < n; k++) {
          const [pk, qk] = [a[p][k], a[q][k]];
          a[p][k] = c * pk - s * qk;
          a[q][k] = s * pk + c * qk;
        }
        for (const row of vectors) {
          const [kp, kq] = [row[p], row[q]];
          row[p] = c * kp - s * kq;
          row[q] = s * kp + c * kq;
        }
      }
  let top = 0;
  for (let i = 1; i < n; i++) if (a[i][i] > a[top][top]) top = i;
  return vectors.map((row) => row[top]);
}
