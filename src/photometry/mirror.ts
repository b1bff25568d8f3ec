/** What smooth surfaces throw back: glass, the wet front of an eye. */
import { QuantityError } from "../units/index.ts";

/** Share that a smooth dielectric reflects, unpolarised light from the air.
 * Units   rad off the normal, refractive index against air -> share
 * Domain  0 to a quarter turn; index above 1
 * Errors  QuantityError otherwise
 * Accuracy 1e-5 of the printed values; reference/section10-eye, section7-cie171
 * Source  Fresnel: mean of the shares for light polarised across and along
 * @example 0, 1.376 (cornea) -> 0.0250428 */
export function fresnelReflectance(angle_rad: number, index: number): number {
  const [across, along] = polarised(angle_rad, index);
  return (across + along) / 2;
}

/** The same by a fit that needs no root. Source: Schlick 1994 */
export function schlickReflectance(angle_rad: number, index: number): number {
  const straight = fresnelReflectance(0, index);
  return straight + (1 - straight) * (1 - Math.cos(angle_rad)) ** 5;
}

/** Share that a clear pane passes, light thrown to and fro between its faces included, nothing absorbed.
 * Source  (1 - R) / (1 + R) for each polarisation, by summing the passes */
export function paneTransmittance(angle_rad: number, index: number): number {
  const [across, along] = polarised(angle_rad, index).map((r) => (1 - r) / (1 + r));
  return (across + along) / 2;
}

function polarised(angle_rad: number, index: number): [number, number] {
  if (!(index > 1 && Number.isFinite(index))) {
    throw new QuantityError("refractive index", index, "", "a number above 1");
  }
  if (!(angle_rad >= 0 && angle_rad <= Math.PI / 2)) {
    throw new QuantityError("angle", angle_rad, "rad", "0 to a quarter turn");
  }
  const c = Math.cos(angle_rad);
  const inside = Math.sqrt(index * index - Math.sin(angle_rad) ** 2);
  const across = (c - inside) / (c + inside);
  const along = (index * index * c - inside) / (index * index * c + inside);
  return [across * across, along * along];
}

/** Height of the image of a light in the cornea, which lies half its radius behind the apex.
 * Units   one unit of length throughout
 * Source  convex mirror: size f / (distance + f), f = radius / 2 = 3.9 mm for a cornea of 7.8 mm
 * @example 1000 mm at 1500 mm, radius 7.8 mm -> 2.59326 mm */
export function catchlightSize(size: number, distance: number, corneaRadius: number): number {
  const focal = corneaRadius / 2;
  return (size * focal) / (distance + focal);
}
