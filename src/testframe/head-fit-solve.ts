/** The head's own points turned, moved and scaled onto seen ones. */

export interface Laid {
  /** 3 x 3 row-major: seen = scale * rotation * own + shift */
  readonly rotation: Float64Array;
  readonly scale: number;
  /** root mean square of what is left across the sight, in units of `own` */
  readonly miss: number;
}

const ROUNDS = 12;
const SETTLED = 1e-9;

/** Weighted least squares by Gauss and Newton over turn and scale; the shift drops out with the middles.
 * Shape   own, seen: xyz per point, z of `seen` along the sight; weights: one per point
 * @param alongSight weight of depth against what is seen across: the network guesses depth, but sees the rest
 * @param start rotation near the answer */
export function layOn(
  own: ArrayLike<number>,
  seen: ArrayLike<number>,
  weights: ArrayLike<number>,
  alongSight: number,
  start: Float64Array,
): Laid {
  const a = centred(own, weights);
  const b = centred(seen, weights);
  const axisWeights = [1, 1, alongSight];
  let rotation = start;
  let scale = 1;
  const turned = new Float64Array(a.length);
  const row = new Float64Array(4);
  for (let round = 0; round < ROUNDS; round++) {
    turnPoints(turned, rotation, a);
    let [along, own2] = [0, 0];
    for (let i = 0; i < a.length; i++) {
      const w = weights[Math.floor(i / 3)] * axisWeights[i % 3];
      along += w * turned[i] * b[i];
      own2 += w * turned[i] * turned[i];
    }
    scale = along / own2;
    const normal = Array.from({ length: 4 }, () => new Float64Array(5));
    for (let i = 0; i < a.length; i += 3) {
      const [x, y, z] = [scale * turned[i], scale * turned[i + 1], scale * turned[i + 2]];
      const about = [0, z, -y, -z, 0, x, y, -x, 0];
      for (let k = 0; k < 3; k++) {
        const w = weights[i / 3] * axisWeights[k];
        row.set(about.slice(3 * k, 3 * k + 3));
        row[3] = turned[i + k];
        const left = b[i + k] - scale * turned[i + k];
        for (let p = 0; p < 4; p++) {
          for (let q = 0; q < 4; q++) normal[p][q] += w * row[p] * row[q];
          normal[p][4] += w * row[p] * left;
        }
      }
    }
    const [ox, oy, oz] = solved(normal);
    rotation = turnedBy(rotation, ox, oy, oz);
    if (ox * ox + oy * oy + oz * oz < SETTLED * SETTLED) break;
  }
  turnPoints(turned, rotation, a);
  let [left, total] = [0, 0];
  for (let i = 0; i < a.length; i++) {
    if (i % 3 === 2) continue;
    const w = weights[Math.floor(i / 3)];
    left += w * (b[i] / scale - turned[i]) ** 2;
    total += w / 2;
  }
  return { rotation, scale, miss: Math.sqrt(left / total) };
}

function centred(points: ArrayLike<number>, weights: ArrayLike<number>): Float64Array {
  const middle = middleOf(points, weights);
  return Float64Array.from(points, (x, i) => x - middle[i % 3]);
}

export function middleOf(points: ArrayLike<number>, weights: ArrayLike<number>): Float64Array {
  const middle = new Float64Array(3);
  let total = 0;
  for (let v = 0; v < weights.length; v++) {
    total += weights[v];
    for (let k = 0; k < 3; k++) middle[k] += weights[v] * points[3 * v + k];
  }
  return middle.map((sum) => sum / total);
}

/** Rotates each point of `points` into `out`, which may be the same array. */
export function turnPoints(out: Float64Array, r: ArrayLike<number>, points: ArrayLike<number>): void {
  for (let i = 0; i < points.length; i += 3) {
    const [x, y, z] = [points[i], points[i + 1], points[i + 2]];
    for (let k = 0; k < 3; k++) out[i + k] = r[3 * k] * x + r[3 * k + 1] * y + r[3 * k + 2] * z;
  }
}

/** a times b; 3 x 3 row-major. */
export function product(a: ArrayLike<number>, b: ArrayLike<number>): Float64Array {
  const out = new Float64Array(9);
  for (let i = 0; i < 3; i++)
    for (let j = 0; j < 3; j++) for (let k = 0; k < 3; k++) out[3 * i + j] += a[3 * i + k] * b[3 * k + j];
  return out;
}

/** First turned by `rotation`, then about the vector by its length. Source  Rodrigues 1840 */
function turnedBy(rotation: Float64Array, ox: number, oy: number, oz: number): Float64Array {
  const angle = Math.sqrt(ox * ox + oy * oy + oz * oz);
  if (angle === 0) return rotation;
  const [x, y, z] = [ox / angle, oy / angle, oz / angle];
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const d = 1 - c;
  const by = [
    ...[c + x * x * d, x * y * d - z * s, x * z * d + y * s],
    ...[y * x * d + z * s, c + y * y * d, y * z * d - x * s],
    ...[z * x * d - y * s, z * y * d + x * s, c + z * z * d],
  ];
  return product(by, rotation);
}

/** Of a system of equations, right sides last. Gauss and Jordan, largest pivots first. */
function solved(rows: Float64Array[]): number[] {
  const n = rows.length;
  for (let c = 0; c < n; c++) {
    let best = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(rows[r][c]) > Math.abs(rows[best][c])) best = r;
    [rows[c], rows[best]] = [rows[best], rows[c]];
    for (let r = 0; r < n; r++) {
      if (r === c || rows[c][c] === 0) continue;
      const factor = rows[r][c] / rows[c][c];
      for (let k = c; k <= n; k++) rows[r][k] -= factor * rows[c][k];
    }
  }
  return rows.map((row, r) => (row[r] === 0 ? 0 : row[n] / row[r]));
}
