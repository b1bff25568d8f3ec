/** What a hand meter shows, as it is typed and as it is tapped. */
import { formatFStops, parseFStops } from "../units/index.ts";
import { type Parsed, parseFNumber } from "./entries.ts";

/** Whole stops that a hand meter shows. */
export const ENGRAVED = ["1", "1.4", "2", "2.8", "4", "5.6", "8", "11", "16", "22", "32", "45"];
export const TENTHS = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9];

/** As `parseFNumber`, and as meters show it: the stop large and its tenths small behind it, "8 4" */
export function parseMeter(text: string): Parsed {
  const shown = /^\s*(?:f\s*\/?\s*)?(\d+(?:[.,]\d)?)\s+([0-9])\s*$/i.exec(text);
  if (shown !== null) {
    const value = parseFStops(`${(shown[1] as string).replace(",", ".")} + 0.${shown[2]}`);
    if (value !== null) return { ok: true, value };
  }
  return parseFNumber(text);
}

/** The two parts of what is shown; null where it is beyond the engraved stops. */
export function partsOf(fNumber: number): { readonly stop: string; readonly tenths: number } | null {
  const match = /^f\/([\d.]+) \+ 0\.(\d)$/.exec(formatFStops(fNumber));
  return match === null ? null : { stop: match[1] as string, tenths: Number(match[2]) };
}

export function fNumberOf(stop: string, tenths: number): number {
  return parseFStops(`${stop} + 0.${tenths}`) ?? Number.NaN;
}
