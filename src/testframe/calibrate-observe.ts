/** From readings and test frames to what was observed, and of which heads. */
import {
  clippingExposure,
  exposureOfReading,
  LENS_FACTOR,
  LUMINANCE,
  METER_CONSTANT,
  REFLECTED_CONSTANT,
} from "../photometry/index.ts";
import {
  ALL_LIGHTS,
  gearKey,
  type Plan,
  placeOf,
  type Reading,
  type StandingLight,
  standing,
} from "../plan/index.ts";
import { type KeepGoing, Memory, type Quality } from "../reading/index.ts";
import { skinRgb } from "../staging/index.ts";
import type { Exposure, Observation } from "./calibrate-model.ts";
import { type Traced, type TracedPlace, traceSetUp } from "./calibrate-trace.ts";
import type { CalibrationFrame, CheckedReading } from "./calibrate-types.ts";

/** A hand meter repeats itself to a tenth of a stop (common practice, no source). */
export const READING_STOPS = 0.1;
/** Exposure told by a face in a frame: its skin is known to about 0.3 stop, the camera's level to as much (common practice, no
 * source); without its curve a file's tone says little more than the meter on its back. */
const FRAME_STOPS = { withCurve: 0.45, without: 1 } as const;
const RATIO_STOPS = { withCurve: 0.25, without: 0.5 } as const;
/** Less than this is nothing, lx.s, as in a reading. */
const DARK = 0.001;
/** How much of the light alone must come straight from it for a reading to tell how it spreads. */
export const STRAIGHT = 0.6;
/** So many readings of a light alone, from its axis to well aside, tell how it spreads. */
const BEAM_READINGS = 3;

/** One head: lights of the plan and of earlier readings that one correction serves. */
export interface HeadOf {
  readonly key: string;
  readonly light: StandingLight;
  /** in the plan now, -1 where it is none of it any more */
  readonly index: number;
}

/** What was read and what it is compared with. */
export interface Observed {
  readonly checked: Pick<CheckedReading, "name" | "kind" | "light">;
  /** null where the plan cannot tell */
  readonly observation: Observation | null;
  readonly why: string;
}

export interface Evidence {
  readonly heads: readonly HeadOf[];
  readonly observed: readonly Observed[];
}

interface SetUp {
  readonly lights: readonly StandingLight[];
  readonly readings: Reading[];
}

/** Traces every set-up that readings were made in. */
export function gatherEvidence(
  plan: Plan,
  frames: readonly CalibrationFrame[],
  quality: Quality,
  memory: Memory | undefined,
  keepGoing: KeepGoing,
): Evidence {
  const setUps = setUpsOf(plan);
  const heads = headsOf(plan, setUps);
  const headOf = (light: StandingLight) => heads.findIndex((head) => head.key === gearKey(light));
  const traced = setUps.map(({ lights, readings }, i) => {
    // the one that stands comes first, with the people in the frames
    const people = i === 0 ? frames.map((frame) => frame.person) : [];
    if (readings.length === 0 && people.length === 0) return NOTHING_READ;
    const task = {
      plan,
      lights,
      heads: lights.map(headOf),
      places: readings.map((reading) => placeOf(plan, reading)),
      people,
      beams: heads.some((head) => aloneReadings(readings, lights, head.key) >= BEAM_READINGS),
      quality,
    };
    const share = (done: number) => keepGoing((i + done) / setUps.length);
    // one set-up's traces are of no use to the next: lights stand elsewhere
    return traceSetUp(task, i === 0 && memory ? memory : new Memory(), share);
  });
  const byReading = new Map<Reading, Observed>();
  setUps.forEach(({ lights, readings }, s) => {
    readings.forEach((reading, i) => {
      byReading.set(reading, observedReading(plan, reading, lights, traced[s].places[i]));
    });
  });
  const seen = frames.flatMap((frame, i) => observedFrame(plan, frame, traced[0].cheeks[i]));
  return { heads, observed: [...plan.readings.flatMap((r) => byReading.get(r) ?? []), ...seen] };
}

const NOTHING_READ: Traced = { places: [], cheeks: [] };

/** The one that stands comes first, whether or not anything was read in it. */
function setUpsOf(plan: Plan): SetUp[] {
  const lights = standing(plan);
  const out = new Map<string, SetUp>([[JSON.stringify(lights), { lights, readings: [] }]]);
  for (const reading of plan.readings) {
    const stood = reading.stood ?? lights;
    const key = JSON.stringify(stood);
    const setUp = out.get(key) ?? { lights: stood, readings: [] };
    setUp.readings.push(reading);
    out.set(key, setUp);
  }
  return [...out.values()];
}

function headsOf(plan: Plan, setUps: readonly SetUp[]): HeadOf[] {
  const out = new Map<string, HeadOf>();
  standing(plan).forEach((light, index) => {
    out.set(gearKey(light), { key: gearKey(light), light, index });
  });
  for (const { lights } of setUps)
    for (const light of lights) {
      const key = gearKey(light);
      if (!out.has(key)) out.set(key, { key, light, index: -1 });
    }
  return [...out.values()];
}

function aloneReadings(readings: readonly Reading[], lights: readonly StandingLight[], key: string): number {
  const name = lights.find((light) => gearKey(light) === key)?.name;
  return readings.filter((reading) => reading.light === name).length;
}

/** Lights that gave light to a reading: the one that flashed alone, or all that were on. */
export function exposureAt(place: TracedPlace, lights: readonly StandingLight[], light: string): Exposure {
  const lit = lights.filter(({ name, on }) => (light === ALL_LIGHTS ? on : name === light));
  return { terms: lit.flatMap(({ name }) => place.terms.get(name) ?? []), ambient: place.ambient };
}

function observedReading(
  plan: Plan,
  reading: Reading,
  lights: readonly StandingLight[],
  place: TracedPlace,
): Observed {
  const { fNumber, iso, light, name } = reading;
  const checked = { name, kind: "reading", light } as const;
  const over = exposureAt(place, lights, light);
  if (!arrives(over))
    return {
      checked,
      observation: null,
      why: "by the plan no light arrives there: is it behind something, or inside somebody?",
    };
  const { receptor } = placeOf(plan, reading);
  // a spot meter's exposure is that of a white surface that would look so
  const luxSeconds =
    receptor === "spot"
      ? Math.PI * exposureOfReading(fNumber, iso, REFLECTED_CONSTANT)
      : exposureOfReading(fNumber, iso, METER_CONSTANT[receptor]);
  const observation = { over, under: null, stops: Math.log2(luxSeconds), uncertaintyStops: READING_STOPS };
  return { checked, observation, why: "" };
}

function arrives({ terms, ambient }: Exposure): boolean {
  return terms.reduce((sum, term) => sum + term.direct + term.bounced, ambient) > DARK;
}

/** The lit cheek's exposure by the camera's settings, and the ratio. */
function observedFrame(plan: Plan, frame: CalibrationFrame, cheeks: Traced["cheeks"][number]): Observed[] {
  const { face, hasCurve, name, person } = frame;
  const lights = standing(plan);
  const [left, right] = [cheeks.left, cheeks.right].map((cheek) => exposureAt(cheek, lights, ALL_LIGHTS));
  const [lit, shadow] = face.litSide === "right" ? [right, left] : [left, right];
  const out: Observed[] = [];
  if (face.litCheekStops !== null && face.litSide !== null && arrives(lit)) {
    const skin = skinRgb(plan.people[person].skin.reflectance);
    const reflectance = LUMINANCE[0] * skin[0] + LUMINANCE[1] * skin[1] + LUMINANCE[2] * skin[2];
    const clips = clippingExposure(frame.iso, plan.camera.headroom);
    // the focal plane gets q (r E / pi) / N^2
    const level = (LENS_FACTOR * reflectance) / (Math.PI * frame.fNumber ** 2);
    out.push({
      checked: { name, kind: "lit cheek", light: ALL_LIGHTS },
      observation: {
        over: lit,
        under: null,
        stops: Math.log2(clips / level) - face.litCheekStops,
        uncertaintyStops: hasCurve ? FRAME_STOPS.withCurve : FRAME_STOPS.without,
      },
      why: "",
    });
  }
  if (face.ratioStops !== null && face.litSide !== null && arrives(lit) && arrives(shadow)) {
    out.push({
      checked: { name, kind: "ratio", light: ALL_LIGHTS },
      observation: {
        over: lit,
        under: shadow,
        stops: face.ratioStops,
        uncertaintyStops: Math.max(
          face.ratioUncertaintyStops ?? 0,
          hasCurve ? RATIO_STOPS.withCurve : RATIO_STOPS.without,
        ),
      },
      why: "",
    });
  }
  return out;
}
