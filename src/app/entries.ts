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

/** One of the things that an entry can mean. */
export interface Meaning {
  readonly text: string;
  readonly value: number;
}

/** A number; or why it is none; or, with `meanings`, a question: two people would read it two ways. */
export type Parsed =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly why: string; readonly meanings?: readonly [Meaning, ...Meaning[]] };

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
    .replace(",", ".")
    .trim();
  const thirds = THIRD_MARKS[mark];
  if (thirds !== undefined) return good(2 ** (thirds / 2));
  const fNumber = parseFStops(mark);
  if (fNumber !== null) return good(fNumber);
  return bareNumber(mark, text.trim());
}

/** A number that is on no lens: 8.4 is f/8 and four tenths to one, the f-number 8.4 to another. Where no engraved stop
 * stands before the point, it can only be the f-number. */
function bareNumber(mark: string, typed: string): Parsed {
  const parts = /^(\d+)(?:\.(\d+))?$/.exec(mark);
  if (!parts || !(Number(mark) > 0)) {
    return bad(
      `“${typed}” is no mark on a lens: give a stop and tenths such as f/8 + 0.4, or a third such as 6.3.`,
    );
  }
  const [, whole, tenths] = parts;
  const number = Number(mark);
  const engraved = parseFStops(whole as string);
  if (engraved === null || tenths === undefined) return good(number);
  // 8.0 and 11.00 are the stops themselves
  if (Number(tenths) === 0) return good(engraved);
  const asStop = { text: `f/${whole} + 0.${tenths}`, value: engraved * 2 ** (Number(`0.${tenths}`) / 2) };
  const asNumber = { text: `f-number ${mark}, that is ${formatFStops(number)}`, value: number };
  return { ok: false, why: `“${typed}” is read two ways. Which is meant?`, meanings: [asStop, asNumber] };
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
