/** What is typed of a finished picture, and how it is shown: numbers that may also be left open. */
import { cssPixelsOf, metresOfCssPixels } from "../deliver/index.ts";
import type { Camera, Print } from "../plan/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";
import { parseLengthText, parseNumber } from "./entries.ts";
import { rounded } from "./fields.tsx";
import type { Entry } from "./find-spans.ts";

export const NOTHING = "nothing";
export const DIAGONAL = "its diagonal";
export const AS_FITS = "as much as fits";
export const UNKNOWN = "not known";

const bad = (why: string) => ({ ok: false, why }) as const;
const good = <T>(value: T) => ({ ok: true, value }) as const;
const isLeftOpen = (text: string, word: string) => ["", word].includes(text.trim().toLowerCase());

export const askedText = (ppi: number | null) => (ppi === null ? NOTHING : `${rounded(ppi, 1)} an inch`);

export function parseAsked(text: string): Entry<number | null> {
  if (isLeftOpen(text, NOTHING)) return good(null);
  return parseNumber(text, /\s*(an inch|per inch|ppi|dpi)$/i, `300, or “${NOTHING}”`);
}

export const awayText = (away: number | null, units: LengthUnits) =>
  away === null ? DIAGONAL : formatLength(away, units);

export function parseAway(text: string, units: LengthUnits): Entry<number | null> {
  return isLeftOpen(text, DIAGONAL) ? good(null) : parseLengthText(text, units);
}

export const cropText = (share: number | null) => (share === null ? AS_FITS : `${rounded(100 * share, 1)} %`);

/** Percent of the picture's width. */
export function parseCrop(text: string): Entry<number | null> {
  if (isLeftOpen(text, AS_FITS)) return good(null);
  const read = parseNumber(text, /\s*%$/, `60 %, or “${AS_FITS}”`);
  if (!read.ok) return read;
  const isShare = read.value >= 1 && read.value <= 100;
  return isShare ? good(rounded(read.value / 100, 4)) : bad(`${text.trim()} is no share: give 1 % to 100 %.`);
}

type Pair = readonly [number, number];
const PAIR = /^(\d+)\s*(?:[x×*,/]|\s|by)\s*(\d+)(?:\s*(?:px|pixels))?$/i;

function parsePair(text: string, example: string): Entry<Pair> {
  const match = PAIR.exec(text.trim());
  return match
    ? good([Number(match[1]), Number(match[2])])
    : bad(`“${text.trim()}” is no pair of whole numbers: give one such as ${example}.`);
}

export function fileText(pixels: Camera["pixels"]): string {
  return pixels === null ? UNKNOWN : `${pixels.width} × ${pixels.height}`;
}

/** Pixels of the file as the body is held level, whichever way round they are typed. */
export function parseFile(text: string, sensor: Camera["sensor"]): Entry<Camera["pixels"]> {
  if (isLeftOpen(text, UNKNOWN)) return good(null);
  const read = parsePair(text, `8256 × 5504, or “${UNKNOWN}”`);
  return read.ok ? good(levelPixels(read.value, sensor)) : read;
}

export function levelPixels([a, b]: Pair, sensor: Camera["sensor"]): { width: number; height: number } {
  const [large, small] = a > b ? [a, b] : [b, a];
  return sensor.width >= sensor.height ? { width: large, height: small } : { width: small, height: large };
}

type Sides = Pick<Print, "width" | "height">;

export function pageText({ width, height }: Sides): string {
  return `${rounded(cssPixelsOf(width), 0)} × ${rounded(cssPixelsOf(height), 0)}`;
}

/** A web page's pixels, as the lengths that they stand for. */
export function parsePage(text: string): Entry<Sides> {
  const read = parsePair(text, "1600 × 600");
  if (!read.ok) return read;
  const [width, height] = read.value.map((pixels) => rounded(metresOfCssPixels(pixels), 5));
  return good({ width: width ?? 0, height: height ?? 0 });
}
