/** What is told apart in a picture on a wall: the eye at a distance, pixels an inch, and how wide a point is smeared by
 * focus, motion and the aperture's edge. Blurs are widths on the sensor; on paper they grow with the picture. */
import { METRES_PER_INCH, QuantityError } from "../units/index.ts";
import { airyDiameter } from "./depth-of-field.ts";

/** An eye that reads the line marked 6/6 or 20/20 tells apart lines one minute of arc wide.
 * Source  Snellen; ISO 8596 optotypes; published-checks section 13 */
const MINUTE_RAD = Math.PI / (180 * 60);
const MM_PER_INCH = 1000 * METRES_PER_INCH;
/** The middle of what is seen, nm: where the eye is most sensitive, and what published-checks section 12 takes. */
const MIDDLE_NM = 550;

/** The finest that an eye of one minute of arc tells apart, in the unit of the distance.
 * Accuracy 1e-5 of the printed values; reference/section13-print
 * @example 6000 -> 1.74533 */
export function eyeResolves(distance: number): number {
  return distance * Math.tan(MINUTE_RAD);
}

/** From how far on a length is no longer told apart, in its unit. @example 25.4 / 23.3002 -> 3747.66 (mm) */
export function unseenFrom(length: number): number {
  return length / Math.tan(MINUTE_RAD);
}

/** Pixels an inch beyond which the eye sees no more at a distance, mm. @example 1000 -> 87.3187 */
export function eyePixelsPerInch(distance_mm: number): number {
  return MM_PER_INCH / eyeResolves(distance_mm);
}

/** @example 5504 on 6000 mm -> 23.3003 */
export function pixelsPerInch(pixels: number, length_mm: number): number {
  return (pixels * MM_PER_INCH) / length_mm;
}

/** How wide a point beside the plane of focus is smeared on the sensor: f^2 |x - s| / (N (s - f) x).
 * Units   mm; distances along the axis, from the front principal plane as in `depthOfField`
 * Domain  the point in front of the lens
 * Errors  QuantityError at a focus within the focal length: no lens focuses there
 * Accuracy the circle itself at both limits of `depthOfField`, 1e-5 of the printed ones; reference/section13-print
 * Source  geometrical optics, thin lens: rays through the rim of the pupil f / N, scaled to the sensor by f / (s - f)
 * @example f 85, N 8, s 2000, x 1880.38 -> 0.03 */
export function defocusBlur(
  focalLength_mm: number,
  fNumber: number,
  focus_mm: number,
  point_mm: number,
): number {
  if (!(focus_mm > focalLength_mm)) {
    throw new QuantityError("focus", focus_mm, "mm", `more than the focal length, ${focalLength_mm} mm`);
  }
  const scale = focalLength_mm / (focus_mm - focalLength_mm);
  return ((focalLength_mm / fNumber) * scale * Math.abs(point_mm - focus_mm)) / point_mm;
}

/** How far something that moves across the line of sight goes on the sensor: v t f / (s - f).
 * Units   m/s, s, mm -> mm
 * @example 0.1 m/s for 1/160 s, f 135 at 2700 mm -> 0.0328947 */
export function motionBlur(
  speed_m_s: number,
  time_s: number,
  focalLength_mm: number,
  focus_mm: number,
): number {
  return (1000 * speed_m_s * time_s * focalLength_mm) / (focus_mm - focalLength_mm);
}

/** Two points whose images are just told apart on the sensor, mm: from the middle of the disc to its first dark ring.
 * Source  Rayleigh 1879, with Airy 1835: 1.21967 wavelength N
 * @example f/8 -> 0.00536655 */
export function diffractionApart(fNumber: number): number {
  return airyDiameter(MIDDLE_NM, fNumber) / 2000;
}

/** How long a flash is over a tenth of its peak where it is known how long it is over half of it, and the other way round.
 * A tube that empties its capacitors fades by halves: ln 10 / ln 2 = 3.32 of it. Makers' figures are about three
 * (common practice, no source); a head that cuts its flash short is nearer to one.
 * @example 1 / 909 s over half of the peak -> 1 / 274 s */
export function flashTenth(halfPeak_s: number): number {
  return (halfPeak_s * Math.LN10) / Math.LN2;
}

/** Smears that have nothing to do with each other, together: the root of the sum of their squares (common practice; exact
 * for smears of Gauss' form). */
export function smearedTogether(...widths: readonly number[]): number {
  return Math.hypot(...widths);
}
