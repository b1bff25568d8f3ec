/** Stops and f-numbers, and the one way in which people see them: engraved stop plus tenths. */

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
];
/** n of the first engraved stop: f/0.5 is 2^(-2/2). */
const FIRST = -2;

/** f-number to "f/8 + 0.4": the engraved stop at or below, and tenths of a stop over it.
 * Domain  fNumber > 0; 0 or not finite gives "no reading"
 * @example 8.03 -> "f/8 + 0.0" */
export function formatFStops(fNumber: number): string {
  if (!(fNumber > 0) || !Number.isFinite(fNumber)) return "no reading";
  const tenths = Math.round(20 * Math.log2(fNumber));
  const stop = Math.floor(tenths / 10);
  if (stop < FIRST) return "under f/0.5";
  const engraved = ENGRAVED[stop - FIRST];
  if (engraved === undefined) return "over f/128";
  return `f/${engraved} + 0.${tenths - 10 * stop}`;
}

/** Exact f-number of an engraved stop plus tenths, as `formatFStops` writes it; null where it is something else.
 * A bare decimal such as 8.4 is refused: two people read it two ways. */
export function parseFStops(text: string): number | null {
  const match = /^\s*(?:f\s*\/?\s*)?(\d+(?:\.\d+)?)\s*(?:\+\s*(0?\.\d|0))?\s*$/i.exec(text);
  if (!match) return null;
  const index = ENGRAVED.indexOf(match[1]);
  if (index < 0) return null;
  return 2 ** ((index + FIRST + Number(match[2] ?? 0)) / 2);
}

/** Stops with one decimal and a true minus sign. */
export function formatStops(stops: number, digits = 1): string {
  const text = Math.abs(stops).toFixed(digits);
  const zero = Number(text) === 0;
  return zero ? text : stops < 0 ? `−${text}` : `+${text}`;
}

export function stopsOfRatio(ratio: number): number {
  return Math.log2(ratio);
}

/** Shutter time in the trade's fractions: 0.00625 s -> "1/160". */
export function formatShutter(seconds: number): string {
  if (seconds >= 0.3) return `${Number(seconds.toFixed(1))} s`;
  return `1/${Math.round(1 / seconds)}`;
}
