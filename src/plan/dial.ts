/** Power as a head is marked. */
import { formatFraction, formatStops, parseFraction } from "../units/index.ts";
import type { Dial } from "./schema.ts";

/** "−2.2", "1/8 + 0.8" or "87 Ws", by the dial's marks. Watt-seconds of a head whose full power is not given in them
 * are written in stops.
 * Units   stops below full power; full power in Ws, null where it is not known */
export function writePower(stopsDown: number, dial: Pick<Dial, "marked">, full_Ws: number | null): string {
  if (dial.marked === "fractions") return formatFraction(stopsDown);
  if (dial.marked === "wattSeconds" && full_Ws !== null) return wattSecondsText(full_Ws * 2 ** -stopsDown);
  return formatStops(-stopsDown).replace("+", "");
}

/** "87 Ws"; tenths below ten. */
export function wattSecondsText(energy_Ws: number): string {
  return `${Number(energy_Ws.toFixed(energy_Ws < 10 ? 1 : 0))} Ws`;
}

const STOPS = /^([+\-−–]?)(\d*\.?\d+)\s*(?:stops?)?(?:\s*down)?$/i;
const WATT_SECONDS = /^(\d*\.?\d+)\s*(ws|j)$/i;

/** Stops below full power of what was typed, in any of the three ways: "-2.2" (2.2 is the same: no dial goes over full),
 * "1/4 + 0.3", "87 Ws"; a bare number on a dial marked in watt-seconds is those. Null where it is none of them.
 * Below 0 is more than full power. */
export function readPower(text: string, dial: Pick<Dial, "marked">, full_Ws: number | null): number | null {
  const bare = text.trim().replace(",", ".");
  const isEnergy = dial.marked === "wattSeconds" && full_Ws !== null && /^\d*\.?\d+$/.test(bare);
  const energy = WATT_SECONDS.exec(isEnergy ? `${bare} Ws` : bare);
  if (energy) {
    const wanted = Number(energy[1]);
    return full_Ws === null || !(wanted > 0) ? null : Math.log2(full_Ws / wanted);
  }
  const stops = STOPS.exec(bare);
  if (stops && !(dial.marked === "fractions" && bare === "1"))
    return stops[1] === "+" ? -Number(stops[2]) : Number(stops[2]);
  return parseFraction(text);
}

/** How far a power is from what the dial reaches, stops: above 0 over full power, below 0 under the least; 0 within.
 * A hundredth of a stop is the dial's end. */
export function outsideDial(stopsDown: number, dial: Pick<Dial, "range">): number {
  const END = 0.01;
  if (stopsDown < -END) return -stopsDown;
  return stopsDown > dial.range + END ? dial.range - stopsDown : 0;
}
