/** Configuration factors F = E / (pi L) of a uniform disc and of a sphere.
 * Source  Howell, A Catalog of Radiation Configuration Factors, section B */
import { QuantityError } from "../units/index.ts";

/** Element parallel to the disc, at this height and offset from its axis; on the axis r^2 / (r^2 + h^2).
 * Units   m, m, m -> 1
 * Domain  radius above 0; height 0 is on the disc's plane: 1 inside its rim, a half on it, 0 outside
 * Accuracy 1e-5 of the printed table; reference/section5-factors
 * Source  Howell B-12, and its companion off the axis
 * @example r 1, h 1, on the axis -> 0.5 */
export function discFactor(radius: number, height: number, offset: number): number {
  const outside = height ** 2 + offset ** 2 - radius ** 2;
  const d = rimProduct(radius, height, offset);
  if (!(d > 0)) return 0.5;
  // (1 - outside / d) / 2 without its difference, which far away would leave no digits
  if (outside > 0) return (2 * (radius * height) ** 2) / ((d + outside) * d);
  return 0.5 * (1 - outside / d);
}

/** Element that faces the disc's axis from outside.
 * Domain  offset at least the radius, so that the whole disc is above its horizon; height 0 sees nothing
 * Accuracy 1e-5 of the printed table; reference/section5-factors
 * Source  Howell, disc off the axis, perpendicular */
export function discFactorAcross(radius: number, height: number, offset: number): number {
  const d = rimProduct(radius, height, offset);
  if (!(d > 0)) return 0;
  // (h / 2a) (q / d - 1), its difference worked out the same way
  const q = height ** 2 + offset ** 2 + radius ** 2;
  return (2 * height * radius ** 2 * offset) / ((q + d) * d);
}

/** Nearest times farthest distance to the rim: sqrt(q^2 - 4 r^2 a^2) of the catalogue, without its difference. */
function rimProduct(radius: number, height: number, offset: number): number {
  return Math.hypot(height, offset - radius) * Math.hypot(height, offset + radius);
}

/** Element on the disc's axis, its normal tilted from the axis; what lies below its horizon is cut off.
 * Units   m, m, rad -> 1
 * Domain  tilt 0 to pi; 0 from where the whole disc is below the horizon
 * Accuracy 1e-5 of the printed table; reference/section5-factors
 * Source  Howell B-13 */
export function tiltedDiscFactor(radius: number, height: number, tilt_rad: number): number {
  const h = height / radius;
  const whole = Math.cos(tilt_rad) / (1 + h * h);
  const horizon = Math.atan(h);
  if (tilt_rad <= horizon) return whole;
  if (tilt_rad >= Math.PI - horizon) return 0;
  const s = Math.sin(tilt_rad);
  const cut = (h * Math.cos(tilt_rad)) / s;
  const x = Math.sqrt(Math.max(0, 1 - cut * cut));
  const above = Math.PI - Math.acos(Math.max(-1, Math.min(1, cut)));
  return (Math.atan2(x * s, h) - (h * x * s) / (1 + h * h) + whole * above) / Math.PI;
}

/** E / (pi L0) on the axis of a disc whose luminance falls as cos^(m - 1), so that its intensity falls as cos^m.
 * Source  E = 2 pi L0 (1 - cos^(m + 1) alpha) / (m + 1), by integration
 * @example r 0.5, h 1, m 4 -> 0.171027 */
export function lobedDiscFactor(radius: number, height: number, exponent: number): number {
  const cosine = height / Math.hypot(radius, height);
  return (2 * (1 - cosine ** (exponent + 1))) / (exponent + 1);
}

/** Sphere of uniform luminance; its centre lies at this distance, the element's normal tilted from the line to it.
 * Units   m, m, rad -> 1
 * Domain  the point outside the sphere; tilt 0 to pi; what lies below the horizon is cut off
 * Errors  QuantityError where the distance is not above the radius
 * Accuracy 1e-5 of the printed values; reference/section5-factors
 * Source  (R / d)^2 cos t above the horizon; a sphere fills the same cone as the disc in its tangent cone, and what
 *         arrives depends on the cone alone */
export function sphereFactor(radius: number, distance: number, tilt_rad: number): number {
  if (!(distance > radius))
    throw new QuantityError("distance", distance, "m", `more than the radius, ${radius} m`);
  const tangent = Math.sqrt((distance - radius) * (distance + radius));
  return tiltedDiscFactor(radius / tangent, 1, tilt_rad);
}
