/** What a lens shows sharp, and how much it sees. Thin lens: distances from the front principal plane, along the axis.
 * A plan's camera is a pinhole in the entrance pupil, which in a portrait lens lies within a few centimetres of that
 * plane: both limits shift with the focus, their distances from it hardly change. */
import { QuantityError } from "../units/index.ts";

/** The sensor's diagonal over the widest blur that still looks like a point: 1 / 1500 of it, which at the usual viewing
 * distance, the picture's diagonal, is 2.3 minutes of arc.
 * Source  published-checks section 12, sensors d / 1500: common practice */
const PARTS_OF_DIAGONAL = 1500;

/** Circle of confusion of a sensor, mm.
 * @example 36 x 24 -> 0.0288444 */
export function circleOfConfusion(width_mm: number, height_mm: number): number {
  return Math.hypot(width_mm, height_mm) / PARTS_OF_DIAGONAL;
}

/** The nearest focus at which the far limit is infinite, H = f^2 / (N c) + f.
 * Units   mm
 * @example f 85, N 8, c 0.03 -> 30189.2 */
export function hyperfocalDistance(focalLength_mm: number, fNumber: number, circle_mm: number): number {
  return (focalLength_mm * focalLength_mm) / (fNumber * circle_mm) + focalLength_mm;
}

/** From where to where it is sharp: near = s (H - f) / (H + s - 2 f), far = s (H - f) / (H - s).
 * Units   mm
 * Domain  focus beyond the focal length; far is Infinity from the hyperfocal distance on
 * Errors  QuantityError at a focus within the focal length: no lens focuses there
 * Accuracy 1e-5 of the printed values; reference/section12-camera
 * Source  geometrical optics, thin lens; published-checks section 12
 * @example f 85, N 8, c 0.03, s 2000 -> 1880.38 to 2135.87 */
export function depthOfField(
  focalLength_mm: number,
  fNumber: number,
  circle_mm: number,
  focus_mm: number,
): { near_mm: number; far_mm: number } {
  if (!(focus_mm > focalLength_mm)) {
    throw new QuantityError("focus", focus_mm, "mm", `more than the focal length, ${focalLength_mm} mm`);
  }
  const hyperfocal = hyperfocalDistance(focalLength_mm, fNumber, circle_mm);
  const reach = focus_mm * (hyperfocal - focalLength_mm);
  return {
    near_mm: reach / (hyperfocal + focus_mm - 2 * focalLength_mm),
    far_mm: focus_mm < hyperfocal ? reach / (hyperfocal - focus_mm) : Number.POSITIVE_INFINITY,
  };
}

/** Angle that a sensor's side (or diagonal) sees at infinity, 2 atan(w / 2 f), degrees.
 * @example 36 at 85 -> 23.9132 */
export function fieldAngle(side_mm: number, focalLength_mm: number): number {
  return (360 / Math.PI) * Math.atan(side_mm / (2 * focalLength_mm));
}

/** What a side of the sensor covers at a distance: sensor / m with m = f / (s - f), mm.
 * @example 36, f 85, s 2000 -> 811.059 */
export function fieldSize(side_mm: number, focalLength_mm: number, focus_mm: number): number {
  return (side_mm * (focus_mm - focalLength_mm)) / focalLength_mm;
}

/** First dark ring of a point's image, 2.43934 wavelength N, micrometres: below it no lens sharpens.
 * Source  Airy 1835; 2 x 3.8317 / pi
 * @example 550 nm, f/8 -> 10.7331 */
export function airyDiameter(wavelength_nm: number, fNumber: number): number {
  return (2.43934 * wavelength_nm * fNumber) / 1000;
}
