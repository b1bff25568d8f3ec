/** What the two pages measure on their plan, and what they ask the student to reach. */
import type { Plan } from "../plan/index.ts";
import { type FieldMap, lightFromWords, type PersonReading, patternName } from "../reading/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { lengthText } from "./entries.ts";
import { probeField, referenceLuxSeconds } from "./field-probe.ts";
import { noTipWords, placeWords, truePlace } from "./guess-words.ts";
import { bridgeOf } from "./layer-height.ts";
import { lightPlace, type Topic } from "./lesson-plan.ts";
import type { Results } from "./results.ts";
import { signedStops } from "./wording.ts";

/** A plan and what was read of it. */
export interface Seen {
  readonly plan: Plan;
  readonly who: PersonReading;
  readonly map: FieldMap;
}

/** What is shown of a plan; null until it is there. While something is dragged the map may be a step behind. */
export function seenOf(plan: Plan, { reading, readingOf, floorMap }: Results): Seen | null {
  const who = reading?.people[0];
  return readingOf !== plan || who === undefined || floorMap === null ? null : { plan, who, map: floorMap };
}

/** Behind the face, along the way it looks: where the background or a second sitter would be. */
const BEHIND_M = 1;

/** Lux-seconds at the face, as a dome turned to where the light comes from reads it, the sitter taken away. */
export function powerAtFace({ map }: Seen): number {
  return referenceLuxSeconds(map) ?? 0;
}

/** Stops from the face to a place a metre behind it. */
export function stopsBehind({ plan, map }: Seen): number | null {
  const bridge = bridgeOf(plan, 0);
  const probe = bridge && probeField(map, bridge[0], bridge[1] + BEHIND_M);
  return probe && Number.isFinite(probe.stops) ? probe.stops : null;
}

export interface Fact {
  readonly name: string;
  readonly of: (seen: Seen, first: Seen) => string;
}

const distance = (units: LengthUnits): Fact => ({
  name: "light from the face",
  of: ({ plan }) => lengthText(lightPlace(plan)?.away_m ?? 0, units),
});
const from: Fact = { name: "comes from", of: ({ who }) => lightFromWords(who.face) ?? "nowhere" };
const shadow: Fact = {
  name: "nose’s shadow",
  of: ({ who: { face } }) => {
    const place = truePlace(face.noseShadow);
    return place === null ? `no tip: ${noTipWords(face.pattern)}` : placeWords(place);
  },
};
const pattern: Fact = { name: "pattern", of: ({ who }) => patternName(who.face.pattern) };
const power: Fact = { name: "at the face", of: ({ map }) => map.referenceFStops };
const stops = (value: number) => `${signedStops(value)} stops`;
const law: Fact = {
  name: "the law says",
  of: (seen, first) => {
    const [d, d0] = [lightPlace(seen.plan)?.away_m, lightPlace(first.plan)?.away_m];
    return d && d0 ? stops(2 * Math.log2(d0 / d)) : "";
  },
};
const read: Fact = {
  name: "the meter says",
  of: (seen, first) => {
    const [e, e0] = [powerAtFace(seen), powerAtFace(first)];
    return e > 0 && e0 > 0 ? stops(Math.log2(e / e0)) : "nothing";
  },
};
const behind: Fact = {
  name: "a metre behind",
  of: (seen) => {
    const value = stopsBehind(seen);
    return value === null ? "nothing" : stops(value);
  },
};

export function factsOf(topic: Topic, units: LengthUnits): readonly Fact[] {
  return topic === "direction"
    ? [from, shadow, pattern, distance(units), power]
    : [distance(units), power, law, read, behind, from, pattern];
}

export interface Task {
  readonly text: string;
  readonly isDone: (seen: Seen, first: Seen) => boolean;
}

/** As near as two numbers of tenths agree. */
const TENTH = 0.05;

export const TASKS: Readonly<Record<Topic, readonly Task[]>> = {
  direction: [
    {
      text: "Bring the shadow straight under the nose: butterfly.",
      isDone: ({ who }) => who.face.pattern === "butterfly",
    },
    {
      text: "Close the triangle on the far cheek: Rembrandt.",
      isDone: ({ who }) => who.face.pattern === "rembrandt",
    },
    {
      text: "Come to within 0.80 m of the face and keep the loop.",
      isDone: ({ plan, who }) => (lightPlace(plan)?.away_m ?? 9) <= 0.8 && who.face.pattern === "loop",
    },
  ],
  power: [
    {
      text: "Bring the light to where the face reads f/8 + 0.0.",
      isDone: ({ map }) => map.referenceFStops === "f/8 + 0.0",
    },
    {
      text: "Give the face two stops less than at first, by distance alone.",
      isDone: (seen, first) =>
        isSameOutput(seen.plan, first.plan) &&
        Math.abs(Math.log2(powerAtFace(seen) / powerAtFace(first)) + 2) <= TENTH,
    },
    {
      text: "Lose less than one stop from the face to a metre behind it.",
      isDone: (seen) => (stopsBehind(seen) ?? -9) > -1,
    },
  ],
};

function isSameOutput(a: Plan, b: Plan): boolean {
  return (
    JSON.stringify(a.lights.map(({ output }) => output)) ===
    JSON.stringify(b.lights.map(({ output }) => output))
  );
}
