/** Powers set anew so that each light gives what it gave. What a light gives goes with its power and nothing else does: how
 * much it gives at any power is known from one reading of it alone. */
import { type Light, outsideDial, type Plan, scaledOutput } from "../plan/index.ts";
import type { FaceReading, PlanReading } from "../reading/index.ts";

/** What one light, or all of them, give by themselves, bounce counted: lux-seconds on either cheek, and behind the head. */
export interface Gives {
  readonly left: number;
  readonly right: number;
  readonly background: number;
}

/** The plan with one light on and nothing else. */
export function aloneWith(plan: Plan, index: number): Plan {
  const lights = plan.lights.map((light, i) => (i === index ? light : { ...light, on: false }));
  return { ...plan, lights, ambient: { ...plan.ambient, lux: 0 } };
}

export function givesOf(reading: PlanReading, person: number): Gives | null {
  const face = reading.people[person]?.face;
  if (face === undefined) return null;
  const { backgroundStops } = reading.camera;
  const isRight = face.litSide === "right";
  return {
    left: isRight ? face.shadowCheek : face.litCheek,
    right: isRight ? face.litCheek : face.shadowCheek,
    background: backgroundStops === null ? 0 : face.litCheek * 2 ** backgroundStops,
  };
}

export interface LightGives {
  readonly name: string;
  readonly before: Gives;
  readonly after: Gives;
}

/** Lights that give nothing worth setting them by are left as they are. */
const LEAST_SHARE = 0.01;

/** By how many times each light has to be turned up, by name: so that on the lit cheek each gives what it gave. One that counts
 * for more on the other cheek or behind the head, a fill or a background light, is set by that. */
export function powerFactors(
  lights: readonly LightGives[],
  litSide: FaceReading["litSide"],
): Map<string, number> {
  const lit = litSide === "right" ? "right" : "left";
  const places = [lit, lit === "left" ? "right" : "left", "background"] as const;
  const sums = places.map((place) => lights.reduce((sum, { before }) => sum + before[place], 0));
  const factors = new Map<string, number>();
  for (const { after, before, name } of lights) {
    const share = (i: number) => {
      const sum = sums[i] ?? 0;
      const place = places[i] as (typeof places)[number];
      return sum > 0 && after[place] > 0 ? before[place] / sum : 0;
    };
    // the lit cheek wherever the light is a good part of it
    const best = [0, 1, 2].reduce(
      (most, i) => (share(i) > 2 * share(most) || share(most) === 0 ? i : most),
      0,
    );
    if (share(best) < LEAST_SHARE) continue;
    const place = places[best] as (typeof places)[number];
    factors.set(name, before[place] / after[place]);
  }
  return factors;
}

export interface Powered {
  readonly plan: Plan;
  /** "key would have to give 1.3 stops over full power" */
  readonly short: readonly string[];
}

/** Turned to the nearest step of each dial and no further than it goes. */
export function withPowers(plan: Plan, factors: ReadonlyMap<string, number>): Powered {
  const short: string[] = [];
  const lights = plan.lights.map((light) => {
    const factor = factors.get(light.name);
    if (factor === undefined || Math.abs(Math.log2(factor)) < UNTURNED_STOPS) return light;
    const turned = onDial({ ...light, output: scaledOutput(light.output, factor) });
    if (turned.outside > 0)
      short.push(`${light.name} would have to give ${turned.outside.toFixed(1)} stops over full power`);
    if (turned.outside < 0)
      short.push(
        `${light.name} would have to go ${(-turned.outside).toFixed(1)} stops under the least of its dial`,
      );
    return turned.light;
  });
  return { plan: { ...plan, lights }, short };
}

/** Less than half of a tenth is no turn of a dial. */
const UNTURNED_STOPS = 0.03;

function onDial(light: Light): { light: Light; outside: number } {
  const { dial, output } = light;
  if (!("stopsDown" in output)) return { light, outside: 0 };
  const outside = outsideDial(output.stopsDown, dial);
  const inside = Math.min(dial.range, Math.max(0, output.stopsDown));
  const stopsDown = Math.min(dial.range, Math.round(inside / dial.step) * dial.step);
  return { light: { ...light, output: { ...output, stopsDown: Number(stopsDown.toFixed(6)) } }, outside };
}
