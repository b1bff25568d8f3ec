/** From focal-plane exposure to the numbers of a picture. Source: the plan format's picture rule; IEC 61966-2-1. */
import type { Given, LuxSeconds } from "../units/index.ts";
import { clippingExposure, MIDDLE_LEVEL } from "./camera.ts";

/** sRGB encoding, 0 to 1 (IEC 61966-2-1). */
export function encodeSrgb(linear: number): number {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;
}

/** sRGB decoding, 0 to 1. */
export function decodeSrgb(encoded: number): number {
  return encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;
}

/** Linear value at the middle level, so that it lands on 118 of 255. */
const MIDDLE_LINEAR = 0.1812;
const KNEE = 0.5;

/** One channel of the picture by the rule of the plan format: linear up to one half, a shoulder from there to the
 * clipping point, or linear all the way where that lies at 1 or below; then the sRGB curve.
 * Units   lx.s at the focal plane, ISO, stops -> 0 to `most`, which is 255 or 65535
 * Domain  no light, or none by rounding, is 0; iso above 0
 * Accuracy `most` exactly where the exposure reaches the clipping exposure, one less at most elsewhere; picture.test.ts */
export function pictureLevel(
  exposure: Given<LuxSeconds>,
  iso: number,
  headroom_stops: number,
  most = 255,
): number {
  if (!(exposure > 0)) return 0;
  if (exposure >= clippingExposure(iso, headroom_stops)) return most;
  const x = (MIDDLE_LINEAR * exposure * iso) / MIDDLE_LEVEL;
  const clip = MIDDLE_LINEAR * 2 ** headroom_stops;
  let v = x;
  if (clip > 1 && x > KNEE) {
    const t = Math.min(1, (x - KNEE) / (clip - KNEE));
    v = KNEE + KNEE * (1 - (1 - t) ** (2 * (clip - KNEE)));
  }
  return Math.min(most - 1, Math.round(most * encodeSrgb(v)));
}
