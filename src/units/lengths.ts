/** Lengths as people write them: metres, or feet and inches. */
import { QuantityError } from "./errors.ts";

export type LengthUnits = "metric" | "feet";
export const METRES_PER_INCH = 0.0254;
/** Tapes are read to a quarter of an inch on set. */
const INCH_PARTS = 4;

export function formatLength(metres: number, units: LengthUnits): string {
  if (units === "metric") return `${metres.toFixed(2).replace("-", "−")} m`;
  const parts = Math.round((Math.abs(metres) / METRES_PER_INCH) * INCH_PARTS);
  const feet = Math.floor(parts / (12 * INCH_PARTS));
  const inches = (parts - feet * 12 * INCH_PARTS) / INCH_PARTS;
  const whole = Math.floor(inches);
  const fraction = ["", "¼", "½", "¾"][Math.round((inches - whole) * INCH_PARTS)];
  const sign = metres < 0 && parts > 0 ? "−" : "";
  return `${sign}${feet}′ ${whole || !fraction ? whole : ""}${fraction}″`;
}

const METRIC = /^([+\-−]?\d*[.,]?\d+)\s*(m|cm|mm)?$/;
const IMPERIAL =
  /^([+\-−]?)(?:(\d+(?:\.\d+)?)\s*(?:'|′|ft|feet|foot))?\s*(?:(\d+(?:\.\d+)?)\s*(¼|½|¾)?\s*(?:"|″|in|inches|inch)?)?$/;
const FRACTIONS: Record<string, number> = { "¼": 0.25, "½": 0.5, "¾": 0.75 };

/** Metres from `1.5`, `1,5 m`, `150cm`, `4'11"`, `4 ft 11 in`, `59"`. A bare number is in the units in use: metres or feet.
 * Errors  QuantityError naming the text and the forms that are understood */
export function parseLength(text: string, units: LengthUnits = "metric"): number {
  const t = text.trim().toLowerCase();
  const metric = METRIC.exec(t);
  if (metric && (metric[2] || units === "metric")) {
    const value = Number(metric[1].replace("−", "-").replace(",", "."));
    return value * (metric[2] === "cm" ? 0.01 : metric[2] === "mm" ? 0.001 : 1);
  }
  if (metric) return Number(metric[1].replace("−", "-").replace(",", ".")) * 12 * METRES_PER_INCH;
  const imperial = IMPERIAL.exec(t);
  if (imperial && (imperial[2] || imperial[3])) {
    const inches = Number(imperial[3] ?? 0) + (imperial[4] ? FRACTIONS[imperial[4]] : 0);
    const total = Number(imperial[2] ?? 0) * 12 + inches;
    return (imperial[1] && imperial[1] !== "+" ? -1 : 1) * total * METRES_PER_INCH;
  }
  throw new QuantityError("length", text, "", `a length such as 1.5, 150cm or 4'11"`);
}

export function formatDegrees(degrees: number): string {
  return `${Math.round(degrees)}°`.replace("-", "−");
}
