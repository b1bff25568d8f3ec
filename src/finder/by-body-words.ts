/** A distance found by the body, in words: how far it may be off, and what that does to the light. */
import { patternWord } from "../reading/words.ts";
import { spreadWords } from "../sheet/spread.ts";
import type { LengthUnits } from "../units/index.ts";
import type { ReachEffect } from "./by-body.ts";
import type { BodyReach } from "./by-body-reach.ts";
import { isTold } from "./effects.ts";

/** "power ±0.2 stop, pattern stays"; "same power, flat if 6 cm nearer". The pattern on the mark is not named: between two a
 * trial may call it by the other name than the whole reading that stands beside it. */
export function effectWords(
  { stops, pattern, nearer, farther }: Omit<ReachEffect, "owner">,
  spread_m: number,
  units: LengthUnits,
): string {
  if (stops === null) return "no light on the face";
  const power = isTold(stops)
    ? `power ±${stops.toFixed(1)}\u00a0${stops < 1.05 ? "stop" : "stops"}`
    : "same power";
  const by = spreadWords(spread_m, units).slice(1);
  const other = (is: typeof pattern, way: string) =>
    is === pattern ? [] : [`${patternWord(is)} if ${by} ${way}`];
  const others = [...other(nearer, "nearer"), ...other(farther, "farther")];
  return `${power}, ${others.length === 0 ? "pattern stays" : others.join(", ")}`;
}

/** "left arm raised: fingertips just touch the near rim; ±4 cm: power ±0.2 stop, pattern stays" */
export function reachLine(
  { text, spread_m }: Pick<BodyReach, "text" | "spread_m">,
  effect: Omit<ReachEffect, "owner"> | null,
  units: LengthUnits,
): string {
  if (spread_m === 0) return text;
  const does = effect === null ? "" : `: ${effectWords(effect, spread_m, units)}`;
  return `${text}; ${spreadWords(spread_m, units)}${does}`;
}
