/** Exposure meters: what is read for what arrives.
 * Source  ISO 2720:1974 (incident N^2/t = E S / C, reflected N^2/t = L S / K), ISO 10157:1991 for flash: a meter
 *         integrates over time, ambient in the gate included, so N = sqrt(H S / C) */
import {
  type Given,
  type LuminanceSeconds,
  type Lux,
  type LuxSeconds,
  positive,
  type Seconds,
} from "../units/index.ts";

/** Calibration constants in common use: flat 250, dome 340 lx.s; K 12.5 cd.s/m2. */
export const METER_CONSTANT = { flat: 250, dome: 340 } as const;
export const REFLECTED_CONSTANT = 12.5;

/** f-number of an incident reading.
 * Units   lx.s, ISO arithmetic, lx.s -> f-number
 * Domain  nothing, or less than nothing by rounding, reads 0
 * Errors  QuantityError where iso or constant is not above 0; never NaN
 * Accuracy 1e-5 of the printed table; reference/section1-meters
 * @example 160 lx.s, ISO 100, C 250 -> 8 */
export function incidentFNumber(luminousExposure: Given<LuxSeconds>, iso: number, constant: number): number {
  return luminousExposure > 0 ? Math.sqrt((luminousExposure * speed(iso)) / calibration(constant)) : 0;
}

/** f-number of a reflected reading.
 * Units   cd.s/m2, ISO arithmetic, cd.s/m2 -> f-number
 * Domain  nothing reads 0
 * Errors  QuantityError where iso or constant is not above 0; never NaN */
export function reflectedFNumber(
  luminanceSeconds: Given<LuminanceSeconds>,
  iso: number,
  constant: number = REFLECTED_CONSTANT,
): number {
  return luminanceSeconds > 0 ? Math.sqrt((luminanceSeconds * speed(iso)) / calibration(constant)) : 0;
}

/** Exposure that an incident meter must have had to read this f-number.
 * Errors  QuantityError where iso is not above 0 */
export function exposureOfReading(fNumber: number, iso: number, constant: number): LuxSeconds {
  return ((fNumber * fNumber * constant) / speed(iso)) as LuxSeconds;
}

/** What a flash meter integrates: the flash, and the steady light while its gate is open. */
export function mixedExposure(
  flash: Given<LuxSeconds>,
  ambient: Given<Lux>,
  gate_s: Given<Seconds>,
): LuxSeconds {
  return (flash + ambient * gate_s) as LuxSeconds;
}

/** Reflectance of a diffuser on which a reflected and an incident meter agree: pi K / C. */
export function meteredReflectance(reflectedConstant: number, incidentConstant: number): number {
  return (Math.PI * reflectedConstant) / calibration(incidentConstant);
}

function speed(iso: number): number {
  return positive("iso", iso, "");
}

function calibration(constant: number): number {
  return positive("meter constant", constant, "");
}
