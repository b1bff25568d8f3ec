/** What people type and what they are shown: the two sides of each kind of number. */
import {
  formatFStops,
  formatLength,
  formatShutter,
  type LengthUnits,
  parseFStops,
  parseLength,
  QuantityError,
} from "../units/index.ts";

export type Parsed =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly why: string };

/** Third-stop marks as cameras show them, exact: 2^(k/6). Whole stops are read by `parseFStops`. */
const THIRD_MARKS: Readonly<Record<string, number>> = {
  "1.1": 1 / 3,
  "1.2": 2 / 3,
  "1.6": 4 / 3,
  "1.8": 5 / 3,
  "2.2": 7 / 3,
  "2.5": 8 / 3,
  "3.2": 10 / 3,
  "3.5": 11 / 3,
  "4.5": 13 / 3,
  "5.0": 14 / 3,
  "5": 14 / 3,
  "6.3": 16 / 3,
  "7.1": 17 / 3,
  "9": 19 / 3,
  "10": 20 / 3,
  "13": 22 / 3,
  "14": 23 / 3,
  "18": 25 / 3,
  "20": 26 / 3,
};

const bad = (why: string): Parsed => ({ ok: false, why });
const good = (value: number): Parsed => ({ ok: true, value });

export function lengthText(metres: number, units: LengthUnits): string {
  return formatLength(metres, units);
}

export function parseLengthText(text: string, units: LengthUnits): Parsed {
  try {
    return good(parseLength(text, units));
  } catch (error) {
    if (!(error instanceof QuantityError)) throw error;
    return bad(`“${text.trim()}” is no length: give one such as 1.5, 150cm or 4'11".`);
  }
}

export function degreesText(degrees: number): string {
  const tenths = Math.round(degrees * 10) / 10;
  return `${tenths < 0 ? "−" : ""}${Math.abs(tenths)}°`;
}

/** A plain number with an optional unit behind it; a comma or a true minus is understood. */
export function parseNumber(text: string, unit: RegExp, example: string): Parsed {
  const bare = text.trim().replace(/^[−–]/, "-").replace(",", ".").replace(unit, "").trim();
  const value = bare === "" ? Number.NaN : Number(bare);
  if (!Number.isFinite(value)) return bad(`“${text.trim()}” is no number: give one such as ${example}.`);
  return good(value);
}

export const parseDegrees = (text: string) => parseNumber(text, /\s*(°|deg|degrees)$/i, "15");

export const fNumberText = formatFStops;

export function parseFNumber(text: string): Parsed {
  const mark = text
    .trim()
    .replace(/^f\s*\/?\s*/i, "")
    .trim();
  const thirds = THIRD_MARKS[mark];
  if (thirds !== undefined) return good(2 ** (thirds / 2));
  const fNumber = parseFStops(text);
  if (fNumber !== null) return good(fNumber);
  return bad(
    `“${text.trim()}” is no mark on a lens: give a stop and tenths such as f/8 + 0.4, or a third such as 6.3.`,
  );
}

export const shutterText = formatShutter;

/** "1/160", "0.5 s", "2". */
export function parseShutter(text: string): Parsed {
  const bare = text.trim().replace(/\s*s$/i, "").replace(",", ".");
  const parts = /^(\d+(?:\.\d+)?)\s*\/\s*(\d+(?:\.\d+)?)$/.exec(bare);
  const value = parts ? Number(parts[1]) / Number(parts[2]) : bare === "" ? Number.NaN : Number(bare);
  if (!Number.isFinite(value) || value <= 0) {
    return bad(`“${text.trim()}” is no shutter time: give one such as 1/160 or 0.5 s.`);
  }
  return good(value);
}
