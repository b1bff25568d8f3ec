import { type LengthUnits, METRES_PER_INCH } from "../units/index.ts";

/** "±6 cm", "±2.5 in": how far off a hand's work is, and never finer than half an inch. */
export function spreadWords(spread_m: number, units: LengthUnits): string {
  if (units === "metric") return `±${Math.max(1, Math.round(100 * spread_m))}\u00a0cm`;
  const inches = Math.max(0.5, Math.round((2 * spread_m) / METRES_PER_INCH) / 2);
  return `±${inches}\u00a0in`;
}
