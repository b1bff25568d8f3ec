/** The plan on the table as paired devices see it. No ray is followed: what is known of the light is given. */
import type { Plan } from "../plan/index.ts";
import { drawingDocument, measurePlaces } from "../sheet/index.ts";
import type { Placed } from "../shoots/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { checklist, checklistCautions } from "./checklist.ts";
import { type KnownMeters, liveReadings } from "./live-readings.ts";
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
  const { overhead, others } = checklistCautions(plan, units, places);
  const context = { plan, places, units };
  const setUps = setUpsOf(plan);
  // of an older plan it says nothing of distances as they are
  const known = reading === null || readOf === revision ? reading : { ...reading, reach: null };
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
    things: checklist(plan, units, known, places).map((thing) => ({
      ...thing,
      placed: ticks.get(thing.thing) ?? null,
    })),
    overhead,
    cautions: others,
    iso: plan.camera.iso,
    readings: liveReadings(plan, places, units, reading),
    readOf: reading === null ? null : readOf,
  };
}
