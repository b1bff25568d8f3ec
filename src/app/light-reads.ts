/** Power by what somebody wants to read of one light alone. */
import { incidentFNumber, METER_CONSTANT } from "../photometry/index.ts";
import { outsideDial, type Plan, scaledOutput } from "../plan/index.ts";
import type { PlanReading } from "../reading/index.ts";
import type { Computer } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { putLight } from "./light-part.ts";
import { dialFault, fullPower_Ws } from "./light-words.ts";
import { shownPlan } from "./shown-plan.ts";

/** Where it is read: at a meter of the plan, or on a person's lit cheek, as a flat receptor there. */
export interface ReadingPlace {
  readonly kind: "meter" | "cheek";
  readonly index: number;
  readonly words: string;
}

export function readingPlaces(plan: Plan): ReadingPlace[] {
  const meters = plan.meters.map(({ name, receptor }, index) => ({
    kind: "meter" as const,
    index,
    words: `${name}, ${receptor}`,
  }));
  const cheeks = plan.people.map(({ name }, index) => ({
    kind: "cheek" as const,
    index,
    words: plan.people.length === 1 ? "lit cheek" : `lit cheek, ${name}`,
  }));
  return [...meters, ...cheeks];
}

/** The plan with this light by itself, switched on: what it would do. */
export function onlyLight(plan: Plan, index: number): Plan {
  const on = {
    ...plan,
    lights: plan.lights.map((light, i) => (i === index ? { ...light, on: true } : light)),
  };
  return shownPlan(on, `lights[${index}]`);
}

/** f-number at a place in a reading of one light alone; 0 where none of it arrives. */
export function fNumberAt(alone: PlanReading, place: ReadingPlace, iso: number): number {
  if (place.kind === "meter") return alone.meters[place.index]?.fNumber ?? 0;
  const cheek = alone.people[place.index]?.face.litCheek ?? 0;
  return incidentFNumber(cheek, iso, METER_CONSTANT.flat);
}

/** The same from a reading of all that is on, where the light's share stands by itself; null where it does not. */
export function fNumberFromShare(reading: PlanReading, place: ReadingPlace, light: string): number | null {
  const meter = place.kind === "meter" ? reading.meters[place.index] : undefined;
  const share = meter !== undefined && Object.hasOwn(meter.byLight, light) ? meter.byLight[light] : undefined;
  if (meter === undefined || share === undefined) return null;
  if (!(meter.luxSeconds > 0)) return 0;
  // a reading's square is as the light that makes it
  return meter.fNumber * Math.sqrt((share.direct + share.bounced) / meter.luxSeconds);
}

/** A plan that changes more often than this while it is read is in somebody's hand. */
const TRIES = 3;

/** Sets a light's power so that it alone reads `fNumber` there: direct and bounced light both go with power, so one
 * reading is enough. Answers why not, or null. */
export async function setByReading(
  bench: Bench,
  computer: Pick<Computer, "read">,
  index: number,
  place: ReadingPlace,
  fNumber: number,
): Promise<string | null> {
  for (let attempt = 0; attempt < TRIES; attempt++) {
    const { plan } = bench.session.get();
    const light = plan.lights[index];
    if (light === undefined) return "The light is gone.";
    const alone = await computer.read(onlyLight(plan, index), "fine");
    if (bench.session.get().plan !== plan) continue;
    const now = fNumberAt(alone, place, plan.camera.iso);
    if (!(now > 0)) return `No light of ${light.name} arrives there; turn it, or read it elsewhere.`;
    const output = scaledOutput(light.output, (fNumber / now) ** 2);
    if ("stopsDown" in output) {
      const full_Ws = fullPower_Ws(output);
      if (outsideDial(output.stopsDown, light.dial) > 0)
        return dialFault(output.stopsDown, light.dial, full_Ws);
      output.stopsDown = Math.max(0, output.stopsDown);
    }
    return putLight(bench, index, `${light.name} set by ${place.words}`, { output });
  }
  return "The plan changed meanwhile; type it again.";
}
