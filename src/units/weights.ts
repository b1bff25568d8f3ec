/** Weights, pushes and moments as people write them: beside metres in kilograms and newtons, beside feet and inches in pounds.
 * Moments go with the lengths, so that a sum can be worked again from what is printed: force times arm. */
import { QuantityError } from "./errors.ts";
import { type LengthUnits, METRES_PER_INCH } from "./lengths.ts";

/** Source  international yard and pound agreement, 1959: exact */
export const KG_PER_POUND = 0.45359237;
/** Standard acceleration of free fall, m/s².
 * Source  3rd CGPM, 1901 */
export const GRAVITY = 9.80665;
const N_PER_POUND_FORCE = KG_PER_POUND * GRAVITY;
const METRES_PER_FOOT = 12 * METRES_PER_INCH;

/** scale: what is weighed, and may be a round number; sum: what comes out of a sum, always to tenths */
export type WeightOf = "scale" | "sum";

/** "0.75 kg", "12 kg"; beside feet in pounds and tenths: "5.7 lb".
 * Domain  any; not finite gives "no weight"; what rounds to nothing carries no sign
 * @example 2.6, "feet" -> "5.7 lb" */
export function formatWeight(kg: number, units: LengthUnits, of: WeightOf = "scale"): string {
  if (!Number.isFinite(kg)) return "no weight";
  const isMetric = units === "metric";
  const amount = Math.abs(isMetric ? kg : kg / KG_PER_POUND);
  const text = of === "sum" ? amount.toFixed(1) : String(Number(amount.toFixed(isMetric ? 2 : 1)));
  return `${kg < 0 && Number(text) > 0 ? "−" : ""}${text} ${isMetric ? "kg" : "lb"}`;
}

/** "26.6 N", "6.0 lbf" */
export function formatForce(newtons: number, units: LengthUnits): string {
  return units === "metric" ? `${newtons.toFixed(1)} N` : `${(newtons / N_PER_POUND_FORCE).toFixed(1)} lbf`;
}

/** "27.2 N·m", "20.0 lbf·ft" */
export function formatMoment(newtonMetres: number, units: LengthUnits): string {
  return units === "metric"
    ? `${newtonMetres.toFixed(1)} N·m`
    : `${(newtonMetres / N_PER_POUND_FORCE / METRES_PER_FOOT).toFixed(1)} lbf·ft`;
}

const WRITTEN = /^([+\-−]?)(\d*[.,]?\d+)\s*(kgs?|kilograms?|g|grams?|lbs?\.?|pounds?)?$/;

/** Kilograms, to the milligram, from `2.6`, `2,6 kg`, `450 g`, `5.7 lb`. A bare number is in the units in use: kilograms or
 * pounds. Reads back whatever `formatWeight` writes.
 * Errors  QuantityError naming the text and the forms that are understood */
export function parseWeight(text: string, units: LengthUnits = "metric"): number {
  const match = WRITTEN.exec(text.trim().toLowerCase());
  const kg = match === null ? Number.NaN : kilogramsOf(match, units);
  if (!Number.isFinite(kg)) throw new QuantityError("weight", text, "", "a weight such as 2.6 kg or 5.7 lb");
  return Number(kg.toFixed(6));
}

function kilogramsOf([, sign, digits, unit]: RegExpExecArray, units: LengthUnits): number {
  const said = unit?.charAt(0) ?? (units === "metric" ? "k" : "l");
  const each = said === "k" ? 1 : said === "g" ? 0.001 : KG_PER_POUND;
  const size = Number(digits?.replace(",", ".")) * each;
  return sign === "-" || sign === "−" ? -size : size;
}
