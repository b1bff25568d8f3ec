/** From the light that reaches the lens to the sensor. Source: ISO 12232:2006, q = 0.65, H_sat, SOS. */
import {
  type Given,
  type Luminance,
  type LuminanceSeconds,
  type LuxSeconds,
  positive,
} from "../units/index.ts";

/** q of ISO 12232: lens transmission, vignetting and cosine together. */
export const LENS_FACTOR = 0.65;
/** SOS middle level, lx.s times ISO. */
export const MIDDLE_LEVEL = 10;
/** Saturation-based speed: H_sat times ISO, lx.s. */
export const SATURATION_LEVEL = 78;

/** q = (pi / 4) T v cos^4(theta). @example 0.9, 0.98, 10 degrees -> 0.651575, which the standard rounds to 0.65 */
export function lensFactor(transmittance: number, vignetting: number, offAxis_rad: number): number {
  return (Math.PI / 4) * transmittance * vignetting * Math.cos(offAxis_rad) ** 4;
}

/** Focal-plane exposure of a luminance x time, q L t / N^2.
 * Units   cd.s/m2, f-number -> lx.s
 * Domain  f-number above 0, as a plan has it; asked for every pixel, so not checked again
 * @example 32 cd.s/m2 at f/16 -> 0.08125 */
export function focalPlaneExposure(luminanceSeconds: Given<LuminanceSeconds>, fNumber: number): LuxSeconds {
  return ((LENS_FACTOR * luminanceSeconds) / (fNumber * fNumber)) as LuxSeconds;
}

/** Focal-plane exposure at which a pixel clips; headroom in stops above the middle level.
 * Domain  iso above 0, as a plan has it; asked for every pixel, so not checked again
 * Source  plan format: (10 / S) 2^headroom; at 2.96347 stops this is H_sat = 78 / S */
export function clippingExposure(iso: number, headroom_stops: number): LuxSeconds {
  return ((MIDDLE_LEVEL / iso) * 2 ** headroom_stops) as LuxSeconds;
}

/** Luminance that just saturates a sensor, L = 78 N^2 / (q t S).
 * Errors  QuantityError where shutter or iso is not above 0
 * @example f/8, 1/125 s, ISO 100 -> 9600 cd/m2 */
export function saturationLuminance(fNumber: number, shutter_s: number, iso: number): Luminance {
  const gathered = LENS_FACTOR * positive("shutter", shutter_s, "s") * positive("iso", iso, "");
  return ((SATURATION_LEVEL * fNumber * fNumber) / gathered) as Luminance;
}

/** Focal-plane exposure times ISO of a diffuser under its own incident reading: q (reflectance / pi) C.
 * @example 0.18 and C 250 -> 9.31056 */
export function meteredLevel(reflectance: number, incidentConstant: number): number {
  return (LENS_FACTOR * reflectance * incidentConstant) / Math.PI;
}
