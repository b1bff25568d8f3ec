/** Exposure values, the additive system of photographic exposure: every step is one stop.
 * Source  ASA PH2.5-1960, ANSI PH2.12 (APEX): Ev = Av + Tv = Bv + Sv */
import { type Given, type Luminance, type Lux, positive, type Stops } from "../units/index.ts";
import { REFLECTED_CONSTANT } from "./meters.ts";

/** Av = 2 log2 N. @example f/8 -> 6 */
export function apertureValue(fNumber: number): Stops {
  return (2 * Math.log2(positive("f-number", fNumber, ""))) as Stops;
}

/** Tv = -log2 t. @example 1/64 s -> 6 */
export function timeValue(shutter_s: number): Stops {
  return -Math.log2(positive("shutter", shutter_s, "s")) as Stops;
}

/** Sv = log2(S / 3.125), so that ISO 100 is 5. */
export function speedValue(iso: number): Stops {
  return Math.log2(positive("iso", iso, "") / 3.125) as Stops;
}

/** Exposure value of a camera setting, Ev = Av + Tv. @example f/8, 1/125 s -> 12.9658 */
export function exposureValue(fNumber: number, shutter_s: number): Stops {
  return (apertureValue(fNumber) + timeValue(shutter_s)) as Stops;
}

/** EV at ISO 100 of an illuminance.
 * Errors  QuantityError where there is no light: no number of stops says so */
export function ev100OfIlluminance(illuminance: Given<Lux>, constant: number): Stops {
  return Math.log2((positive("illuminance", illuminance, "lx") * 100) / constant) as Stops;
}

/** EV at ISO 100 of a luminance; errors as above. */
export function ev100OfLuminance(luminance: Given<Luminance>, constant: number = REFLECTED_CONSTANT): Stops {
  return Math.log2((positive("luminance", luminance, "cd/m2") * 100) / constant) as Stops;
}

/** E = 2^EV C / 100. @example EV 0, C 250 -> 2.5 lx */
export function illuminanceOfEv100(ev100: Given<Stops>, constant: number): Lux {
  return ((2 ** ev100 * constant) / 100) as Lux;
}

/** L = 2^EV K / 100. @example EV 0, K 12.5 -> 0.125 cd/m2 */
export function luminanceOfEv100(ev100: Given<Stops>, constant: number = REFLECTED_CONSTANT): Luminance {
  return ((2 ** ev100 * constant) / 100) as Luminance;
}

/** The logarithmic scale of film speed, 10 log10 S + 1. @example ISO 100 -> 21 */
export function dinSpeed(iso: number): number {
  return 10 * Math.log10(positive("iso", iso, "")) + 1;
}
