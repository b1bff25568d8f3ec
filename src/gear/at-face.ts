/** How a light of a plan reaches the face that it is for. */
import { axialExposure, METER_CONSTANT } from "../photometry/index.ts";
import type { Light, Plan, Vec3 } from "../plan/index.ts";
import { luminousEnergyOf, noseTip, stagePerson } from "../staging/index.ts";
import type { Front } from "./enter.ts";

/** Nearer than this nobody puts a front. */
const NEAREST_M = 0.2;
/** Where nobody sits yet (common practice, no source). */
const USUAL_M = 1.5;

/** The nose that is nearest to a place; null where nobody is in the plan. */
export function nearestNose(plan: Plan, position: Readonly<Vec3>): Vec3 | null {
  let nearest: Vec3 | null = null;
  for (const person of plan.people) {
    const tip = noseTip(stagePerson(person, plan));
    if (nearest === null || distanceOf(position, tip) < distanceOf(position, nearest)) nearest = tip;
  }
  return nearest;
}

/** From a light's front to the nearest nose, m; a usual distance where nobody is there. */
export function toFace(plan: Plan, { position }: Pick<Light, "position">): number {
  const nose = nearestNose(plan, position);
  return nose === null ? USUAL_M : Math.max(NEAREST_M, distanceOf(position, nose));
}

/** Exposure of one lumen-second on the axis of a light as it stands in the plan, by whatever file it spreads; lx.s. */
export function axisShareOf(light: Light, plan: Plan, distance_m: number): number {
  // a reading of f/1 at ISO 100 is the same exposure of any light: what energy it takes says how the light spreads
  const asRead = { fNumber: 1, iso: 100, distance: distance_m, receptor: "flat" as const };
  const energy = luminousEnergyOf({ ...light, output: { meter: asRead } }, plan);
  return METER_CONSTANT.flat / asRead.iso / energy;
}

export function axisShare({ beam, face }: Front, distance_m: number): number {
  return axialExposure(face, beam.exponent, beam.edgeDrop, distance_m, "flat");
}

/** lm.s that leave the front as the plan has it, with what was measured of it. */
export function energyNow(light: Light, plan: Plan): number {
  return luminousEnergyOf(light, plan) * 2 ** (light.calibration?.stops ?? 0);
}

export function distanceOf(a: Readonly<Vec3>, b: Readonly<Vec3>): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}
