/** The slow, plain road to the same answers: every triangle, no hierarchy, no tricks. The fast road is held to it. */

/** Distance along the ray to the nearest triangle, Infinity where none is met. Source: plane and edge tests, one by one. */
export function nearestByBruteForce(
  positions: Float64Array,
  triangles: Uint32Array,
  origin: readonly number[],
  direction: readonly number[],
): { t: number; triangle: number } {
  let t = Number.POSITIVE_INFINITY;
  let triangle = -1;
  for (let i = 0; i < triangles.length / 3; i++) {
    const [a, b, c] = [0, 1, 2].map((k) => corner(positions, triangles[3 * i + k]));
    const n = cross(minus(b, a), minus(c, a));
    const slope = dot(n, direction);
    if (slope === 0) continue;
    const at = dot(n, minus(a, origin)) / slope;
    if (!(at > 0 && at < t)) continue;
    const p = origin.map((v, k) => v + at * direction[k]);
    const inside =
      dot(n, cross(minus(b, a), minus(p, a))) >= 0 &&
      dot(n, cross(minus(c, b), minus(p, b))) >= 0 &&
      dot(n, cross(minus(a, c), minus(p, c))) >= 0;
    if (!inside) continue;
    t = at;
    triangle = i;
  }
  return { t, triangle };
}

function corner(positions: Float64Array, v: number): number[] {
  return [positions[3 * v], positions[3 * v + 1], positions[3 * v + 2]];
}

function minus(a: readonly number[], b: readonly number[]): number[] {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

function cross(a: readonly number[], b: readonly number[]): number[] {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
