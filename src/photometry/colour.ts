/** The colour of a light of a given colour temperature. */
import { QuantityError } from "../units/index.ts";
import { OBSERVER, OBSERVER_START_NM, OBSERVER_STEP_NM } from "./observer.ts";

export type Rgb = readonly [number, number, number];
export type Chromaticity = readonly [x: number, y: number];
/** BT.709 luminance weights. */
export const LUMINANCE: Rgb = [0.2126, 0.7152, 0.0722];

/** Luminance of linear r g b that stand from `at` on in a flat array. */
export function luminanceAt(rgb: ArrayLike<number>, at = 0): number {
  return 0.2126 * rgb[at] + 0.7152 * rgb[at + 1] + 0.0722 * rgb[at + 2];
}

/** Second radiation constant, nm.K: 1.4388e-2 m.K. */
const C2 = 1.4388e7;

/** CIE 1931 chromaticity of a Planckian radiator.
 * Units   K -> x, y
 * Domain  1000 K to 100,000 K; nothing that is called warm or cool lies outside
 * Errors  QuantityError outside
 * Accuracy 5e-5 of the printed table, whose steps are 1 nm; reference/section11-colour
 * Source  Planck's law, c2 = 1.4388e-2 m.K, summed with the CIE 1931 observer in steps of 5 nm */
export function planckianXy(kelvin: number): Chromaticity {
  demandKelvin(kelvin, 1000, 100_000);
  const sum = [0, 0, 0];
  for (let i = 0; i < OBSERVER.length; i += 3) {
    const nm = OBSERVER_START_NM + (OBSERVER_STEP_NM * i) / 3;
    // against 560 nm, so that the numbers stay near 1
    const power = (560 / nm) ** 5 / Math.expm1(C2 / (nm * kelvin));
    for (let k = 0; k < 3; k++) sum[k] += power * OBSERVER[i + k];
  }
  const all = sum[0] + sum[1] + sum[2];
  return [sum[0] / all, sum[1] / all];
}

/** Chromaticity of daylight of a correlated colour temperature.
 * Units   K -> x, y
 * Domain  4000 K to 25,000 K
 * Errors  QuantityError outside
 * Accuracy 1e-5 of the printed values; reference/section11-colour
 * Source  CIE 15, the D locus; y = -3 x^2 + 2.87 x - 0.275 */
export function daylightXy(kelvin: number): Chromaticity {
  demandKelvin(kelvin, 4000, 25_000);
  const x =
    kelvin <= 7000
      ? -4.607e9 / kelvin ** 3 + 2.9678e6 / kelvin ** 2 + 99.11 / kelvin + 0.244063
      : -2.0064e9 / kelvin ** 3 + 1.9018e6 / kelvin ** 2 + 247.48 / kelvin + 0.23704;
  return [x, -3 * x * x + 2.87 * x - 0.275];
}

/** Correlated colour temperature of a chromaticity near the Planckian locus.
 * Domain  2000 K to 8000 K within 21 K; 120 K too low at 10,000 K; y above 0.1858
 * Source  McCamy 1992: n = (x - 0.3320) / (0.1858 - y), 449 n^3 + 3525 n^2 + 6823.3 n + 5520.33
 * @example 0.31272, 0.32903 -> 6503.77 */
export function correlatedKelvin([x, y]: Chromaticity): number {
  const n = (x - 0.332) / (0.1858 - y);
  return 449 * n ** 3 + 3525 * n ** 2 + 6823.3 * n + 5520.33;
}

/** A very warm light has no blue inside the gamut of sRGB. It keeps a thousandth, so that a camera balanced for it
 * has something to divide by and the colour of a light goes on changing smoothly with its temperature. */
const LEAST_CHANNEL = 1e-3;

/** Linear sRGB of a light of this colour temperature, luminance exactly 1.
 * Units   K -> linear sRGB; 0.2126 R + 0.7152 G + 0.0722 B = 1
 * Domain  as `planckianXy`; a channel outside the gamut (blue, below about 1900 K) is held at a thousandth
 * Errors  QuantityError outside
 * Source  IEC 61966-2-1, the matrix from XYZ */
export function meterColour(kelvin: number): Rgb {
  const [x, y] = planckianXy(kelvin);
  const bigX = x / y;
  const bigZ = (1 - x - y) / y;
  const rgb = [
    3.2406 * bigX - 1.5372 - 0.4986 * bigZ,
    -0.9689 * bigX + 1.8758 + 0.0415 * bigZ,
    0.0557 * bigX - 0.204 + 1.057 * bigZ,
  ].map((v) => Math.max(LEAST_CHANNEL, v));
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

/** Mired shift from one colour temperature to another, 10^6 / K (CIE). @example 3200 K to 5600 K -> -133.929 */
export function miredShift(from_kelvin: number, to_kelvin: number): number {
  return 1e6 / to_kelvin - 1e6 / from_kelvin;
}

function demandKelvin(kelvin: number, from: number, to: number): void {
  if (kelvin >= from && kelvin <= to) return;
  throw new QuantityError("colour temperature", kelvin, "K", `${from} K to ${to} K`);
}
