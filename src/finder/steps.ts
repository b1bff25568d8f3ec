/** How large each step is: as large as can be told from none at a glance, and as small as is done on set without
 * beginning anew (common practice, no source). */
import { formatLength, type LengthUnits, METRES_PER_INCH } from "../units/index.ts";

export const ROUND_DEG = 10;
export const HEAD_DEG = 10;
export const CHIN_DEG = 5;
/** A third of a stop as lenses and dials come nearest to it in tenths. */
export const LENS_STOPS = 0.3;
export const POWER_STOPS = 0.3;

const inches = (count: number) => count * METRES_PER_INCH;

/** Round numbers of the tape that is in the hand. */
export const STEPS: Readonly<Record<LengthUnits, { back_m: number; up_m: number; in_m: number }>> = {
  metric: { back_m: 0.2, up_m: 0.15, in_m: 0.3 },
  feet: { back_m: inches(8), up_m: inches(6), in_m: inches(12) },
};

/** "20 cm", "8″". */
export function stepWords(step_m: number, units: LengthUnits): string {
  if (units === "metric") return `${Math.round(step_m * 100)} cm`;
  return formatLength(step_m, "feet").replace(/^0′ /, "").replace(/ 0″$/, "");
}
