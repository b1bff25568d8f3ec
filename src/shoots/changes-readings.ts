/** What differs in the meter readings that are written down. */
import { ALL_LIGHTS, type Direction, type Reading, type Vec3 } from "../plan/index.ts";
import { aimWords, apertureWords } from "../sheet/words.ts";
import { type Look, matchNamed, type Tellers, tellAll } from "./changes-look.ts";
import { heldText, isoSaid, wordSaid } from "./changes-people.ts";
import { amountOfStops, isSame, listText, moreOrLess } from "./changes-words.ts";
import type { PlanChange } from "./types.ts";

const READING: Tellers<Reading> = {
  fNumber: ({ fNumber: before }, { fNumber: after }) => {
    const stops = 2 * Math.log2(after / before);
    const change = moreOrLess(stops, amountOfStops(stops), "more", "less");
    return [wordSaid("reading", apertureWords(before), apertureWords(after), change)];
  },
  iso: ({ iso: before }, { iso: after }) => [isoSaid(before, after)],
  light: (before, after) => [wordSaid("of", lightsText(before), lightsText(after), "of other lights")],
  meter: (before, after) => [wordSaid("meter", before.meter ?? "", after.meter ?? "", "held elsewhere")],
  position: (before, after, look) => [
    wordSaid("place", placeText(before.position, look), placeText(after.position, look), "held elsewhere"),
  ],
  direction: (before, after) => [
    wordSaid("aim", aimText(before.direction), aimText(after.direction), "pointed elsewhere"),
  ],
  receptor: (before, after) => [
    wordSaid(
      "receptor",
      before.receptor ?? "as the meter's",
      after.receptor ?? "as the meter's",
      "another receptor",
    ),
  ],
  stood: (before, after) => [
    wordSaid("lights then", stoodText(before.stood), stoodText(after.stood), "stood otherwise"),
  ],
  note: (before, after) => [wordSaid("note", before.note, after.note, "written otherwise")],
  name: (before, after) => [wordSaid("name", before.name, after.name, "renamed")],
};

/** Those on both sides one by one; how many were made or taken away in one line. */
export function readingsSaid(
  before: readonly Reading[],
  after: readonly Reading[],
  look: Look,
): PlanChange[] {
  const { both, come, gone } = matchNamed(before, after, isSame);
  // a set that moves takes along what was measured in it, so a reading is compared as it is written
  const still: Look = { ...look, shift: [0, 0] };
  const own = both.flatMap((pair) =>
    tellAll(READING, pair.before, pair.after, still).map((said) => ({ what: pair.after.name, ...said })),
  );
  return [...countSaid(before, after, come.length, gone.length), ...own];
}

function countSaid(
  before: readonly Reading[],
  after: readonly Reading[],
  come: number,
  gone: number,
): PlanChange[] {
  const isReordered = come + gone === 0 && before.some(({ name }, i) => after[i]?.name !== name);
  if (come + gone === 0 && !isReordered) return [];
  const parts = [
    ...(come === 0 ? [] : [`${come} added`]),
    ...(gone === 0 ? [] : [`${gone} taken away`]),
    ...(isReordered ? ["renamed or in another order"] : []),
  ];
  return [
    {
      what: "readings",
      which: "written down",
      before: countText(before),
      after: countText(after),
      change: parts.join(", "),
    },
  ];
}

function countText({ length }: readonly Reading[]): string {
  return length === 0 ? "none" : `${length} ${length === 1 ? "reading" : "readings"}`;
}

function lightsText({ light }: Reading): string {
  return light === ALL_LIGHTS ? "all lights" : light;
}

function placeText(point: Vec3 | undefined, look: Look): string {
  return point === undefined ? "where the meter is" : heldText(point, look);
}

function aimText(direction: Direction | undefined): string {
  if (direction === undefined) return "as the meter";
  if ("bearing" in direction) return aimWords((direction.bearing + 360) % 360, direction.tilt);
  return `at ${direction.at.map((metres) => metres.toFixed(2)).join(", ")} m`;
}

function stoodText(stood: Reading["stood"]): string {
  return stood === undefined ? "as in the plan" : listText(stood.map(({ name }) => name));
}
