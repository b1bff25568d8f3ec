/** Lighting ratios, counted as (key + fill) : fill, the lit side over the shadow side. The other convention,
 * key : fill, is one less; say which is meant.
 * Source  US Army SS0510, US Navy NAVEDTRA 14209 chapter 7: (main + fill) : fill. On-axis fill, no key in shadow */
import { type Given, QuantityError, type Ratio, type Stops } from "../units/index.ts";

/** Lit side over shadow side of a key that is so many stops over the fill. @example 1 stop -> 3 */
export function litToShadowRatio(keyOverFill: Given<Stops>): Ratio {
  return (2 ** keyOverFill + 1) as Ratio;
}

/** Stops of key over fill that make a ratio.
 * Errors  QuantityError at 1 and below, where no key is left
 * @example 3 -> 1 */
export function keyOverFillStops(litToShadow: Given<Ratio>): Stops {
  return Math.log2(keyShare(litToShadow)) as Stops;
}

/** How many times farther than the key an equal head stands as fill. Errors as above. @example 5 -> 2 */
export function fillDistanceRatio(litToShadow: Given<Ratio>): Ratio {
  return Math.sqrt(keyShare(litToShadow)) as Ratio;
}

/** Stops by which a background must be lit over the subject to come out so far above middle grey (18 %).
 * Errors  QuantityError where the reflectance is not above 0
 * @example white paper of 0.80 as middle grey -> -2.15200 */
export function backgroundStops(aboveGrey: Given<Stops>, reflectance: number): Stops {
  if (!(reflectance > 0 && reflectance <= 1)) {
    throw new QuantityError("reflectance", reflectance, "", "a share above 0 and up to 1");
  }
  return (aboveGrey + Math.log2(0.18 / reflectance)) as Stops;
}

function keyShare(litToShadow: number): number {
  if (litToShadow > 1 && Number.isFinite(litToShadow)) return litToShadow - 1;
  throw new QuantityError("lit to shadow", litToShadow, "", "a ratio above 1");
}
