/** What heads draw from the mains, against what a fuse or breaker is marked with. */
import type { Circuit, Light, Plan } from "../plan/index.ts";
import { positive } from "../units/index.ts";

/** A breaker is to be marked with at least this many times a load of three hours and more.
 * Source  NEC 210.19(A), 210.20(A), by published-checks section 14: 16 A of load ask for 20 A */
export const CONTINUOUS = 1.25;

/** What of its rating a circuit is held against: all of it, or four fifths where it feeds for hours.
 * Units   A
 * @example 16 A for hours -> 12.8 */
export function heldAgainst_A({ amps, feeds }: Pick<Circuit, "amps" | "feeds">): number {
  return feeds === "hours" ? amps / CONTINUOUS : amps;
}

/** Mean power that a head draws which gives so much energy every so often.
 * Units   Ws stored per flash; s between flashes; share of what is drawn that is stored -> W
 * Errors  QuantityError where seconds or share are not above 0
 * Source  published-checks section 14: Ws / (recycle · eff)
 * @example 1200 Ws every 1.5 s, all of it stored -> 800 W */
export function meanWatts(energy_Ws: number, every_s: number, charging = 1): number {
  return energy_Ws / (positive("seconds between flashes", every_s, "s") * positive("charging", charging, ""));
}

export interface HeadDraw {
  readonly light: number;
  readonly name: string;
  /** while it charges: full power in its recycle time; null where one of them is not known */
  readonly charging_W: number | null;
  /** over a series of frames at the plan's quickest; null where energy or pace are not known */
  readonly mean_W: number | null;
  readonly lamp_W: number;
  /** what has to be looked up before its sums are whole */
  readonly unknown: readonly ("watt-seconds" | "recycle time" | "lamp")[];
}

/** What one head draws. A head cannot draw more on the mean than while it charges: where the pace is quicker than it
 * recycles, that is its mean. */
export function drawOf(plan: Plan, index: number): HeadDraw {
  const light = plan.lights[index];
  const { head, output } = light;
  const every_s = plan.shooting?.everySeconds ?? null;
  const efficiency = head?.charging ?? CHARGING;
  const full_Ws = "wattSeconds" in output ? output.wattSeconds : null;
  const set_Ws = "wattSeconds" in output ? output.wattSeconds * 2 ** -output.stopsDown : null;
  const recycle = head?.recycle ?? null;
  const charging_W = full_Ws === null || recycle === null ? null : meanWatts(full_Ws, recycle, efficiency);
  const asked_W = set_Ws === null || every_s === null ? null : meanWatts(set_Ws, every_s, efficiency);
  return {
    light: index,
    name: light.name,
    charging_W,
    mean_W: asked_W === null ? null : Math.min(asked_W, charging_W ?? asked_W),
    lamp_W: head?.lampWatts ?? 0,
    unknown: [
      ...(full_Ws === null ? (["watt-seconds"] as const) : []),
      ...(recycle === null ? (["recycle time"] as const) : []),
      ...((head?.lampWatts ?? 0) === 0 ? (["lamp"] as const) : []),
    ],
  };
}

/** As the plan's format fills it in: a guess (common practice, no source). */
const CHARGING = 0.8;

/** What hangs on one circuit. */
export interface Feeds {
  /** null where the plan has none: everything then hangs on that */
  readonly circuit: Circuit | null;
  /** in the plan's circuits; -1 where there is none */
  readonly index: number;
  /** those that are on */
  readonly heads: readonly HeadDraw[];
  /** names of those that are off */
  readonly off: readonly string[];
}

/** Every circuit with its heads; a head without a circuit of its own is on the first. */
export function feedsOf(plan: Plan): Feeds[] {
  const feeds = (circuit: Circuit | null, index: number): Feeds => {
    const own = plan.lights.map((_, i) => i).filter((i) => isOn(plan.lights[i], circuit, index));
    return {
      circuit,
      index,
      heads: own.filter((i) => plan.lights[i].on).map((i) => drawOf(plan, i)),
      off: own.filter((i) => !plan.lights[i].on).map((i) => plan.lights[i].name),
    };
  };
  if (plan.circuits.length > 0) return plan.circuits.map(feeds);
  return plan.lights.some(({ on }) => on) ? [feeds(null, -1)] : [];
}

function isOn({ head }: Light, circuit: Circuit | null, index: number): boolean {
  if (circuit === null) return true;
  const wanted = head?.circuit ?? null;
  return wanted === null ? index === 0 : wanted === circuit.name;
}
