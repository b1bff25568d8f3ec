/** What is known of gear from earlier work: offered to a plan, and taken from it. */
import { type Edit, formOf, gearKey, type Light, type Plan } from "../plan/index.ts";
import type { ResponseCurve } from "../testframe/index.ts";
import type { GearBook, KeptLight } from "./ports.ts";

export const EMPTY_BOOK: GearBook = { bodies: {}, lights: {} };

/** From one day to the next a head, its cable and its cloth give a tenth of a stop more or less (common practice, no source). */
const ANOTHER_DAY = 0.1;

/** Which page of the book a light is on: its name, front and full power. Null where there is none: an output told by a meter
 * was measured where it stood, and says nothing of another set. Light that is told as such has no full power: only the very
 * same number is the same. */
export function bookKey(light: Pick<Light, "name" | "face" | "output">): string | null {
  const { output } = light;
  if (formOf(output) === "meter") return null;
  return "lumenSeconds" in output ? `${gearKey(light)} ${output.lumenSeconds}` : gearKey(light);
}

export interface KnownGear {
  readonly name: string;
  /** in the plan's lights */
  readonly index: number;
  /** as it counts today: a little less sure than on the day it was measured */
  readonly known: KeptLight;
}

/** What the book knows of lights that this plan has no calibration of. */
export function gearFor(plan: Plan, { lights }: GearBook): KnownGear[] {
  return plan.lights.flatMap((light, index) => {
    const key = bookKey(light);
    if (light.calibration !== null || key === null || !Object.hasOwn(lights, key)) return [];
    const kept = lights[key];
    const uncertaintyStops = thousandths(Math.hypot(kept.uncertaintyStops, ANOTHER_DAY));
    return [{ name: light.name, index, known: { ...kept, uncertaintyStops } }];
  });
}

/** All that the book knows, put into the plan as one step; null where it knows nothing new. */
export function gearEdit(plan: Plan, book: GearBook): Edit | null {
  const known = gearFor(plan, book);
  if (known.length === 0) return null;
  return {
    kind: "set",
    label: `known from the gear book: ${known.map(({ name }) => name).join(", ")}`,
    fields: known.flatMap(({ index, known: { exponent, measuredOn, stops, uncertaintyStops } }) => {
      const value = { stops, uncertaintyStops, measuredOn, from: "gear book" };
      const { beam } = plan.lights[index];
      const spreads = beam.photometry === undefined && exponent !== undefined && exponent !== beam.exponent;
      return [
        { path: ["lights", index, "calibration"], value },
        ...(spreads ? [{ path: ["lights", index, "beam", "exponent"], value: exponent }] : []),
      ];
    }),
  };
}

/** The book with what this plan's readings taught of its lights; the same book where that is nothing new. */
export function learn(book: GearBook, plan: Plan): GearBook {
  const lights: Record<string, KeptLight> = { ...book.lights };
  let isNew = false;
  for (const light of plan.lights) {
    const key = bookKey(light);
    const { beam, calibration } = light;
    if (key === null || calibration?.from !== "readings") continue;
    const { measuredOn, stops, uncertaintyStops } = calibration;
    const spread = beam.photometry === undefined ? { exponent: beam.exponent } : {};
    const kept: KeptLight = { stops, uncertaintyStops, measuredOn, ...spread };
    if (Object.hasOwn(lights, key) && JSON.stringify(lights[key]) === JSON.stringify(kept)) continue;
    lights[key] = kept;
    isNew = true;
  }
  return isNew ? { ...book, lights } : book;
}

/** The book with a camera body's curve. */
export function learnBody(book: GearBook, body: string, curve: ResponseCurve, measuredOn: string): GearBook {
  return { ...book, bodies: { ...book.bodies, [body]: { ...curve, measuredOn } } };
}

function thousandths(stops: number): number {
  return Math.round(stops * 1000) / 1000;
}
