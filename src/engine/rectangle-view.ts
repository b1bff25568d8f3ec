/** What a point sees of a rectangle, in closed form. */

/** Corners seen from the point (12 numbers), and the same cut off at the receptor's horizon. */
const corners = new Float64Array(12);
const clipped = new Float64Array(18);
const vector = new Float64Array(3);

/** Writes the integrals over a rectangle of dw, of w dw (x, y, z) and of the cosine to n above n's horizon into out.
 * Shape   corner and edges a, b of a sheet; the rectangle is its part from (u, v) on, du x dv, all 0 to 1
 * Units   m -> sr
 * Domain  either side; a point in the rectangle's plane sees nothing of it
 * Source  solid angle: Van Oosterom and Strackee 1983; vector and flat: Lambert 1760, Arvo 1995 (edge by edge) */
export function rectangleView(
  corner: ArrayLike<number>,
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  u: number,
  v: number,
  du: number,
  dv: number,
  p: ArrayLike<number>,
  n: ArrayLike<number>,
  out: Float64Array,
) {
  for (let c = 0; c < 4; c++) {
    const x = c === 1 || c === 2 ? u + du : u;
    const y = c >= 2 ? v + dv : v;
    for (let k = 0; k < 3; k++) corners[3 * c + k] = corner[k] + x * a[k] + y * b[k] - p[k];
  }
  // a point in the sheet's plane sees its edge alone
  if (Math.abs(heightOver(a, b)) < IN_PLANE) {
    out.fill(0);
    return;
  }
  const turn = triangleAngle(0, 1, 2);
  out[0] = Math.abs(turn + triangleAngle(0, 2, 3));
  const sign = turn < 0 ? -1 : 1;
  edgeSum(corners, 4, vector);
  for (let k = 0; k < 3; k++) out[1 + k] = sign * vector[k];
  const count = clipAtHorizon(n);
  if (count < 0) out[4] = sign * (vector[0] * n[0] + vector[1] * n[1] + vector[2] * n[2]);
  else if (count < 3) out[4] = 0;
  else {
    edgeSum(clipped, count, vector);
    out[4] = sign * (vector[0] * n[0] + vector[1] * n[1] + vector[2] * n[2]);
  }
}

const IN_PLANE = 1e-9;

/** Height of the point over the sheet, metres, with a sign. */
function heightOver(a: ArrayLike<number>, b: ArrayLike<number>): number {
  const x = a[1] * b[2] - a[2] * b[1];
  const y = a[2] * b[0] - a[0] * b[2];
  const z = a[0] * b[1] - a[1] * b[0];
  return (corners[0] * x + corners[1] * y + corners[2] * z) / Math.sqrt(x * x + y * y + z * z);
}

/** Signed solid angle of a triangle of three corners. */
function triangleAngle(i: number, j: number, k: number): number {
  const [ax, ay, az] = [corners[3 * i], corners[3 * i + 1], corners[3 * i + 2]];
  const [bx, by, bz] = [corners[3 * j], corners[3 * j + 1], corners[3 * j + 2]];
  const [cx, cy, cz] = [corners[3 * k], corners[3 * k + 1], corners[3 * k + 2]];
  const volume = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
  const la = Math.sqrt(ax * ax + ay * ay + az * az);
  const lb = Math.sqrt(bx * bx + by * by + bz * bz);
  const lc = Math.sqrt(cx * cx + cy * cy + cz * cz);
  const dots =
    la * lb * lc +
    (ax * bx + ay * by + az * bz) * lc +
    (ax * cx + ay * cy + az * cz) * lb +
    (bx * cx + by * cy + bz * cz) * la;
  return 2 * Math.atan2(volume, dots);
}

/** Half the sum over edges of the angle times the unit normal of the edge's plane. */
function edgeSum(points: Float64Array, count: number, to: Float64Array) {
  to[0] = 0;
  to[1] = 0;
  to[2] = 0;
  for (let i = 0; i < count; i++) {
    const f = 3 * i;
    const g = 3 * ((i + 1) % count);
    const x = points[f + 1] * points[g + 2] - points[f + 2] * points[g + 1];
    const y = points[f + 2] * points[g] - points[f] * points[g + 2];
    const z = points[f] * points[g + 1] - points[f + 1] * points[g];
    const length = Math.sqrt(x * x + y * y + z * z);
    if (!(length > 0)) continue;
    const along = points[f] * points[g] + points[f + 1] * points[g + 1] + points[f + 2] * points[g + 2];
    const half = Math.atan2(length, along) / (2 * length);
    to[0] += half * x;
    to[1] += half * y;
    to[2] += half * z;
  }
}

/** Cuts the corners off below the plane across n; the number left, -1 where nothing had to be cut.
 * Source  Sutherland and Hodgman 1974 */
function clipAtHorizon(n: ArrayLike<number>): number {
  const heights = [0, 1, 2, 3].map(
    (c) => corners[3 * c] * n[0] + corners[3 * c + 1] * n[1] + corners[3 * c + 2] * n[2],
  );
  if (heights.every((h) => h >= 0)) return -1;
  let count = 0;
  for (let i = 0; i < 4; i++) {
    const j = (i + 1) % 4;
    if (heights[i] > 0) {
      for (let k = 0; k < 3; k++) clipped[3 * count + k] = corners[3 * i + k];
      count++;
    }
    if (heights[i] > 0 !== heights[j] > 0) {
      const t = heights[i] / (heights[i] - heights[j]);
      for (let k = 0; k < 3; k++)
        clipped[3 * count + k] = corners[3 * i + k] + t * (corners[3 * j + k] - corners[3 * i + k]);
      count++;
    }
  }
  return count;
}
