/** The hold zone's numbers as they are read on a tape: in the units in use. */
import { circleFromMark, type HoldRow, type HoldZone } from "../finder/index.ts";
import { fromMarkWords } from "../sheet/index.ts";
import { type LengthUnits, lengthsIn } from "../units/index.ts";

/** "31 cm", "12¼″": as a tape on the floor is read. */
export function tapeWords(metres: number, units: LengthUnits): string {
  return lengthsIn(`${Math.floor(100 * metres + 1e-6)} cm`, units);
}

export function amountWords({ metres, degrees }: HoldRow, units: LengthUnits): string {
  return metres === null ? `${degrees ?? 0}°` : tapeWords(metres, units);
}

/** Where the circle's middle lies as taped from the mark: "its middle 11 cm behind the mark". */
export function circleWords(zone: HoldZone, facing_deg: number, units: LengthUnits): string {
  const { ahead_m, left_m } = circleFromMark(zone, facing_deg);
  return fromMarkWords(ahead_m, left_m, (m) => lengthsIn(`${Math.round(100 * m)} cm`, units));
}
