/** The plan on the table as paired devices see it. No ray is followed: what is known of the light is given. */
import type { Plan } from "../plan/index.ts";
import {
  drawingDocument,
  measurePlaces,
  overheadCautions,
  type SetBy,
  settingMeter,
  thingsInOrder,
  usualCautions,
} from "../sheet/index.ts";
import type { Placed } from "../shoots/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { type KnownMeters, liveReadings, readingOfMeter } from "./live-readings.ts";
import type { LivePlan } from "./live-types.ts";
import { setUpsOf } from "./set-ups.ts";

export interface LiveParts {
  readonly key: string;
  readonly revision: number;
  readonly units: LengthUnits;
  readonly placed: readonly Placed[];
  /** of this plan, or of it before its last changes; null while nothing is known */
  readonly reading: KnownMeters | null;
  /** the revision that was read */
  readonly readOf: number | null;
}

/** Shape    drawings as whole SVG documents, things in the order of setting up [WB25] to [WB29]
 * Units    lengths and powers as people read them, in `units`
 * Errors   none for a plan that was checked */
export function livePlan(plan: Plan, parts: LiveParts): LivePlan {
  const { key, revision, units, placed, reading, readOf } = parts;
  const places = measurePlaces(plan);
  const context = { plan, places, units };
  const setUps = setUpsOf(plan);
  const ticks = new Map(
    placed.map(({ thing, by, at, setUp }) => [thing, { by, at, isOld: setUp !== setUps.get(thing) }]),
  );
  return {
    key,
    title: plan.title,
    revision,
    units,
    floor: drawingDocument(context, "floor"),
    side: drawingDocument(context, "side"),
    things: thingsInOrder(context, setByOf(plan, settingMeter(plan, places.noses), reading)).map((thing) => ({
      ...thing,
      placed: ticks.get(thing.thing) ?? null,
    })),
    overhead: overheadCautions(plan, places.noses).map(({ text }) => text),
    cautions: usualCautions(plan),
    iso: plan.camera.iso,
    readings: liveReadings(plan, places, units, reading),
    readOf: reading === null ? null : readOf,
  };
}

function setByOf(plan: Plan, index: number | null, reading: LiveParts["reading"]): SetBy | null {
  if (index === null) return null;
  const { name, receptor } = plan.meters[index];
  const known = readingOfMeter(reading, name);
  return known === null || receptor === "spot" ? null : { receptor, reading: known };
}
