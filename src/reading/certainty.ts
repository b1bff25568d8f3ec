/** How sure a reading is: what is not known of each light and of the room, weighed by what each gives to it. */
import { bounceUncertaintyOf, type Plan, uncertaintyOf } from "../plan/index.ts";
import type { Share } from "./types.ts";

/** Standard deviation in stops of what these shares come to; null where nothing arrives. Lights and room are taken to be off
 * independently of each other; ambient light, which is measured where it is used, is taken as given.
 * Source  first-order propagation: d log2(sum of E) = sum of E d log2 E / sum of E */
export function uncertaintyStops(plan: Plan, byLight: Readonly<Record<string, Share>>): number | null {
  return ofDifference(plan, byLight, null);
}

/** The same of one exposure against another, both from the same lights: what they share goes out of it. */
export function ratioUncertaintyStops(
  plan: Plan,
  over: Readonly<Record<string, Share>>,
  under: Readonly<Record<string, Share>>,
): number | null {
  return ofDifference(plan, over, under);
}

function ofDifference(
  plan: Plan,
  over: Readonly<Record<string, Share>>,
  under: Readonly<Record<string, Share>> | null,
): number | null {
  const top = total(over);
  const bottom = under === null ? 1 : total(under);
  if (!(top > 0 && bottom > 0)) return null;
  let variance = 0;
  let sentBack = 0;
  for (const light of plan.lights) {
    const a = over[light.name] ?? NOTHING;
    const b = under?.[light.name] ?? NOTHING;
    variance +=
      (uncertaintyOf(light) * ((a.direct + a.bounced) / top - (b.direct + b.bounced) / bottom)) ** 2;
    sentBack += a.bounced / top - b.bounced / bottom;
  }
  return Math.sqrt(variance + (bounceUncertaintyOf(plan.room) * sentBack) ** 2);
}

const NOTHING: Share = { direct: 0, bounced: 0 };

function total(byLight: Readonly<Record<string, Share>>): number {
  let sum = 0;
  for (const { direct, bounced } of Object.values(byLight)) sum += direct + bounced;
  return sum;
}

/** From here on it is no more than a guess. */
const GUESS = 0.8;

/** "good to 0.3 stop"; a tenth is what a meter repeats itself to, and less is not said. Null where nothing arrives. */
export function goodToWords(uncertainty_stops: number | null): string | null {
  if (uncertainty_stops === null) return null;
  if (uncertainty_stops >= GUESS) return "a guess within about one stop";
  return `good to ${Math.max(0.1, uncertainty_stops).toFixed(1)} stop`;
}

/** Which lights nobody has measured, as the last line of a reading; null where all that are on have been. */
export function notCalibratedWords({ lights }: Plan): string | null {
  const lit = lights.filter((light) => light.on);
  const guessed = lit.filter((light) => uncertaintyOf(light) >= GUESS);
  if (guessed.length === 0) return null;
  const names = guessed.length < lit.length ? ` (${guessed.map(({ name }) => name).join(", ")})` : "";
  return `Not calibrated${names}: within about one stop until a meter has confirmed a reading.`;
}
