/** What differs in what is asked for and what there is: brief and gear on hand. */
import type { Brief, Gear, GearLight, GearPanel, Span, SpanWish, Want } from "../plan/index.ts";
import { patternName } from "../reading/index.ts";
import { faceWords } from "../sheet/words.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";
import { type Look, matchNamed, type Tellers, tellAll } from "./changes-look.ts";
import { wordSaid } from "./changes-people.ts";
import { lengthSaid } from "./changes-places.ts";
import { amountOfStops, isSame, listText, moreOrLess, reflectanceText, type Said } from "./changes-words.ts";

const FREE = "free";

/** What is asked for, "free" where nothing is. */
function askedSaid(which: string, before: string, after: string): Said[] {
  const change = before === FREE ? "asked for" : after === FREE ? "no longer asked for" : "asked otherwise";
  return [wordSaid(which, before, after, change)];
}

const span = (key: SpanWish, which: string, unit: string) => (before: Want, after: Want) =>
  askedSaid(which, spanText(before[key], unit), spanText(after[key], unit));

const WANT: Tellers<Want> = {
  pattern: ({ pattern: before }, { pattern: after }) =>
    askedSaid(
      "pattern",
      before === null ? FREE : patternName(before),
      after === null ? FREE : patternName(after),
    ),
  litSide: (before, after) => askedSaid("lit side", before.litSide ?? FREE, after.litSide ?? FREE),
  side: (before, after) => askedSaid("side to the lens", before.side ?? FREE, after.side ?? FREE),
  ratioStops: span("ratioStops", "ratio", " stops"),
  shadowEdgeMillimetres: span("shadowEdgeMillimetres", "shadow edge", " mm"),
  backgroundStops: span("backgroundStops", "background", " stops"),
  fNumber: span("fNumber", "aperture", ""),
  headroomStops: (before, after) => {
    const by = after.headroomStops - before.headroomStops;
    const text = (want: Want) => `at least ${number(want.headroomStops)} stops`;
    return [
      wordSaid("headroom", text(before), text(after), moreOrLess(by, amountOfStops(by), "more", "less")),
    ];
  },
  catchlight: (before, after) =>
    askedSaid("catchlight", clockText(before.catchlight), clockText(after.catchlight)),
  azimuth: span("azimuth", "light round", "°"),
  elevation: span("elevation", "light up", "°"),
  spreadStops: (before, after) =>
    askedSaid("evenness", atMost(before.spreadStops), atMost(after.spreadStops)),
  crop: (before, after) => askedSaid("crop", before.crop ?? FREE, after.crop ?? FREE),
};

const CLEAR: Tellers<Brief["clear"]> = {
  ceiling: (before, after, look) => [
    lengthSaid("air to the ceiling", before.ceiling, after.ceiling, "more", "less", look),
  ],
  walls: (before, after, look) => [
    lengthSaid("air to walls", before.walls, after.walls, "more", "less", look),
  ],
  people: (before, after, look) => [
    lengthSaid("air round people", before.people, after.people, "more", "less", look),
  ],
};

const held = (key: keyof Brief["hold"], which: string) => (before: Brief["hold"], after: Brief["hold"]) => {
  const by = after[key] - before[key];
  const text = (hold: Brief["hold"]) => `${number(hold[key])} stops`;
  return [wordSaid(which, text(before), text(after), moreOrLess(by, amountOfStops(by), "more", "less"))];
};

const HOLD: Tellers<Brief["hold"]> = {
  exposureStops: held("exposureStops", "exposure held within"),
  ratioStops: held("ratioStops", "ratio held within"),
  headroomStops: held("headroomStops", "headroom held"),
};

const BRIEF: Tellers<Brief> = {
  person: (before, after, look) => [
    wordSaid(
      "about",
      look.before.plan.people[before.person]?.name ?? `person ${before.person + 1}`,
      look.after.plan.people[after.person]?.name ?? `person ${after.person + 1}`,
      "somebody else",
    ),
  ],
  want: (before, after, look) => tellAll(WANT, before.want, after.want, look),
  lenses: (before, after) => [wordSaid("lenses", lensText(before), lensText(after), "other ones")],
  cameraDistance: (before, after, { units }) =>
    askedSaid(
      "camera's distance",
      metresText(before.cameraDistance, units),
      metresText(after.cameraDistance, units),
    ),
  gear: (before, after, look) => gearSaid(before.gear, after.gear, look),
  clear: (before, after, look) => tellAll(CLEAR, before.clear, after.clear, look),
  hold: (before, after, look) => tellAll(HOLD, before.hold, after.hold, look),
};

export function briefSaid(before: Brief | null, after: Brief | null, look: Look): Said[] {
  if (before !== null && after !== null) return tellAll(BRIEF, before, after, look);
  const text = (brief: Brief | null) => (brief === null ? "none" : "asked for");
  return [wordSaid("brief", text(before), text(after), after === null ? "taken away" : "added")];
}

function gearSaid(before: Gear | null, after: Gear | null, look: Look): Said[] {
  const whole = (gear: Gear | null) =>
    gear === null
      ? "what stands in the plan"
      : listText([...gear.lights, ...gear.panels].map(({ name }) => name));
  if (before === null || after === null)
    return [
      wordSaid("gear on hand", whole(before), whole(after), after === null ? "list taken away" : "listed"),
    ];
  const said = [
    ...ownSaid(before.lights, after.lights, (light) => lightText(light, look.units)),
    ...ownSaid(before.panels, after.panels, (panel) => panelText(panel, look.units)),
  ];
  return said.length > 0 ? said : [wordSaid("gear on hand", whole(before), whole(after), "in another order")];
}

function ownSaid<Own extends { readonly name: string }>(
  before: readonly Own[],
  after: readonly Own[],
  text: (own: Own) => string,
): Said[] {
  const { both, come, gone } = matchNamed(before, after, isSame);
  const which = (name: string) => `gear on hand, ${name}`;
  return [
    ...both.flatMap((pair) => {
      if (isSame(pair.before, pair.after)) return [];
      const isRenamed = pair.before.name !== pair.after.name;
      return isRenamed
        ? [wordSaid("gear on hand", pair.before.name, pair.after.name, "renamed")]
        : [wordSaid(which(pair.after.name), text(pair.before), text(pair.after), "another one")];
    }),
    ...gone.map((own) => wordSaid(which(own.name), text(own), "", "taken away")),
    ...come.map((own) => wordSaid(which(own.name), "", text(own), "added")),
  ];
}

function lightText({ full, fronts, stand }: GearLight, units: LengthUnits): string {
  const power =
    "wattSeconds" in full ? `${number(full.wattSeconds)} Ws` : `${number(full.lumenSeconds)} lm·s`;
  const worn = fronts.map((front) => `${front.name} ${faceWords(front.face, units)}`).join("; ");
  return `${power}; ${worn}; up to ${formatLength(stand.highest, units)}`;
}

function panelText({ height, reflectance, width }: GearPanel, units: LengthUnits): string {
  return `${formatLength(width, units)} × ${formatLength(height, units)}, ${reflectanceText(reflectance)} back`;
}

function lensText({ lenses }: Brief): string {
  return lenses.length === 0 ? "the one that is on" : `${lenses.map(number).join(", ")} mm`;
}

function number(value: number): string {
  return String(Number(value.toFixed(2))).replace("-", "−");
}

/** "1 to 2 stops", "at least 1 stops", "free" */
function spanText(range: Span | null, unit: string, write: (value: number) => string = number): string {
  if (range === null) return FREE;
  const { from, to } = range;
  if (from === null) return to === null ? "whatever it is" : `at most ${write(to)}${unit}`;
  return to === null ? `at least ${write(from)}${unit}` : `${write(from)} to ${write(to)}${unit}`;
}

function metresText(range: Span | null, units: LengthUnits): string {
  return spanText(range, "", (metres) => formatLength(metres, units));
}

function atMost(stops: number | null): string {
  return stops === null ? FREE : `within ${number(stops)} stops`;
}

function clockText(catchlight: Want["catchlight"]): string {
  if (catchlight === null) return FREE;
  const minutes = Math.round(catchlight.clock * 60);
  const hour = Math.floor(minutes / 60) % 12 || 12;
  return `${hour}:${String(minutes % 60).padStart(2, "0")} ± ${Math.round(catchlight.within * 60)} min`;
}
