/** What a hand meter shows, as it is typed. */
import { parseFStops } from "../units/index.ts";
import { type Parsed, parseFNumber } from "./entries.ts";

/** As `parseFNumber`, and as meters show it: the stop large and its tenths small behind it, "8 4" */
export function parseMeter(text: string): Parsed {
  const shown = /^\s*(?:f\s*\/?\s*)?(\d+(?:[.,]\d)?)\s+([0-9])\s*$/i.exec(text);
  if (shown !== null) {
    const value = parseFStops(`${(shown[1] as string).replace(",", ".")} + 0.${shown[2]}`);
    if (value !== null) return { ok: true, value };
  }
  return parseFNumber(text);
}
