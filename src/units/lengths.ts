/** Lengths as people write them: metres, or feet and inches. */
import { QuantityError } from "./errors.ts";

export type LengthUnits = "metric" | "feet";
export const METRES_PER_INCH = 0.0254;
/** Tapes are read to a quarter of an inch on set. */
const INCH_PARTS = 4;

/** "1.50 m", or feet and inches to the nearest quarter of an inch: "4′ 11½″".
 * Domain  any; not finite gives "no length"; what rounds to nothing carries no sign */
export function formatLength(metres: number, units: LengthUnits): string {
  if (!Number.isFinite(metres)) return "no length";
  if (units === "metric") {
    const text = Math.abs(metres).toFixed(2);
    return `${metres < 0 && Number(text) > 0 ? "−" : ""}${text} m`;
  }
  const parts = Math.round((Math.abs(metres) / METRES_PER_INCH) * INCH_PARTS);
  const feet = Math.floor(parts / (12 * INCH_PARTS));
  const inches = (parts - feet * 12 * INCH_PARTS) / INCH_PARTS;
  const whole = Math.floor(inches);
  const fraction = ["", "¼", "½", "¾"][Math.round((inches - whole) * INCH_PARTS)];
  const sign = metres < 0 && parts > 0 ? "−" : "";
  return `${sign}${feet}′ ${whole || !fraction ? whole : ""}${fraction}″`;
}

/** "0.30 m", "12 cm" and "0.1 to 100 m" inside a sentence; millimetres stay: catchlights and edges are told in them */
const SAID = /(?:(\d+(?:\.\d+)?) to )?(\d+(?:\.\d+)?) (m|cm)(?![\p{L}\d²·/])/gu;

/** A sentence that was made in metres, with its lengths in the units in use.
 * @example "it sinks 12 cm" in feet -> "it sinks 4¾″" */
export function lengthsIn(sentence: string, units: LengthUnits): string {
  if (units === "metric") return sentence;
  const feet = (digits: string, unit: string) =>
    formatLength(Number(digits) * (METRES[unit] as number), units).replace(/^0′ (?!0″)/, "");
  return sentence.replace(SAID, (_, from: string | undefined, to: string, unit: string) =>
    from === undefined ? feet(to, unit) : `${feet(from, unit)} to ${feet(to, unit)}`,
  );
}

const METRIC = /^([+\-−]?)(\d*[.,]?\d+)\s*(m|cm|mm)?$/;
/** sign, feet, inches, fraction of an inch, inch mark */
const IMPERIAL =
  /^([+\-−]?)(?:(\d+(?:\.\d+)?)\s*(?:'|′|ft|feet|foot))?\s*(\d+(?:\.\d+)?)?\s*([¼½¾])?\s*("|″|in|inches|inch)?$/;
const FRACTIONS: Readonly<Record<string, number>> = { "¼": 0.25, "½": 0.5, "¾": 0.75 };
const METRES: Readonly<Record<string, number>> = { m: 1, cm: 0.01, mm: 0.001 };

/** Metres from `1.5`, `1,5 m`, `150cm`, `4'11"`, `4 ft 11 in`, `59"`. A bare number is in the units in use: metres or
 * feet. Reads back whatever `formatLength` writes.
 * Errors  QuantityError naming the text and the forms that are understood */
export function parseLength(text: string, units: LengthUnits = "metric"): number {
  const metres = metresOf(text.trim().toLowerCase(), units);
  if (metres !== null && Number.isFinite(metres)) return metres;
  throw new QuantityError("length", text, "", `a length such as 1.5, 150cm or 4'11"`);
}

function metresOf(text: string, units: LengthUnits): number | null {
  const metric = METRIC.exec(text);
  if (metric) {
    const [, sign, digits, unit] = metric;
    const each = unit ? METRES[unit] : units === "metric" ? 1 : 12 * METRES_PER_INCH;
    return signed(sign, Number(digits.replace(",", ".")) * each);
  }
  const imperial = IMPERIAL.exec(text);
  if (!imperial) return null;
  const [, sign, feet, inches, fraction, mark] = imperial;
  const hasInches = inches !== undefined || fraction !== undefined;
  // inches alone need their mark: "4½" could be either
  if (feet === undefined ? !(hasInches && mark) : mark !== undefined && !hasInches) return null;
  const total = Number(feet ?? 0) * 12 + Number(inches ?? 0) + (fraction ? FRACTIONS[fraction] : 0);
  return signed(sign, total * METRES_PER_INCH);
}

function signed(sign: string, size: number): number {
  return sign === "-" || sign === "−" ? -size : size;
}
