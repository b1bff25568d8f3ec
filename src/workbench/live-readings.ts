/** What the meters should read and what was read on set, for paired devices; and a reading that one of them sends. */
import type { ReachEffect } from "../finder/index.ts";
import {
  ALL_LIGHTS,
  applyEdit,
  type Edit,
  type Meter,
  type Plan,
  placeOf,
  type Reading,
  readingOf,
  standing,
} from "../plan/index.ts";
import type { MeterReading } from "../reading/index.ts";
import { aloneFNumber, heldWords, meterWords, type Places } from "../sheet/index.ts";
import { formatFStops, formatOff, type LengthUnits } from "../units/index.ts";
import type { LiveReading, SentReading } from "./live-types.ts";

/** Nearer than this a meter was held at the same place. */
const SAME_PLACE_M = 0.005;

/** What is known of a plan's light: as much of its reading as a meter shows. */
export interface KnownMeters {
  readonly meters: readonly MeterReading[];
  /** what distances found by the body do; not known where it is left out */
  readonly reach?: readonly ReachEffect[] | null;
}

/** For each meter of the plan all lights, then each that is on by itself: a spot meter looks at all of them only. */
export function liveReadings(
  plan: Plan,
  places: Places,
  units: LengthUnits,
  reading: KnownMeters | null,
): LiveReading[] {
  return plan.meters.flatMap((meter, i) => {
    const receptor = meterWords(plan, i, places.noses);
    const held = `${receptor}; ${heldWords(plan, i, places.noses, units)}`;
    const known = readingOfMeter(reading, meter.name);
    const alone = meter.receptor === "spot" ? [] : plan.lights.filter((light) => light.on);
    return [ALL_LIGHTS, ...alone.map(({ name }) => name)].map((light) => ({
      meter: meter.name,
      receptor,
      held,
      light,
      ...compared(plan, meter, light, known === null ? null : shouldRead(plan, meter, light, known)),
    }));
  });
}

/** By its name: what is known may be of the plan before its last change. */
export function readingOfMeter(reading: KnownMeters | null, name: string): MeterReading | null {
  return reading?.meters.find((meter) => meter.name === name) ?? null;
}

/** Null where nothing is known of that light yet. */
function shouldRead(plan: Plan, { receptor }: Meter, light: string, known: MeterReading): number | null {
  if (light === ALL_LIGHTS) return known.fNumber;
  if (receptor === "spot" || !Object.hasOwn(known.byLight, light)) return null;
  return aloneFNumber(plan, known.byLight[light], receptor);
}

function compared(plan: Plan, meter: Meter, light: string, should: number | null) {
  const last = plan.readings.findLast((made) => made.light === light && isHeldThere(plan, made, meter));
  const made = last === undefined ? null : last.fNumber * Math.sqrt(plan.camera.iso / last.iso);
  const isOld = last !== undefined && !stoodAsNow(plan, last);
  return {
    should: should === null ? null : formatFStops(should),
    made: made === null ? null : formatFStops(made),
    isOld,
    difference: made === null || should === null || isOld ? null : formatOff(made, should),
  };
}

function isHeldThere(plan: Plan, made: Reading, meter: Meter): boolean {
  const { direction, position, receptor } = placeOf(plan, made);
  const [x, y, z] = meter.position;
  return (
    receptor === meter.receptor &&
    Math.hypot(position[0] - x, position[1] - y, position[2] - z) < SAME_PLACE_M &&
    JSON.stringify(direction) === JSON.stringify(meter.direction)
  );
}

/** Whether the lights that were read stand and shine as they did. */
function stoodAsNow(plan: Plan, { light, stood }: Reading): boolean {
  const concerned = (lights: readonly { readonly name: string; readonly on: boolean }[]) =>
    JSON.stringify(lights.filter(({ name, on }) => (light === ALL_LIGHTS ? on : name === light)));
  return stood === undefined || concerned(stood) === concerned(standing(plan));
}

/** The edit that puts a reading sent by a paired device into the plan, with the lights as they stand; or why it is none.
 * Errors  none: what is wrong comes back with its cure */
export function applySentReading(
  plan: Plan,
  sent: SentReading,
): Edit | { readonly problem: string; readonly cure: string } {
  const { fNumber, iso = plan.camera.iso, light, note, meter } = sent;
  if (!plan.meters.some(({ name }) => name === meter))
    return refused(`the plan has no meter called "${meter}"`, "choose one of those that are shown now");
  if (light !== ALL_LIGHTS && !plan.lights.some(({ name }) => name === light))
    return refused(`the plan has no light called "${light}"`, "choose one of those that are shown now");
  if (!(fNumber >= 0.5 && fNumber <= 256))
    return refused(`a meter does not read f/${fNumber}`, "give a stop between f/0.5 and f/256");
  if (!(iso >= 1 && iso <= 1e6))
    return refused(`a meter is not set to ISO ${iso}`, "give an ISO between 1 and 1000000");
  const edit: Edit = {
    kind: "add",
    label: `reading ${formatFStops(fNumber)}, ${light === ALL_LIGHTS ? "all lights" : `${light} alone`}, at ${meter}`,
    list: "readings",
    item: readingOf(plan, { meter, light, fNumber, iso, ...(note === undefined ? {} : { note }) }),
  };
  const made = applyEdit(plan, edit);
  if (made.ok) return edit;
  const [first] = made.problems;
  return refused(
    `the reading does not go into the plan: ${first?.path ?? "readings"} ${first?.what ?? ""}`.trim(),
    "look at it in the workbench and enter it there",
  );
}

function refused(problem: string, cure: string) {
  return { problem, cure };
}
