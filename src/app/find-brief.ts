/** The brief of a plan, filled in where it says nothing, and the edits of it. */
import {
  type Brief,
  type Edit,
  emptyBrief,
  type FieldPath,
  type Gear,
  type GearLight,
  type Light,
  type Plan,
  setField,
  type Want,
} from "../plan/index.ts";
import type { CameraReading, FaceReading } from "../reading/index.ts";
import { luminousEnergyOf } from "../staging/index.ts";
import { frontWords } from "./light-words.ts";

/** The brief that is in force: the plan's own; else nothing asked, with the lens that is on. What it says nothing of is
 * filled in from what stands in the plan, so that it says the same once that has been moved or taken away. */
export function briefOf(plan: Plan): Brief {
  const brief = plan.brief ?? { ...emptyBrief(), lenses: [plan.camera.focalLength] };
  return brief.gear === null ? { ...brief, gear: gearOf(plan) } : brief;
}

/** The plan that is searched for: with its brief in force. Gear that nobody listed is left to the plan itself, which
 * knows more of it: filters, and how a front spreads by its file. */
export function searchedPlan(plan: Plan): Plan {
  return { ...plan, brief: { ...briefOf(plan), gear: plan.brief?.gear ?? null } };
}

/** As many as a brief takes. */
export const MOST_GEAR = 8;

/** What is pinned stays where it is and is not on hand. */
export function gearOf(plan: Plan): Gear {
  const free = <T extends { pinned: boolean }>(things: readonly T[]) =>
    things.filter(({ pinned }) => !pinned).slice(0, MOST_GEAR);
  return {
    lights: free(plan.lights).map((light) => gearLightOf(light, plan)),
    panels: free(plan.panels).map(({ name, width, height, reflectance }) => ({
      name,
      width,
      height,
      reflectance,
    })),
  };
}

/** A stand that reaches as an ordinary one does, and to where its light is now. */
function gearLightOf(light: Light, plan: Plan): GearLight {
  const { beam, dial, face, kelvin, name, position } = light;
  return {
    name,
    full: fullOf(light, plan),
    dial,
    kelvin,
    fronts: [
      {
        name: frontWords(face, "metric"),
        face,
        beam: { exponent: beam.exponent, edgeDrop: beam.edgeDrop },
        stopsLost: 0,
      },
    ],
    stand: { lowest: Math.min(LOWEST_M, position[2]), highest: Math.max(HIGHEST_M, position[2]), boom: 0 },
  };
}

/** An ordinary stand, as in the plan's brief (common practice, no source). */
const LOWEST_M = 0.6;
const HIGHEST_M = 2.8;

/** What it gives at full, as calibrated. What is measured where it stands is all that is known of it. */
function fullOf(light: Light, plan: Plan): GearLight["full"] {
  const { calibration, output } = light;
  const really = 2 ** (calibration?.stops ?? 0);
  if ("wattSeconds" in output) {
    const { efficiency, lumensPerWatt, wattSeconds } = output;
    return { wattSeconds, lumensPerWatt: lumensPerWatt * really, efficiency };
  }
  const stops = "stopsDown" in output ? output.stopsDown : 0;
  return { lumenSeconds: luminousEnergyOf(light, plan) * really * 2 ** stops };
}

/** One change of the brief, as one step. */
export function briefEdit(plan: Plan, label: string, path: FieldPath, value: unknown): Edit {
  return setField(`brief: ${label}`, ["brief"], withValue(briefOf(plan), path, value));
}

/** The same with one value put in, at its path. */
export function withValue(into: unknown, path: FieldPath, value: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  if (Array.isArray(into)) return into.map((each, i) => (i === step ? withValue(each, rest, value) : each));
  const record = into as Record<string, unknown>;
  return { ...record, [step]: withValue(record[step], rest, value) };
}

/** What is asked for where the light as it is read now is to be had again: the same within what a search is held to. */
export function wantAsRead(want: Want, face: FaceReading, camera: CameraReading): Want {
  const tenths = (value: number) => Math.round(value * 10) / 10;
  const about = (value: number | null, by: number, least: number) =>
    value === null ? null : { from: Math.max(least, tenths(value - by)), to: tenths(value + by) };
  const edge = face.shadowEdgeMillimetres;
  return {
    ...want,
    pattern: face.pattern === "dark" ? null : face.pattern,
    litSide: face.litSide === "even" ? null : face.litSide,
    side: face.side === "square" ? null : face.side,
    ratioStops: about(face.ratioStops, 0.3, 0),
    shadowEdgeMillimetres: about(edge, 0.3 * (edge ?? 0), 0),
    backgroundStops: about(camera.backgroundStops, 0.3, -12),
  };
}
