/** How sure one may be of what a plan says, before and after somebody has measured. All of it one standard deviation, stops:
 * two sets in three are within it. */
import { formOf, type OutputForm } from "./output.ts";
import type { Light, Room } from "./schema.ts";

/** Of a light that nobody has measured, by how its output is told. Watt-seconds and lumens are a guess within about one
 * stop (the product's rule 5): what tube and softbox make of them varies by as much. Guide numbers are measured, in some
 * room, with some reflector. A hand meter repeats itself to a tenth. Common practice, no source. */
const UNMEASURED: Readonly<Record<OutputForm, number>> = {
  wattSeconds: 1,
  lumenSeconds: 1,
  guideNumber: 0.3,
  meter: 0.1,
};

/** Of light sent back by a room whose reflectances somebody estimated by eye: white paint that is 0.6 to one is 0.7 to
 * another (common practice, no source). */
export const UNMEASURED_BOUNCE = 0.5;

/** Stops from what its output says to what it is taken to give, and how sure that is. */
export interface Known {
  readonly stops: number;
  readonly uncertaintyStops: number;
}

/** What is known of a light without any calibration from this plan's own readings: where a calibration starts. */
export function knownBefore({
  calibration,
  output,
}: Pick<Light, "output"> & Partial<Pick<Light, "calibration">>): Known {
  if (calibration?.from === "gear book") {
    const { stops, uncertaintyStops } = calibration;
    return { stops, uncertaintyStops };
  }
  return { stops: 0, uncertaintyStops: UNMEASURED[formOf(output)] };
}

export function uncertaintyOf(light: Light): number {
  return light.calibration?.uncertaintyStops ?? knownBefore(light).uncertaintyStops;
}

export function bounceUncertaintyOf(room: Room | null): number {
  return room === null ? 0 : (room.calibration?.uncertaintyStops ?? UNMEASURED_BOUNCE);
}
