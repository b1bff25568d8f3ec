/** From the light that reaches the lens to the picture. Source: ISO 12232 (q = 0.65, H_sat, SOS), IEC 61966-2-1. */

/** q of ISO 12232: lens transmission, vignetting and cosine together. */
export const LENS_FACTOR = 0.65;
/** SOS middle level, lx.s times ISO. */
export const MIDDLE_LEVEL = 10;

/** Focal-plane exposure, lx.s, of a luminance x time in cd.s/m2. */
export function focalPlaneExposure(luminanceSeconds: number, fNumber: number): number {
  return (LENS_FACTOR * luminanceSeconds) / (fNumber * fNumber);
}

/** Focal-plane exposure at which a pixel clips, lx.s; headroom in stops above the middle level. */
export function clippingExposure(iso: number, headroom_stops: number): number {
  return (MIDDLE_LEVEL / iso) * 2 ** headroom_stops;
}

/** sRGB encoding, 0 to 1 (IEC 61966-2-1). */
export function encodeSrgb(linear: number): number {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;
}

export function decodeSrgb(encoded: number): number {
  return encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;
}

/** Linear value at the middle level, so that it lands on 118 of 255. */
const MIDDLE_LINEAR = 0.1812;
const KNEE = 0.5;

/** One channel of the picture, 0 to 255, by the rule of the plan format: linear up to one half, a shoulder from
 * there to the clipping point; 255 only where the channel clips. */
export function pictureLevel(exposure: number, iso: number, headroom_stops: number): number {
  if (exposure >= clippingExposure(iso, headroom_stops)) return 255;
  const x = (MIDDLE_LINEAR * exposure * iso) / MIDDLE_LEVEL;
  const clip = MIDDLE_LINEAR * 2 ** headroom_stops;
  let v = x;
  if (clip > 1 && x > KNEE) {
    const t = Math.min(1, (x - KNEE) / (clip - KNEE));
    v = KNEE + KNEE * (1 - (1 - t) ** (2 * (clip - KNEE)));
  }
  return Math.max(0, Math.min(254, Math.round(255 * encodeSrgb(v))));
}
