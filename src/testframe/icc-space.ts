/** What a file's levels stand for: a curve per channel and where its primaries lie among those of sRGB. */
import { type Chromaticity, decodeSrgb } from "../photometry/index.ts";

export type Curve = (encoded: number) => number;
/** row-major, 3 x 3 */
export type Matrix = readonly number[];

export interface ColourSpace {
  readonly name: string;
  /** encoded to linear, both 0 to 1, per channel */
  readonly curves: readonly [Curve, Curve, Curve];
  /** the file's linear channels to linear sRGB (D65) */
  readonly toSrgb: Matrix;
}

/** XYZ at D50, as profiles have it, to linear sRGB. Source: the inverse of the sRGB primaries, Bradford-adapted from D65 to
 * D50 (IEC 61966-2-1; ICC.1:2022 annex E), checked against the published one in icc-space.test.ts. */
export function srgbFromD50(): Matrix {
  return inverse(d50FromPrimaries(SRGB_PRIMARIES, D65));
}

const D65: Chromaticity = [0.3127, 0.329];
/** The white of profiles (ICC.1:2022, 7.2.16). */
export const D50_XYZ = [0.9642, 1, 0.8249] as const;
/** Bradford's cone response (Lam 1985; ICC.1:2022, annex E). */
const BRADFORD: Matrix = [0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296];

export type Primaries = readonly [Chromaticity, Chromaticity, Chromaticity];
/** IEC 61966-2-1, which takes those of ITU-R BT.709 */
export const SRGB_PRIMARIES: Primaries = [
  [0.64, 0.33],
  [0.3, 0.6],
  [0.15, 0.06],
];
/** SMPTE EG 432-1, with D65 for Display P3 */
export const P3_PRIMARIES: Primaries = [
  [0.68, 0.32],
  [0.265, 0.69],
  [0.15, 0.06],
];
/** Adobe RGB (1998) Color Image Encoding, 4.3.1 */
const ADOBE_PRIMARIES: Primaries = [
  [0.64, 0.33],
  [0.21, 0.71],
  [0.15, 0.06],
];

const same = (curve: Curve): ColourSpace["curves"] => [curve, curve, curve];
export const powerCurve =
  (exponent: number): Curve =>
  (encoded) =>
    encoded ** exponent;
export const plainCurve: Curve = (encoded) => encoded;

export const SRGB = spaceOf("sRGB", SRGB_PRIMARIES, decodeSrgb);
/** Exponent as published, 2 + 51/256. */
export const ADOBE_RGB = spaceOf("Adobe RGB (1998)", ADOBE_PRIMARIES, powerCurve(563 / 256));
export const DISPLAY_P3 = spaceOf("Display P3", P3_PRIMARIES, decodeSrgb);
export const LINEAR_SRGB = spaceOf("linear, sRGB primaries", SRGB_PRIMARIES, plainCurve);

/** A space by its primaries' chromaticities (red, green, blue), its curve and its white. */
export function spaceOf(name: string, primaries: Primaries, curve: Curve, white = D65): ColourSpace {
  const toSrgb = multiply(srgbFromD50(), d50FromPrimaries(primaries, white));
  return { name, curves: same(curve), toSrgb };
}

/** Linear channels to XYZ at D50. */
export function d50FromPrimaries(primaries: Primaries, white: Chromaticity): Matrix {
  const columns = primaries.map(([x, y]) => [x / y, 1, (1 - x - y) / y]);
  const bare = [0, 1, 2].flatMap((row) => columns.map((column) => column[row]));
  const whiteXyz = [white[0] / white[1], 1, (1 - white[0] - white[1]) / white[1]];
  const amounts = apply(inverse(bare), whiteXyz);
  const native = bare.map((value, i) => value * amounts[i % 3]);
  const from = apply(BRADFORD, whiteXyz);
  const to = apply(BRADFORD, D50_XYZ);
  const gains = [0, 1, 2].flatMap((i) => [0, 1, 2].map((j) => (i === j ? to[i] / from[i] : 0)));
  return multiply(multiply(inverse(BRADFORD), multiply(gains, BRADFORD)), native);
}

export function apply(m: Matrix, v: readonly number[]): number[] {
  return [0, 3, 6].map((row) => m[row] * v[0] + m[row + 1] * v[1] + m[row + 2] * v[2]);
}

export function multiply(a: Matrix, b: Matrix): number[] {
  const out: number[] = [];
  for (let i = 0; i < 9; i += 3)
    for (let j = 0; j < 3; j++) out.push(a[i] * b[j] + a[i + 1] * b[j + 3] + a[i + 2] * b[j + 6]);
  return out;
}

/** Of a singular matrix: not finite. */
export function inverse([a, b, c, d, e, f, g, h, i]: Matrix): number[] {
  const det = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  return [
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ].map((minor) => minor / det);
}
