/** Points that spread themselves evenly, the same ones every time. The `write` forms allocate nothing. */

interface Target {
  [index: number]: number;
}

/** 1 / g and 1 / g^2 of the plastic number g, the real root of g^3 = g + 1. */
export const R2_U = 0.7548776662466927;
export const R2_V = 0.5698402909980532;

/** Point i of the R2 sequence on the unit square, into out[at], out[at + 1].
 * Domain  i from 0; the first 10^6 points keep ten digits
 * Source  Roberts 2018, "The unreasonable effectiveness of quasirandom sequences" */
export function writeR2(out: Target, at: number, i: number): void {
  out[at] = (0.5 + i * R2_U) % 1;
  out[at + 1] = (0.5 + i * R2_V) % 1;
}

/** Point i of the first two dimensions of the Sobol sequence, into out[at], out[at + 1]: a (0, 2)-sequence, so every
 * 2^k consecutive points from a multiple of 2^k put one into each box of area 2^-k with sides of powers of two.
 * Domain  i from 0 to 2^32 - 1
 * Source  Sobol 1967; the second dimension by Kollig and Keller 2002 */
export function writeSobol(out: Target, at: number, i: number): void {
  let x = 0;
  let y = 0;
  let across = 0x80000000;
  let down = 0x80000000;
  for (let rest = i >>> 0; rest !== 0; rest >>>= 1) {
    if (rest & 1) {
      x ^= across;
      y ^= down;
    }
    across >>>= 1;
    down ^= down >>> 1;
  }
  out[at] = (x >>> 0) / 2 ** 32;
  out[at + 1] = (y >>> 0) / 2 ** 32;
}

const GOLDEN_ANGLE = Math.PI * (3 - Math.sqrt(5));

/** Direction i of n spread evenly over the unit sphere, into out[at..at + 2]; each stands for 4 pi / n steradians.
 * Source  spherical Fibonacci lattice, Gonzalez 2010, Mathematical Geosciences 42 */
export function writeSpherePoint(out: Target, at: number, i: number, n: number): void {
  const z = 1 - (2 * i + 1) / n;
  const r = Math.sqrt(1 - z * z);
  out[at] = r * Math.cos(GOLDEN_ANGLE * i);
  out[at + 1] = r * Math.sin(GOLDEN_ANGLE * i);
  out[at + 2] = z;
}
