/** Exposure meters: what is read for what arrives.
 * Source  ISO 2720:1974 (incident N^2/t = E S / C, reflected N^2/t = L S / K), ISO 10157 for flash: N = sqrt(H S / C) */

/** Calibration constants in common use: flat 250, dome 340 lx.s; K 12.5 cd.s/m2. */
export const METER_CONSTANT = { flat: 250, dome: 340 } as const;
export const REFLECTED_CONSTANT = 12.5;

/** f-number of an incident reading. Units: luminousExposure lx.s, iso arithmetic. */
export function incidentFNumber(luminousExposure: number, iso: number, constant: number): number {
  return Math.sqrt((luminousExposure * iso) / constant);
}

/** f-number of a reflected reading. Units: cd.s/m2. */
export function reflectedFNumber(
  luminanceSeconds: number,
  iso: number,
  constant: number = REFLECTED_CONSTANT,
): number {
  return Math.sqrt((luminanceSeconds * iso) / constant);
}

/** Exposure that a meter must have had to read this f-number, lx.s. */
export function exposureOfReading(fNumber: number, iso: number, constant: number): number {
  return (fNumber * fNumber * constant) / iso;
}

/** Response of a dome (cardioid) and of a flat receptor to light from an angle off its axis. */
export function domeResponse(angle_rad: number): number {
  return (1 + Math.cos(angle_rad)) / 2;
}

export function flatResponse(angle_rad: number): number {
  return Math.max(0, Math.cos(angle_rad));
}

/** EV at ISO 100 of an illuminance, lx. */
export function ev100OfIlluminance(illuminance: number, constant: number): number {
  return Math.log2((illuminance * 100) / constant);
}

export function ev100OfLuminance(luminance: number, constant: number = REFLECTED_CONSTANT): number {
  return Math.log2((luminance * 100) / constant);
}

/** Exposure value of a camera setting (APEX Ev = Av + Tv). */
export function exposureValue(fNumber: number, shutter_s: number): number {
  return Math.log2((fNumber * fNumber) / shutter_s);
}

/** Guide number in metres of an axial intensity in cd.s; ISO 1230. */
export function guideNumber(axialIntensity: number, iso: number, constant: number): number {
  return Math.sqrt((axialIntensity * iso) / constant);
}

/** Change in stops when a small source moves from one distance to another. */
export function inverseSquareStops(from_m: number, to_m: number): number {
  return -2 * Math.log2(to_m / from_m);
}
