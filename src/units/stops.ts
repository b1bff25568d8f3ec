/** Stops and f-numbers, and the one way in which people see them: engraved stop plus tenths. */
import { QuantityError } from "./errors.ts";
import type { Given, Ratio, Stops } from "./quantity.ts";

/** Whole stops as engraved on lenses; the exact numbers are 2^(n/2) (ASA PH2.5-1960). */
const ENGRAVED = [
  "0.5",
  "0.7",
  "1",
  "1.4",
  "2",
  "2.8",
  "4",
  "5.6",
  "8",
  "11",
  "16",
  "22",
  "32",
  "45",
  "64",
  "90",
  "128",
  "180",
  "256",
];
/** n of the first engraved stop: f/0.5 is 2^(-2/2). */
const FIRST = -2;

/** f-number to "f/8 + 0.4": the engraved stop at or below, and tenths of a stop over it.
 * Domain  fNumber > 0; 0 or not finite gives "no reading"; beyond the engraved stops "under f/0.5", "over f/256"
 * @example 8.03 -> "f/8 + 0.0" */
export function formatFStops(fNumber: number): string {
  if (!(fNumber > 0) || !Number.isFinite(fNumber)) return "no reading";
  const tenths = Math.round(20 * Math.log2(fNumber));
  const stop = Math.floor(tenths / 10);
  if (stop < FIRST) return "under f/0.5";
  const engraved = ENGRAVED[stop - FIRST];
  if (engraved === undefined) return "over f/256";
  return `f/${engraved} + 0.${tenths - 10 * stop}`;
}

/** Exact f-number of an engraved stop plus tenths, as `formatFStops` writes it; null where it is something else.
 * A bare decimal such as 8.4 is refused: two people read it two ways.
 * @example "f/8 + 0.4" -> 9.18959 */
export function parseFStops(text: string): number | null {
  const match = /^\s*(?:f\s*\/?\s*)?(\d+(?:\.\d+)?)\s*(?:\+\s*(0?\.\d|0))?\s*$/i.exec(text);
  if (!match) return null;
  const index = ENGRAVED.indexOf(match[1]);
  if (index < 0) return null;
  return 2 ** ((index + FIRST + Number(match[2] ?? 0)) / 2);
}

/** Stops with their sign, a true minus, for people.
 * Domain  any; not finite gives "no reading"; what rounds to nothing carries no sign
 * @example -2.14 -> "−2.1" */
export function formatStops(stops: Given<Stops>, digits = 1): string {
  if (!Number.isFinite(stops)) return "no reading";
  const text = Math.abs(stops).toFixed(digits);
  if (Number(text) === 0) return text;
  return stops < 0 ? `−${text}` : `+${text}`;
}

/** Errors  QuantityError where the ratio is not above 0: nothing is no number of stops below something
 * @example 2 -> 1 */
export function stopsOfRatio(ratio: Given<Ratio>): Stops {
  if (!(ratio > 0 && Number.isFinite(ratio))) {
    throw new QuantityError("ratio", ratio, "", "a number above 0");
  }
  return Math.log2(ratio) as Stops;
}

/** @example 1 -> 2 */
export function ratioOfStops(stops: Given<Stops>): Ratio {
  return (2 ** stops) as Ratio;
}
