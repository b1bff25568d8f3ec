/** Ranges as a photographer types them and as they are shown: "1.2 to 1.7 stops", "f/8 + 0.3", "at most 20 mm", "free". */
import type { Span } from "../plan/index.ts";
import { type LengthUnits, ratioOfStops } from "../units/index.ts";
import {
  fNumberText,
  lengthText,
  type Parsed,
  parseFNumber,
  parseLengthText,
  parseNumber,
} from "./entries.ts";

export const FREE = "free";

export type Entry<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly why: string };

export interface SpanKind {
  /** one end, without the unit that ends the whole */
  readonly end: (value: number) => string;
  readonly unit: string;
  readonly parse: (text: string) => Parsed;
  /** what a single number is taken for, and "± 0.2" */
  readonly about: (value: number, by: number | null) => { from: number; to: number };
  readonly example: string;
}

const plain = (value: number) => `${value < 0 ? "−" : ""}${Number(Math.abs(value).toFixed(2))}`;
const STOPS = /\s*stops?\.?$/i;
/** Plans keep decimals that people can read. */
const tidy = (value: number) => Number(value.toFixed(4));
const either = (value: number, by: number) => ({ from: tidy(value - by), to: tidy(value + by) });

/** A single number is meant about as finely as the thing is told and met: quarter of a stop of ratio and background, a
 * third of aperture, 30 % of an edge, a tenth of a distance. */
export const RATIO: SpanKind = {
  end: plain,
  unit: " stops",
  parse: (text) => parseNumber(text, STOPS, "1.2 to 1.7"),
  about: (value, by) => {
    const { from, to } = either(value, by ?? 0.25);
    return { from: Math.max(0, from), to };
  },
  example: "1.2 to 1.7",
};

export const BACKGROUND: SpanKind = {
  end: plain,
  unit: " stops",
  parse: (text) => parseNumber(text, STOPS, "−2.5 to −1.5"),
  about: (value, by) => either(value, by ?? 0.25),
  example: "−2.5 to −1.5",
};

export const EDGE: SpanKind = {
  end: plain,
  unit: " mm",
  parse: (text) => parseNumber(text, /\s*mm$/i, "6 to 14"),
  about: (value, by) => {
    const { from, to } = either(value, by ?? 0.3 * value);
    return { from: Math.max(0, from), to };
  },
  example: "6 to 14",
};

export const APERTURE: SpanKind = {
  end: fNumberText,
  unit: "",
  parse: parseFNumber,
  about: (value, by) => ({
    from: value * ratioOfStops(-(by ?? 1 / 3) / 2),
    to: value * ratioOfStops((by ?? 1 / 3) / 2),
  }),
  example: "f/5.6 to f/8 + 0.3",
};

/** Degrees, signed; about a hand's breadth at arm's length either way. */
export const ROUND: SpanKind = {
  end: plain,
  unit: "°",
  parse: (text) => parseNumber(text, /\s*(?:°|deg(?:rees?)?)$/i, "20 to 40"),
  about: (value, by) => either(value, by ?? 8),
  example: "20 to 40",
};

export function distanceKind(units: LengthUnits): SpanKind {
  return {
    end: (value) => lengthText(value, units),
    unit: "",
    parse: (text) => parseLengthText(text, units),
    about: (value, by) => either(value, by ?? 0.1 * value),
    example: units === "metric" ? "2 to 3 m" : "6' to 9'",
  };
}

export function spanText(span: Span | null, kind: SpanKind): string {
  if (span === null || (span.from === null && span.to === null)) return FREE;
  const whole = (value: number) => `${kind.end(value)}${kind.unit}`.replace(/^(−?1 stop)s$/, "$1");
  if (span.from === null) return `at most ${whole(span.to as number)}`;
  if (span.to === null) return `at least ${whole(span.from)}`;
  const [from, to] = [kind.end(span.from), kind.end(span.to)];
  return from === to ? `${from}${kind.unit}` : `${from} to ${to}${kind.unit}`.replace(/ m to /, " to ");
}

const NOTHING = /^(|free|any|open|—|-)$/i;
const LEAST = /^(?:at least|from|over|above|min\.?|≥|>=?)\s*(.+)$/i;
const LEAST_AFTER = /^(.+?)\s*(?:or more|and up|up)$/i;
const MOST = /^(?:at most|up to|under|below|max\.?|≤|<=?)\s*(.+)$/i;
const MOST_AFTER = /^(.+?)\s*(?:or less)$/i;
const ABOUT = /^(?:about\s*|around\s*|~\s*)?(.+?)\s*(?:±|\+\/-|\+-)\s*(.+)$/i;
/** A dash parts two numbers only where one stands before it: else it is a minus. */
const BETWEEN = /^(.*\S)\s*(?:\bto\b|\bbis\b|\.\.\.?|…|(?<=[\d'"′″¼½¾a-z])\s*[-–]\s*(?=[f\d.−-]))\s*(.+)$/i;

/** What was typed, as a range; null is free. The smaller end comes first, however it was typed. */
export function parseSpan(typed: string, kind: SpanKind): Entry<Span | null> {
  const text = typed.trim();
  if (NOTHING.test(text)) return { ok: true, value: null };
  const [, least] = LEAST.exec(text) ?? LEAST_AFTER.exec(text) ?? [];
  if (least !== undefined) return one(least, kind, (from) => ({ from, to: null }));
  const [, most] = MOST.exec(text) ?? MOST_AFTER.exec(text) ?? [];
  if (most !== undefined) return one(most, kind, (to) => ({ from: null, to }));
  const [, middle, by] = ABOUT.exec(text) ?? [];
  if (middle !== undefined && by !== undefined) {
    const width = kind === APERTURE ? parseNumber(by, STOPS, "0.3") : kind.parse(by);
    if (!width.ok) return refused(width, typed, kind);
    return one(middle, kind, (value) => kind.about(value, Math.abs(width.value)));
  }
  const [, left, right] = BETWEEN.exec(text) ?? [];
  if (left === undefined || right === undefined)
    return one(text.replace(/^(about|around|~)\s*/i, ""), kind, (value) => kind.about(value, null));
  const to = kind.parse(right);
  const from = kind.parse(/^[\d.,]+$/.test(left) ? `${left}${unitOf(right)}` : left);
  if (!from.ok) return refused(from, typed, kind);
  if (!to.ok) return refused(to, typed, kind);
  const [low, high] = [Math.min(from.value, to.value), Math.max(from.value, to.value)];
  return { ok: true, value: { from: low, to: high } };
}

/** "6 to 9 ft": the unit stands for both. */
function unitOf(text: string): string {
  return /(?:m|cm|mm|ft|feet|in|'|"|′|″)$/i.exec(text.trim())?.[0] ?? "";
}

function one(text: string, kind: SpanKind, span: (value: number) => Span): Entry<Span> {
  const parsed = kind.parse(text);
  return parsed.ok ? { ok: true, value: span(parsed.value) } : refused(parsed, text, kind);
}

function refused(parsed: Parsed & { ok: false }, typed: string, kind: SpanKind): Entry<never> {
  if (parsed.meanings === undefined)
    return { ok: false, why: `“${typed.trim()}” is no range: give one such as ${kind.example}, or free.` };
  const [first] = parsed.meanings;
  return { ok: false, why: `${parsed.why} Give a stop and tenths, such as ${first.text}.` };
}
