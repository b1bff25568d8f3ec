/** Vectors of three numbers. The `write` forms allocate nothing and may write over what they read. */

export type Vec3 = readonly [number, number, number];
type Source = ArrayLike<number>;
interface Target {
  [index: number]: number;
}

export function dot(a: Source, b: Source): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

export function lengthOf(a: Source): number {
  return Math.hypot(a[0], a[1], a[2]);
}

export function subtract(a: Source, b: Source): Vec3 {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

export function cross(a: Source, b: Source): Vec3 {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

export function writeCross(out: Target, a: Source, b: Source): void {
  const x = a[1] * b[2] - a[2] * b[1];
  const y = a[2] * b[0] - a[0] * b[2];
  out[2] = a[0] * b[1] - a[1] * b[0];
  out[0] = x;
  out[1] = y;
}

/** Writes a / |a| and returns |a|. A vector of no length stays as it is: it has no direction. */
export function writeUnit(out: Target, a: Source): number {
  const length = lengthOf(a);
  const scale = length > 0 ? 1 / length : 1;
  out[0] = a[0] * scale;
  out[1] = a[1] * scale;
  out[2] = a[2] * scale;
  return length;
}

/** Angle between two directions, 0 to pi.
 * Domain  any lengths; 0 where either has none
 * Accuracy full precision near 0 and pi, where the arc cosine of a dot product loses half of its digits
 * Source  Kahan 2006, "How futile are mindless assessments of roundoff", section 12: 2 atan2(|u - v|, |u + v|) */
export function angleBetween(a: Source, b: Source): number {
  const p = lengthOf(a);
  const q = lengthOf(b);
  if (!(p > 0 && q > 0)) return 0;
  const x = [a[0] / p, a[1] / p, a[2] / p];
  const y = [b[0] / q, b[1] / q, b[2] / q];
  const apart = Math.hypot(x[0] - y[0], x[1] - y[1], x[2] - y[2]);
  const together = Math.hypot(x[0] + y[0], x[1] + y[1], x[2] + y[2]);
  return 2 * Math.atan2(apart, together);
}
