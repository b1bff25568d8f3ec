/** What a remedy costs everything else: two whole readings side by side, less what was asked for. */
import type { Plan } from "../plan/index.ts";
import { type PlanReading, patternName, patternWord, tryReadingOf } from "../reading/index.ts";
import { type Change, changesOf, exposureWords, isTold, stopsWords, warningWords } from "./effects.ts";
import { lightsOnGlasses } from "./remedy-wish.ts";
import { newly, pictureFaults } from "./step-in-picture.ts";
import type { Ask } from "./types.ts";

export interface Read {
  readonly plan: Plan;
  readonly reading: PlanReading;
}

/** The weightiest first: the pattern, what is warned of, the exposure, then the rest. */
export function costsOf(ask: Ask, person: number, before: Read, after: Read): string[] {
  const [a, b] = [tryReadingOf(before.reading, person), tryReadingOf(after.reading, person)];
  const lens = 2 * Math.log2(before.plan.camera.fNumber / after.plan.camera.fNumber);
  const exposure = ask.ask === "exposure" ? "" : exposureWords(a, b, lens);
  return [
    ...(ask.ask === "pattern" || a.pattern === b.pattern
      ? []
      : [`${patternName(a.pattern)} becomes ${patternWord(b.pattern)}`]),
    ...warningWords(before.reading.warnings, after.reading.warnings),
    ...newly(pictureFaults(before.plan, person), pictureFaults(after.plan, person)),
    ...newly(lightsOnGlasses(before.reading, person), lightsOnGlasses(after.reading, person)).map(
      (name) => `${name} on the glasses`,
    ),
    ...(exposure === "" || exposure === SAME ? [] : [`exposure ${exposure}`]),
    ...changesOf(a, b)
      .filter(({ of }) => of !== ASKED[ask.ask])
      .map(({ words }) => words),
    ...othersWords(person, before, after, lens),
  ];
}

const SAME = "same\u00a0f";
const ASKED: Partial<Record<Ask["ask"], Change["of"]>> = {
  ratio: "ratio",
  background: "background",
  headroom: "headroom",
};

/** How the other faces fare. */
function othersWords(person: number, before: Read, after: Read, lens: number): string[] {
  return before.reading.people.flatMap(({ name, face }, i) => {
    const there = after.reading.people[i].face;
    if (i === person || !(face.litCheek > 0) || !(there.litCheek > 0)) return [];
    const stops = Math.log2(there.litCheek / face.litCheek) + lens;
    return isTold(stops) ? [`${name} ${stopsWords(stops)}`] : [];
  });
}
