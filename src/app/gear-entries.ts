/** What may not be known of gear, as it is typed and shown: weights, pixels, times. */
import { MOST_KG } from "../plan/index.ts";
import { formatWeight, type LengthUnits, parseWeight, QuantityError } from "../units/index.ts";
import { degreesText, type Parsed, parseDegrees, parseNumber, parseShutter, shutterText } from "./entries.ts";
import type { Entry } from "./find-spans.ts";

export interface Pixels {
  readonly width: number;
  readonly height: number;
}

export const UNKNOWN = "not known";
const isUnknown = (text: string) => /^(|\?|not known|unknown)$/i.test(text.trim());

const UNIT = /[a-z.·%/\s]+$/i;

/** Nothing, "?" and "not known" are no number, and a number is one with or without its unit. */
export function parseMaybe(typed: string, unit: string): Entry<number | null> {
  if (isUnknown(typed)) return { ok: true, value: null };
  const parsed = parseNumber(typed, UNIT, `1.5 ${unit}`);
  return parsed.ok ? parsed : { ok: false, why: parsed.why };
}

/** Told in the units in use, what is too heavy as well: the plan and the shelf would say it in kilograms. */
export function parseWeightText(typed: string, units: LengthUnits): Parsed {
  const said = `“${typed.trim()}”`;
  try {
    const value = parseWeight(typed, units);
    if (value >= 0 && value <= MOST_KG) return { ok: true, value };
  } catch (error) {
    if (!(error instanceof QuantityError)) throw error;
    return { ok: false, why: `${said} is no weight: give one such as 2.6 kg or 5.7 lb.` };
  }
  return { ok: false, why: `${said} is not from 0 to ${formatWeight(MOST_KG, units)}: weigh it again.` };
}

export function parseMaybeWeight(typed: string, units: LengthUnits): Entry<number | null> {
  return isUnknown(typed) ? { ok: true, value: null } : parseWeightText(typed, units);
}

export function bearingText(degrees: number | null): string {
  return degrees === null ? UNKNOWN : degreesText(degrees);
}

export function parseBearing(typed: string): Entry<number | null> {
  if (isUnknown(typed)) return { ok: true, value: null };
  const parsed = parseDegrees(typed);
  return parsed.ok ? parsed : { ok: false, why: parsed.why };
}

export function pixelsText(pixels: Pixels | null): string {
  return pixels === null ? UNKNOWN : `${pixels.width} × ${pixels.height}`;
}

/** "8256 x 5504" */
export function parsePixels(typed: string): Entry<Pixels | null> {
  if (isUnknown(typed)) return { ok: true, value: null };
  const match = /^(\d{2,6})\s*(?:[x×*]|by)\s*(\d{2,6})$/i.exec(typed.trim());
  if (match === null)
    return { ok: false, why: `“${typed.trim()}” is no picture's size: give pixels such as 8256 × 5504.` };
  return { ok: true, value: { width: Number(match[1]), height: Number(match[2]) } };
}

export function timeText(seconds: number | null): string {
  return seconds === null ? UNKNOWN : shutterText(seconds);
}

/** A time as a fraction or in seconds; none is not known. */
export function parseTime(typed: string): Entry<number | null> {
  if (isUnknown(typed)) return { ok: true, value: null };
  const parsed = parseShutter(typed);
  return parsed.ok ? parsed : { ok: false, why: parsed.why };
}
