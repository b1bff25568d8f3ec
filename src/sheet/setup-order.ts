/** In which order the set is built, so that each step can be measured before the next hides it. */
import type { Plan } from "../plan/index.ts";
import type { MeterReading, PlanReading } from "../reading/index.ts";
import { listed } from "../safety/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";
import type { Place, Places } from "./place.ts";
import { isCrowd } from "./tables.ts";
import { aloneReading, apertureWords, exposureWords, markWords, powerWords, wallsWords } from "./words.ts";

export interface SetupContext {
  readonly plan: Plan;
  readonly reading: PlanReading;
  readonly places: Places;
  readonly units: LengthUnits;
  /** the meter by which lights are set, as an index into the plan's meters */
  readonly meter: number | null;
}

export function setupOrder(context: SetupContext): string[] {
  const { plan, reading, places, units, meter } = context;
  const steps: string[] = [];
  if (isCrowd(plan)) {
    const names = listed(places.people.map(({ name }) => name));
    steps.push(`Tape the marks of ${names}, as in the table; a second tape where toes point.`);
  } else
    for (const person of places.people) {
      const at = person.walls === null ? "" : `, ${wallsWords(person.walls, units).join(", ")}`;
      steps.push(`Tape the mark of ${person.name}${at}; a second tape where the toes point.`);
    }
  for (const mark of places.marks) steps.push(`Tape ${mark.name}:${spotWords(mark, units)}.`);
  if (places.backdrop !== null) {
    const at = spotWords(places.backdrop, units);
    steps.push(
      `Hang the ${places.backdrop.name}:${at}, its top at ${formatLength(places.backdrop.height_m, units)}.`,
    );
  }
  const lens = formatLength(places.camera.height_m, units);
  steps.push(`Camera:${spotWords(places.camera, units)}, lens ${lens} high: ${exposureWords(plan.camera)}.`);
  steps.push(...lightSteps(context));
  const off = plan.lights.filter((l) => !l.on).map((l) => l.name);
  if (off.length > 0) steps.push(`Off in this plan: ${listed(off)}.`);
  if (plan.panels.length > 0)
    steps.push(`Panels: ${listed(plan.panels.map((p) => p.name))}, as in the table.`);
  if (meter !== null) {
    steps.push(
      `All on: ${plan.meters[meter].name} reads ${reading.meters[meter].fStops}; the lens stays at ${apertureWords(plan.camera.fNumber)}.`,
    );
  }
  steps.push("One test frame with a grey card, one without. Write down what was changed.");
  return steps;
}

/** Lights enough to say once what is done with each: dial and reading stand in the table. */
const SEVERAL = 3;

function lightSteps({ plan, reading, units, meter }: SetupContext): string[] {
  const order = strongestFirst(plan, meter === null ? null : reading.meters[meter]);
  const receptor = meter === null ? "spot" : plan.meters[meter].receptor;
  if (order.length >= SEVERAL) {
    const names = listed(order.map((i) => plan.lights[i].name));
    const alone =
      meter === null || receptor === "spot" ? "" : ` Each alone at ${plan.meters[meter].name} as there.`;
    return [`One by one ${names}: place, height, aim and power as in the table, bag on.${alone}`];
  }
  return order.map((i) => {
    const light = plan.lights[i];
    const alone =
      meter === null || receptor === "spot"
        ? ""
        : ` Alone it reads ${aloneReading(plan, reading.meters[meter], receptor, light.name)} at ${plan.meters[meter].name}.`;
    return `${light.name}: place, height and aim as in the table, bag on; ${powerWords(light, units)}.${alone}`;
  });
}

function spotWords(place: Place, units: LengthUnits): string {
  if (place.walls !== null) return ` ${wallsWords(place.walls, units).join(", ")}`;
  return place.mark === null ? "" : ` ${markWords(place.mark, units).join(", ")} of the mark`;
}

/** Lights that are on, by what they send to the meter: the key is set first. In the plan's order where no meter tells. */
export function strongestFirst(plan: Plan, meter: MeterReading | null): number[] {
  const share = (i: number) => {
    const { name } = plan.lights[i];
    if (meter === null || !Object.hasOwn(meter.byLight, name)) return 0;
    return meter.byLight[name].direct + meter.byLight[name].bounced;
  };
  return plan.lights
    .map((_, i) => i)
    .filter((i) => plan.lights[i].on)
    .sort((a, b) => share(b) - share(a) || a - b);
}
