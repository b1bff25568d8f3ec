/** Taking what was found into the plan, as one edit that can be undone. */
import type { Edit, FieldPath, LightCalibration, Plan } from "../plan/index.ts";
import type { Calibration } from "./calibrate-types.ts";

/** What readings left no surer than this share of what it was is not learnt. */
const LEARNT = 0.9;
/** Thousandths of a stop. */
const rounded = (stops: number) => Math.round(stops * 1000) / 1000;

/** Null where nothing was learnt and nothing was learnt before. `measuredOn` is a date, or whatever tells it later.
 * A light about which the readings say nothing keeps what is known from the gear book; what earlier readings of this plan said
 * of it goes, because they are no longer there. */
export function calibrationEdit(plan: Plan, calibration: Calibration, measuredOn: string): Edit | null {
  const fields: { path: FieldPath; value: unknown }[] = [];
  calibration.lights.forEach(({ after, beam, before, isContradicted, readings }, i) => {
    const { calibration: kept } = plan.lights[i];
    const isSurer = after.uncertaintyStops < LEARNT * before.uncertaintyStops;
    if (isSurer || (isContradicted && readings > 0)) {
      const value: LightCalibration = {
        stops: rounded(after.stops),
        uncertaintyStops: rounded(after.uncertaintyStops),
        measuredOn,
        from: "readings",
      };
      fields.push({ path: ["lights", i, "calibration"], value });
      if (beam !== null)
        fields.push({ path: ["lights", i, "beam", "exponent"], value: rounded(beam.exponentAfter) });
    } else if (kept?.from === "readings") fields.push({ path: ["lights", i, "calibration"], value: null });
  });
  const { room } = calibration;
  if (room !== null && room.after.uncertaintyStops < LEARNT * room.before.uncertaintyStops) {
    const { stops, uncertaintyStops } = room.after;
    const value = { bounceStops: rounded(stops), uncertaintyStops: rounded(uncertaintyStops), measuredOn };
    fields.push({ path: ["room", "calibration"], value });
  } else if (plan.room !== null && plan.room.calibration !== null)
    fields.push({ path: ["room", "calibration"], value: null });
  return fields.length === 0 ? null : { kind: "set", label: "calibrated by the readings", fields };
}
