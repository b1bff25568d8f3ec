/** Which reading would help most. */
import { ALL_LIGHTS, gearKey, type Plan, placeOf, type ReadingPlace, standing } from "../plan/index.ts";
import { type KeepGoing, Memory } from "../reading/index.ts";
import { gradient, type Unknowns } from "./calibrate-model.ts";
import { exposureAt, type HeadOf, READING_STOPS } from "./calibrate-observe.ts";
import { along } from "./calibrate-solve.ts";
import { type TraceTask, traceSetUp } from "./calibrate-trace.ts";
import type { NextReading } from "./calibrate-types.ts";

/** A light this sure needs no more readings: little more than a meter repeats itself to. */
export const SURE = 0.15;
/** Of bounce, which is a part of what is read. */
export const SURE_BOUNCE = 0.35;

type AskedPlace = Pick<NextReading, "meter" | "place" | "near" | "isTurned">;

const AWAY = 180;

/** The plan's meters and where readings were made, and each of them turned away from where it points: what comes from the
 * room is read there. */
function placesToAsk(plan: Plan): AskedPlace[] {
  const held: AskedPlace[] = [
    ...plan.meters.map(({ name, position, direction, receptor }) => {
      return { meter: name, near: name, isTurned: false, place: { position, direction, receptor } };
    }),
    ...plan.readings.map((reading) => {
      return { meter: null, near: reading.name, isTurned: false, place: placeOf(plan, reading) };
    }),
  ];
  return held
    .filter(({ place }) => place.receptor !== "spot")
    .filter(({ place }, i, all) => all.findIndex((other) => isSame(other.place, place)) === i)
    .slice(0, MOST_PLACES)
    .flatMap((each) => [each, { ...each, meter: null, isTurned: true, place: turned(each.place) }]);
}

/** Each takes a moment to trace. */
const MOST_PLACES = 6;

function isSame(a: ReadingPlace, b: ReadingPlace): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

function turned({ position, direction, receptor }: ReadingPlace): ReadingPlace {
  if ("at" in direction) {
    const at = direction.at.map((v, k) => 2 * position[k] - v) as [number, number, number];
    return { position, direction: { at }, receptor };
  }
  const bearing = direction.bearing > 0 ? direction.bearing - AWAY : direction.bearing + AWAY;
  return { position, direction: { bearing, tilt: -direction.tilt }, receptor };
}

interface Fitted {
  readonly heads: readonly HeadOf[];
  readonly unknowns: Unknowns;
  readonly at: readonly number[];
  readonly covariance: readonly (readonly number[])[];
}

/** The reading that takes most off the largest doubt; null where all is known well enough, and where the plan has no place to
 * hold a meter. Traced coarsely: which reading helps does not hang on a per cent.
 * Errors  Stopped where `keepGoing` returns false */
export function nextReading(plan: Plan, fitted: Fitted, keepGoing: KeepGoing): NextReading | null {
  const { at, covariance, heads, unknowns } = fitted;
  const worst = largestDoubt(fitted);
  const asked = placesToAsk(plan);
  if (worst === null || asked.length === 0) return null;
  const lights = standing(plan);
  const task: TraceTask = {
    plan,
    lights,
    heads: lights.map((light) => heads.findIndex((head) => head.key === gearKey(light))),
    places: asked.map(({ place }) => place),
    people: [],
    beams: false,
    quality: "coarse",
  };
  const traced = traceSetUp(task, new Memory(), keepGoing);
  const unit = at.map((_, k) => (k === worst.unknown ? 1 : 0));
  let best: NextReading | null = null;
  for (const light of [...lights.filter((l) => l.on).map((l) => l.name), ALL_LIGHTS])
    asked.forEach((held, i) => {
      const over = exposureAt(traced.places[i], lights, light);
      if (!(over.terms.reduce((sum, t) => sum + t.direct + t.bounced, 0) > 0)) return;
      const g = gradient({ over, under: null }, unknowns, at);
      // what one more reading of known noise does to a normal distribution
      const taken = along(covariance, unit, g) ** 2 / (READING_STOPS ** 2 + along(covariance, g, g));
      const after = Math.sqrt(Math.max(0, worst.sd ** 2 - taken));
      if (best === null || after < best.after - NO_BETTER)
        best = { light, ...held, helps: worst.name, before: worst.sd, after };
    });
  return best;
}

/** Among alike the first: a meter of the plan before a place of a reading, one light before all. */
const NO_BETTER = 0.005;

function largestDoubt({ covariance, heads, unknowns }: Fitted) {
  const targets = heads.flatMap(({ light, index }, h) => {
    return index >= 0 && light.on ? [{ name: light.name, unknown: unknowns.stops[h], enough: SURE }] : [];
  });
  if (unknowns.bounce >= 0) targets.push({ name: "bounce", unknown: unknowns.bounce, enough: SURE_BOUNCE });
  const open = targets
    .map((target) => ({ ...target, sd: Math.sqrt(covariance[target.unknown][target.unknown]) }))
    .filter((target) => target.sd > target.enough);
  return open.length === 0 ? null : open.reduce((a, b) => (b.sd / b.enough > a.sd / a.enough ? b : a));
}
