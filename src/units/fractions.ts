/** Shares of full power as flash heads are marked: halves of halves, and tenths of a stop over them.
 * How tenths between two fractions are written is common practice, no source. */

/** Stops below full power to "1/8 + 0.8": the fraction at or below, and tenths of a stop over it, as f-stops are written.
 * Domain  any finite; at full power and above it "full"; not finite gives "no power"
 * @example 2.2 -> "1/8 + 0.8" */
export function formatFraction(stopsDown: number): string {
  if (!Number.isFinite(stopsDown)) return "no power";
  const tenths = Math.round(10 * stopsDown);
  if (tenths <= 0) return "full";
  const halvings = Math.ceil(tenths / 10);
  const over = 10 * halvings - tenths;
  return `1/${2 ** halvings}${over === 0 ? "" : ` + 0.${over}`}`;
}

const FRACTION = /^(?:(full|1)|1\s*\/\s*(\d+))(?:\s*([+\-−–])\s*(0?[.,]\d+|0|1))?$/i;

/** Stops below full power of `full`, `1/8`, `1/8 + 0.8` or `1/4 − 0.2`; null where it is something else, and where the
 * fraction is no half of a half. Below 0 where more than full power is meant. */
export function parseFraction(text: string): number | null {
  const match = FRACTION.exec(text.trim());
  if (!match) return null;
  const halvings = match[1] === undefined ? Math.log2(Number(match[2])) : 0;
  if (!Number.isInteger(halvings)) return null;
  const tenths = Number((match[4] ?? "0").replace(",", "."));
  return match[3] === "+" ? halvings - tenths : halvings + tenths;
}
