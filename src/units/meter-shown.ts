/** What a hand meter shows: the engraved stop large, its tenths small behind it. */
import { formatFStops, parseFStops } from "./stops.ts";

/** Whole stops that a hand meter shows. */
export const METER_STOPS = ["1", "1.4", "2", "2.8", "4", "5.6", "8", "11", "16", "22", "32", "45"];
export const TENTHS = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9];

/** The two parts of what is shown; null where it is beyond the engraved stops. */
export function partsOfFNumber(fNumber: number): { readonly stop: string; readonly tenths: number } | null {
  const match = /^f\/([\d.]+) \+ 0\.(\d)$/.exec(formatFStops(fNumber));
  return match === null ? null : { stop: match[1], tenths: Number(match[2]) };
}

/** Exact f-number of the two parts; NaN where they are none. */
export function fNumberOfParts(stop: string, tenths: number): number {
  return parseFStops(`${stop} + 0.${tenths}`) ?? Number.NaN;
}

/** How a reading lies to what was wanted: "0.3 stop under", "1.2 stops over"; "level" within half a tenth. Null where
 * nothing arrives.
 * @example 8, 9.18959 -> "0.4 stop under" */
export function formatOff(made: number, wanted: number): string | null {
  const stops = 2 * Math.log2(made / wanted);
  if (!Number.isFinite(stops)) return null;
  const text = Math.abs(stops).toFixed(1);
  if (Number(text) === 0) return "level";
  return `${text} ${Number(text) <= 1 ? "stop" : "stops"} ${stops < 0 ? "under" : "over"}`;
}
