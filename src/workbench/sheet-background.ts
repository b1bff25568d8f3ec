/** What falls on the backdrop, read with the plan itself: five receptors more in one reading. */
import type { Plan } from "../plan/index.ts";
import type { PlanReading } from "../reading/types.ts";
import { backgroundPoints, keyMeter, measurePlaces, type SheetBackground } from "../sheet/index.ts";
import { parseFStops } from "../units/index.ts";

export interface BackgroundAsked {
  /** the plan with a receptor at each point, after its own meters */
  readonly plan: Plan;
  /** its reading as the plan's own, and what the receptors said */
  split(reading: PlanReading): {
    readonly reading: PlanReading;
    readonly background: readonly SheetBackground[];
  };
}

export function askBackground(plan: Plan, person: number): BackgroundAsked {
  const { noses } = measurePlaces(plan);
  const points = backgroundPoints(plan, noses, person);
  const key = keyMeter(plan, noses);
  const receptors = points.map(({ position, bearing_deg }, i): Plan["meters"][number] => ({
    name: `background ${i}`,
    position,
    direction: { bearing: bearing_deg, tilt: 0 },
    receptor: "flat",
    pinned: false,
  }));
  const own = plan.meters.length;
  return {
    plan: points.length === 0 ? plan : { ...plan, meters: [...plan.meters, ...receptors] },
    split: (reading) => {
      // of what is printed, so that both readings and the stops between them add up on paper
      const asked = key === null ? null : parseFStops(reading.meters[key].fStops);
      return {
        reading: { ...reading, meters: reading.meters.slice(0, own) },
        background: points.map(({ name, position }, i) => {
          const { fStops } = reading.meters[own + i];
          const here = parseFStops(fStops);
          const isRead = asked !== null && here !== null;
          return { name, position, fStops, againstKeyStops: isRead ? 2 * Math.log2(here / asked) : null };
        }),
      };
    },
  };
}
