/** Named uses to begin with. Each is a starting value to be written over: sizes and distances are common practice, no
 * source, unless it is said. What printers ask: 300 pixels an inch in print, 100 at arm's length, 50 at 15 feet (common
 * practice, no source). */
import type { Print } from "../plan/index.ts";
import { METRES_PER_INCH } from "../units/index.ts";

export interface NamedUse {
  readonly name: string;
  readonly print: Omit<Print, "cropWidth">;
}

/** A web page's pixel is a ninety-sixth of an inch, seen from an arm's length of 28 inches.
 * Source  W3C, CSS Values and Units: reference pixel */
const CSS_PIXELS_PER_INCH = 96;
const CSS_ARM_M = 28 * METRES_PER_INCH;
/** Screens that show two of their own for each of a page's pixels are usual (common practice, no source). */
const USUAL_DENSITY = 2;

/** Metres of a number of a web page's pixels. @example 96 -> 0.0254 */
export function metresOfCssPixels(pixels: number): number {
  return (pixels * METRES_PER_INCH) / CSS_PIXELS_PER_INCH;
}

/** A web page's pixels of a length. */
export function cssPixelsOf(metres: number): number {
  return (metres * CSS_PIXELS_PER_INCH) / METRES_PER_INCH;
}

/** Pixels of a screen for each of a page's, as pixels an inch. @example 2 -> 192 */
export function ppiOfDensity(density: number): number {
  return density * CSS_PIXELS_PER_INCH;
}

/** Whether a use is told in a web page's pixels. */
export function isForWeb(use: string): boolean {
  return /\bweb\b/i.test(use);
}

const printed = (
  use: string,
  width: number,
  height: number,
  viewingDistance: number,
  asksPpi: number,
): NamedUse => ({ name: use, print: { use, width, height, viewingDistance, asksPpi } });

export const NAMED_USES: readonly NamedUse[] = [
  // ISO 216 A4, and two of them side by side; read at 40 cm
  printed("page", 0.21, 0.297, 0.4, 300),
  printed("spread", 0.42, 0.297, 0.4, 300),
  printed("tram-shelter poster", 1.185, 1.75, 1.5, 100),
  printed("hall banner", 6, 3, 5, 50),
  printed("billboard", 8, 4, 20, 20),
  printed(
    "web banner",
    Number(metresOfCssPixels(1600).toFixed(5)),
    Number(metresOfCssPixels(600).toFixed(5)),
    Number(CSS_ARM_M.toFixed(3)),
    ppiOfDensity(USUAL_DENSITY),
  ),
];
