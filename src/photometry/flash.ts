/** Flash by its guide number, and what distance does to a small source.
 * Source  ISO 1230: guide number = N d; a point of axial intensity I gives H = I / d^2, so GN = sqrt(I S / C) */
import { type CandelaSeconds, type Given, positive, type Stops } from "../units/index.ts";
import { METER_CONSTANT } from "./meters.ts";

/** Guide number in metres of an axial intensity.
 * Errors  QuantityError where intensity, iso or constant is not above 0
 * @example 1000 cd.s, ISO 100, C 250 -> 20 */
export function guideNumber(axialIntensity: Given<CandelaSeconds>, iso: number, constant: number): number {
  const light = positive("axial intensity", axialIntensity, "cd.s") * positive("iso", iso, "");
  return Math.sqrt(light / positive("meter constant", constant, ""));
}

/** Axial intensity of a flash of this guide number, metres, at full power: C GN^2 / S.
 * @example 40 m at ISO 100 -> 4000 cd.s */
export function intensityOfGuideNumber(
  guideNumber_m: number,
  iso: number,
  constant: number = METER_CONSTANT.flat,
): CandelaSeconds {
  return ((constant * guideNumber_m ** 2) / positive("iso", iso, "")) as CandelaSeconds;
}

/** A guide number at another speed and a share of the power: it grows with the root of both.
 * @example 40 m from ISO 100 to ISO 400 at a quarter of the power -> 40 */
export function scaledGuideNumber(
  guideNumber_m: number,
  from_iso: number,
  to_iso: number,
  powerShare: number,
): number {
  return guideNumber_m * Math.sqrt((to_iso / positive("iso", from_iso, "")) * powerShare);
}

/** Aperture for a distance. @example guide number 40 m at 5 m -> f/8 */
export function guideFNumber(guideNumber_m: number, distance_m: number): number {
  return guideNumber_m / positive("distance", distance_m, "m");
}

/** Change in stops when a small source moves from one distance to another. */
export function inverseSquareStops(from_m: number, to_m: number): Stops {
  return (-2 * Math.log2(positive("distance", to_m, "m") / positive("distance", from_m, "m"))) as Stops;
}
