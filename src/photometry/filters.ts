/** Colour filters before a light, told by what they do to its colour temperature. */
import { meterColour, type Rgb } from "./colour.ts";

/** What filters are made for: warming ones go before flash, cooling ones before tungsten. */
export const DAYLIGHT_K = 5600;
export const TUNGSTEN_K = 3200;

/** What a filter lets through that shifts a light by so many mired: the colour behind it over the colour before it, the
 * channel that passes best at 1. A warming filter is made for daylight, a cooling one for tungsten. A real filter takes
 * some more, in all three channels alike.
 * Units   mired, + is warmer -> linear sRGB, largest 1
 * Domain  -302 to +821 mired, which leave 1000 K to 100,000 K
 * Errors  QuantityError outside
 * Accuracy exact for the light that the filter is made for, by construction; for others as far as three channels stand
 *          for a spectrum: full warming on tungsten and full cooling on daylight within a fifth of the shift
 * @example +133.93 (5600 K to 3200 K) and -133.93 undo each other */
export function filterOfShift(shift_mired: number): Rgb {
  const made_K = shift_mired < 0 ? TUNGSTEN_K : DAYLIGHT_K;
  const before = meterColour(made_K);
  const behind = meterColour(1e6 / (1e6 / made_K + shift_mired));
  const through = before.map((v, c) => behind[c] / v);
  const most = Math.max(...through);
  return [through[0] / most, through[1] / most, through[2] / most];
}
