/** The colour of skin: from a measured patch, or from its class. */
import { QuantityError } from "../units/index.ts";
import { LUMINANCE, type Rgb } from "./colour.ts";

/** Classes of the individual typology angle, lightest first. */
export type SkinTone = "very light" | "light" | "intermediate" | "tan" | "brown" | "dark";
/** CIELAB under D65, 2 degrees. */
export type Lab = readonly [lightness: number, a: number, b: number];

/** Lower limits of the classes, degrees. Source  published-checks section 10: 55, 41, 28, 10, -30 */
const LOWER_LIMIT: readonly (readonly [SkinTone, number])[] = [
  ["very light", 55],
  ["light", 41],
  ["intermediate", 28],
  ["tan", 10],
  ["brown", -30],
  ["dark", Number.NEGATIVE_INFINITY],
];

/** Per class the angle in its middle, and a* and b*. The two open classes take 60 and -45 degrees, as far inside as
 * most people who belong to them (common practice, no source). b* lies between the printed pairs of section 10
 * (15 to 18, 16 for brown, 10 for dark); a* is typical, from memory. */
const MIDDLE: Readonly<Record<SkinTone, { angle_deg: number; a: number; b: number }>> = {
  "very light": { angle_deg: 60, a: 8, b: 13 },
  light: { angle_deg: 48, a: 9.5, b: 16 },
  intermediate: { angle_deg: 34.5, a: 11, b: 18 },
  tan: { angle_deg: 19, a: 12, b: 19 },
  brown: { angle_deg: -10, a: 12, b: 17 },
  dark: { angle_deg: -45, a: 9.5, b: 11 },
};

/** Individual typology angle, degrees: the larger, the lighter.
 * Units   CIELAB, D65 and 2 degrees -> degrees
 * Domain  b* above 0, as of all skin
 * Errors  QuantityError where b* is not above 0
 * Source  ITA = atan((L* - 50) / b*); Chardon et al. 1991 (from memory), published-checks section 10
 * @example 65, any a*, 18 -> 39.8056 */
export function ita([lightness, , b]: Lab): number {
  if (!(b > 0)) throw new QuantityError("b*", b, "", "above 0");
  return (Math.atan((lightness - 50) / b) * 180) / Math.PI;
}

/** The class of an individual typology angle; a limit belongs to the darker class (no source says). */
export function toneOf(angle_deg: number): SkinTone {
  for (const [tone, from] of LOWER_LIMIT) if (angle_deg > from) return tone;
  return "dark";
}

/** CIELAB of the middle of a class. */
export function toneLab(tone: SkinTone): Lab {
  const { angle_deg, a, b } = MIDDLE[tone];
  return [50 + b * Math.tan((angle_deg * Math.PI) / 180), a, b];
}

/** Linear sRGB reflectance of the middle of a class. */
export function toneRgb(tone: SkinTone): Rgb {
  return labRgb(toneLab(tone));
}

/** Luminous reflectance of a lightness. Source  CIE 15: ((L* + 16) / 116)^3 above L* = 8, L* / 903.3 below
 * @example 65 -> 0.340472 */
export function luminousReflectance(lightness: number): number {
  return lightness > 8 ? ((lightness + 16) / 116) ** 3 : (lightness * 27) / 24389;
}

/** Linear sRGB reflectance of a measured patch. What lies outside the gamut is brought in toward the grey of the same
 * luminance, which keeps the luminance exactly.
 * Units   CIELAB, D65 and 2 degrees -> linear sRGB, each 0 to 1
 * Domain  L* 0 to 100
 * Errors  QuantityError outside
 * Accuracy 0.2126 R + 0.7152 G + 0.0722 B = Y of L* and grey for a* = b* = 0, both to rounding
 * Source  CIE 15 (CIELAB), IEC 61966-2-1 (the matrix from XYZ) */
export function labRgb([lightness, a, b]: Lab): Rgb {
  if (!(lightness >= 0 && lightness <= 100)) throw new QuantityError("L*", lightness, "", "0 to 100");
  const luminance = luminousReflectance(lightness);
  if (!(luminance > 0)) return [0, 0, 0];
  const y = fromLuminance(luminance);
  const x = toLuminance(y + a / 500);
  const z = toLuminance(y - b / 200);
  const raw = RGB_FROM_WHITE.map(([i, j, k]) => i * x + j * luminance + k * z);
  const off = luminance / (LUMINANCE[0] * raw[0] + LUMINANCE[1] * raw[1] + LUMINANCE[2] * raw[2]);
  let keep = 1;
  const scaled = raw.map((v) => v * off);
  for (const v of scaled) {
    if (v > 1) keep = Math.min(keep, (1 - luminance) / (v - luminance));
    if (v < 0) keep = Math.min(keep, luminance / (luminance - v));
  }
  const [r, g, bl] = scaled.map((v) => Math.max(0, Math.min(1, luminance + keep * (v - luminance))));
  return [r, g, bl];
}

/** The cube root of CIELAB with its straight foot, and back. */
function fromLuminance(share: number): number {
  return share > 216 / 24389 ? Math.cbrt(share) : (24389 / 27 / 116) * share + 16 / 116;
}

function toLuminance(root: number): number {
  return root > 6 / 29 ? root ** 3 : ((root - 16 / 116) * (116 * 27)) / 24389;
}

/** Linear sRGB from X, Y, Z that are each divided by the white's; rows add up to exactly 1, so that white is white. */
const RGB_FROM_WHITE = [
  [3.2406 * 0.95047, -1.5372, -0.4986 * 1.08883],
  [-0.9689 * 0.95047, 1.8758, 0.0415 * 1.08883],
  [0.0557 * 0.95047, -0.204, 1.057 * 1.08883],
].map((row) => {
  const sum = row[0] + row[1] + row[2];
  return row.map((v) => v / sum);
});
