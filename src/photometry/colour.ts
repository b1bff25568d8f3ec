/** The colour of a light of a given colour temperature. */

export type Rgb = readonly [number, number, number];
/** BT.709 luminance weights. */
export const LUMINANCE: Rgb = [0.2126, 0.7152, 0.0722];

/** CIE 1931 xy of a Planckian radiator.
 * Domain  1667 K to 25,000 K
 * Source  Kim et al. 2002 cubic spline (US patent 7024034), coefficients from memory, held to the printed
 *         Planckian table of published-checks section 11 within 0.001 */
export function planckianXy(kelvin: number): [number, number] {
  const t = Math.max(1667, Math.min(25000, kelvin));
  const x =
    t <= 4000
      ? -0.2661239e9 / t ** 3 - 0.2343589e6 / t ** 2 + 0.8776956e3 / t + 0.17991
      : -3.0258469e9 / t ** 3 + 2.1070379e6 / t ** 2 + 0.2226347e3 / t + 0.24039;
  const y =
    t <= 2222
      ? -1.1063814 * x ** 3 - 1.3481102 * x ** 2 + 2.18555832 * x - 0.20219683
      : t <= 4000
        ? -0.9549476 * x ** 3 - 1.37418593 * x ** 2 + 2.09137015 * x - 0.16748867
        : 3.081758 * x ** 3 - 5.8733867 * x ** 2 + 3.75112997 * x - 0.37001483;
  return [x, y];
}

/** Linear sRGB of a light of this colour temperature with luminance exactly 1. A channel outside the gamut is held
 * at a thousandth, so that a very warm light still has a blue to divide by. */
export function meterColour(kelvin: number): Rgb {
  const [x, y] = planckianXy(kelvin);
  const bigX = x / y;
  const bigZ = (1 - x - y) / y;
  // IEC 61966-2-1 matrix
  const rgb = [
    3.2406 * bigX - 1.5372 - 0.4986 * bigZ,
    -0.9689 * bigX + 1.8758 + 0.0415 * bigZ,
    0.0557 * bigX - 0.204 + 1.057 * bigZ,
  ].map((v) => Math.max(1e-3, v));
  const luminance = rgb[0] * LUMINANCE[0] + rgb[1] * LUMINANCE[1] + rgb[2] * LUMINANCE[2];
  return [rgb[0] / luminance, rgb[1] / luminance, rgb[2] / luminance];
}

/** The same as a camera balanced for `whiteBalance` records it: equal temperatures give exactly [1, 1, 1]. */
export function lightColour(kelvin: number, whiteBalance: number): Rgb {
  if (kelvin === whiteBalance) return [1, 1, 1];
  const light = meterColour(kelvin);
  const white = meterColour(whiteBalance);
  return [light[0] / white[0], light[1] / white[1], light[2] / white[2]];
}

/** Mired shift from one colour temperature to another (CIE). */
export function miredShift(from_kelvin: number, to_kelvin: number): number {
  return 1e6 / to_kelvin - 1e6 / from_kelvin;
}
