/** Photometric files by ANSI/IES LM-63 (1986 to 2019): how much light a lamp sends which way.
 * Source  published-checks section 15; ANSI/IESNA LM-63-02 for the order of the fields and for what angles mean */

import { type AngleFault, horizontalFault, verticalFault } from "./lm63-angles.ts";
import { type LineNumbers, readNumbers } from "./lm63-numbers.ts";

export interface PhotometricFile {
  /** "1986" where the file names no version */
  readonly version: string;
  readonly keywords: ReadonlyMap<string, string>;
  readonly vertical_deg: Float64Array;
  readonly horizontal_deg: Float64Array;
  /** vertical.length numbers for each horizontal angle in turn, cd, multiplier and ballast factors applied */
  readonly candela: Float64Array;
  /** the luminous opening as the axis sees it, m: width across and length along horizontal angle 0; its sides' height is
   * left out; 0 means a point or a line */
  readonly opening: { readonly width: number; readonly length: number; readonly round: boolean };
}

/** What is wrong with a file, and in which of its lines. */
export interface PhotometricFault {
  readonly line: number;
  readonly what: string;
}

export type PhotometricResult =
  | { readonly ok: true; readonly file: PhotometricFile }
  | { readonly ok: false; readonly fault: PhotometricFault };

const FOOT = 0.3048;
/** A file whose brightest direction is under this sends no light that anything could measure, cd. */
const FAINTEST = 1e-6;
/** Far beyond any goniometer; a count above it is a slip. */
const MOST_ANGLES = 1000;
const WIDEST = 100;
const BRIGHTEST = 1e9;

/** Some old programs end a text with it. */
const END_OF_FILE = "\u001a";

/** Reads a file's text, or says what is wrong with it.
 * Domain  photometry of type C, no tilt
 * Errors  none thrown, whatever the text */
export function readPhotometricFile(text: string): PhotometricResult {
  const lines = text
    .replace(/^\ufeff/, "")
    .split(END_OF_FILE, 1)[0]
    .split(/\r\n|\r|\n/);
  const wrong = (line: number, what: string): PhotometricResult => ({ ok: false, fault: { line, what } });
  const tilt = lines.findIndex((line) => /^\s*TILT\s*=/i.test(line));
  if (tilt < 0)
    return wrong(1, "has no line TILT=NONE: this is not an LM-63 photometric file, or its beginning is lost");
  const how = lines[tilt].split("=")[1].trim();
  if (how.toUpperCase() !== "NONE")
    return wrong(
      tilt + 1,
      `says TILT=${how.slice(0, 40)}; only TILT=NONE is read: take the file without tilt`,
    );
  const numbers = readNumbers(lines, tilt + 1);
  if ("fault" in numbers) return { ok: false, fault: numbers.fault };
  return fromNumbers(numbers, versionOf(lines[0]), keywordsOf(lines.slice(0, tilt)));
}

function versionOf(first: string): string {
  const named = /^\s*(?:IES(?:NA)?\s*:?\s*(?:LM-63-)?)(\d+)/i.exec(first);
  if (!named) return "1986";
  return named[1] === "91" ? "1991" : named[1];
}

/** MORE goes on with the keyword before it; of one that comes twice the last counts. */
function keywordsOf(lines: readonly string[]): Map<string, string> {
  const out = new Map<string, string>();
  let last = "";
  for (const line of lines) {
    const match = /^\s*\[([^\]]{1,60})\]\s*(.*)$/.exec(line);
    if (!match) continue;
    const name = match[1].toUpperCase();
    const before = name === "MORE" ? out.get(last) : undefined;
    if (before === undefined) last = name;
    out.set(last, before === undefined ? match[2].trim() : `${before}\n${match[2].trim()}`);
  }
  return out;
}

/** Negative sizes mean round; a tube on its side is round upward only, and a rectangle as the axis sees it.
 * Source  ANSI/IES LM-63-19 table 1 for the signs, and the older forms with 0 in place of the second diameter */
function openingOf(width: number, length: number, height: number, unit_m: number) {
  const onItsSide = height < 0 && (width > 0 || length > 0);
  const tube = onItsSide ? Math.abs(height) : 0;
  return {
    width: (Math.abs(width) || tube) * unit_m,
    length: (Math.abs(length) || tube) * unit_m,
    round: !onItsSide && (width < 0 || length < 0),
  };
}

const FIELDS = [
  "the number of lamps",
  "the lumens of a lamp",
  "the multiplier",
  "the number of vertical angles",
  "the number of horizontal angles",
  "the photometric type",
  "the units",
  "the width of the opening",
  "the length of the opening",
  "the height of the opening",
  "the ballast factor",
  "the field for future use",
  "the input watts",
] as const;

function fromNumbers(
  { values, lineOf, lastLine }: LineNumbers,
  version: string,
  keywords: Map<string, string>,
): PhotometricResult {
  const wrong = (at: number, what: string): PhotometricResult => ({
    ok: false,
    fault: { line: at < values.length ? lineOf[at] : lastLine, what },
  });
  if (values.length < FIELDS.length)
    return wrong(values.length, `ends before ${FIELDS[values.length]}: the file is cut short`);
  const [, , multiplier, verticals, horizontals, type, units, width, length, height, ballast, lampFactor] =
    values;
  for (const at of [3, 4]) {
    if (!Number.isInteger(values[at]) || values[at] < 1 || values[at] > MOST_ANGLES)
      return wrong(at, `${FIELDS[at]} must be a whole number from 1 to ${MOST_ANGLES}; it is ${values[at]}`);
  }
  if (type !== 1) return wrong(5, `the photometric type must be 1 (type C); it is ${type}`);
  if (units !== 1 && units !== 2) return wrong(6, `the units must be 1 (feet) or 2 (metres); it is ${units}`);
  if (!Number.isInteger(values[0]) || values[0] < 0)
    return wrong(0, `${FIELDS[0]} must be a whole number, not under 0; it is ${values[0]}`);
  for (const at of [7, 8, 9])
    if (Math.abs(values[at]) > WIDEST)
      return wrong(at, `${FIELDS[at]} is ${values[at]}: no lamp is so large`);
  // the field for future use was the ballast-lamp factor of the older forms; 0 there means 1
  const factor = multiplier * ballast * (lampFactor > 0 ? lampFactor : 1);
  if (!(factor > 0)) return wrong(2, "the multiplier times the ballast factors must be more than 0");
  const first = FIELDS.length;
  const wanted = first + verticals + horizontals + verticals * horizontals;
  if (values.length < wanted)
    return wrong(values.length, `ends after ${values.length} of ${wanted} numbers: the file is cut short`);
  if (values.length > wanted)
    return wrong(wanted, `goes on after its ${wanted} numbers: the counts are wrong`);
  const vertical_deg = Float64Array.from(values.slice(first, first + verticals));
  const horizontal_deg = Float64Array.from(values.slice(first + verticals, first + verticals + horizontals));
  const angles: AngleFault | null = verticalFault(vertical_deg) ?? horizontalFault(horizontal_deg);
  if (angles) return wrong(first + (angles.horizontal ? verticals : 0) + angles.index, angles.what);
  const candela = new Float64Array(verticals * horizontals);
  for (let i = 0; i < candela.length; i++) {
    const at = first + verticals + horizontals + i;
    candela[i] = values[at] * factor;
    if (!(candela[i] >= 0 && candela[i] <= BRIGHTEST))
      return wrong(at, `an intensity must be from 0 to ${BRIGHTEST} cd; it is ${candela[i]}`);
  }
  if (!candela.some((cd) => cd > FAINTEST))
    return wrong(wanted - 1, `sends no light at all: no intensity is over ${FAINTEST} cd`);
  return {
    ok: true,
    file: {
      version,
      keywords,
      vertical_deg,
      horizontal_deg,
      candela,
      opening: openingOf(width, length, height, units === 1 ? FOOT : 1),
    },
  };
}
