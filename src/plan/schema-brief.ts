/** The brief: what is wanted of the picture, and what there is to make it with. A search of set-ups goes by it; it changes
 * no light. */
import { z } from "zod";
import { oneOf, quantity, wholeNumber } from "./parts.ts";
import { gear } from "./schema-gear.ts";

function range(low: number, high: number, unit: string) {
  const end = quantity(low, high, unit).nullable().default(null).describe("Open to this side when left out.");
  return z.strictObject({ from: end, to: end }).nullable().default(null);
}

/** As a plan file writes it: what is read back is the same. */
const THIRD = 0.333333;

const FREE = "Free when left out: only what is asked for is searched for.";

export const want = z.strictObject({
  pattern: oneOf("flat", "butterfly", "loop", "rembrandt", "split", "rim", "under")
    .nullable()
    .default(null)
    .describe(FREE),
  litSide: oneOf("left", "right").nullable().default(null).describe(`The person's own. ${FREE}`),
  side: oneOf("broad", "short").nullable().default(null).describe(`As the camera sees it. ${FREE}`),
  ratioStops: range(0, 10, "stops").describe(`Lit cheek over shadow cheek. ${FREE}`),
  shadowEdgeMillimetres: range(0, 60, "mm").describe(
    `Of the nose's shadow on the cheek, 10 to 90 %: crisp to very soft. ${FREE}`,
  ),
  backgroundStops: range(-12, 8, "stops").describe(`Behind the head, against the lit cheek. ${FREE}`),
  fNumber: range(0.7, 64, "").describe(
    `The f-number at which the lit cheek is exposed as metered, at the camera's ISO; the lens is set to it. ${FREE}`,
  ),
  headroomStops: quantity(-3, 8, "stops")
    .default(0.3)
    .describe(
      "At least so much from the brightest skin to clipping. 0.3 when left out: what a warning begins at.",
    ),
  catchlight: z
    .strictObject({
      clock: quantity(0, 12, "hours"),
      within: quantity(0.1, 6, "hours")
        .default(0.5)
        .describe("Half an hour when left out: as finely as it is told."),
    })
    .nullable()
    .default(null)
    .describe(`Of the strongest light, in either eye, as the camera sees it. ${FREE}`),
  azimuth: range(-180, 180, "degrees").describe(
    `Where the light on the face comes from, in the head's axes: + to the own left of straight ahead. ${FREE}`,
  ),
  elevation: range(-90, 90, "degrees").describe(`The same, up from level. ${FREE}`),
  spreadStops: quantity(0, 6, "stops")
    .nullable()
    .default(null)
    .describe(`At most so much between the most and the least lit of several faces. ${FREE}`),
  crop: oneOf("head", "head and shoulders", "half", "three-quarter", "full")
    .nullable()
    .default(null)
    .describe("Free when left out: the camera stays as it frames now."),
});

export const brief = z.strictObject({
  person: wholeNumber(0, 7)
    .default(0)
    .describe("Whose face it is about, by place in people. The first when left out."),
  want: want.prefault({}),
  lenses: z
    .array(quantity(1, 2000, "mm"), { error: "must be a list in brackets: [ … ]" })
    .max(12, { error: "must have at most 12 entries" })
    .default([])
    .describe("Focal lengths on hand. The one that is on when left out."),
  cameraDistance: range(0.3, 50, "m").describe("From lens to face. Free when left out."),
  gear: gear
    .nullable()
    .default(null)
    .describe("Lights and panels on hand. What stands in the plan when left out."),
  clear: z
    .strictObject({
      ceiling: quantity(0, 2, "m")
        .default(0.05)
        .describe(
          "Between a front's rim, its tilt counted, and the ceiling. 0.05 when left out: so that it does not touch " +
            "while it is aimed (common practice, no source).",
        ),
      walls: quantity(0, 2, "m")
        .default(0.05)
        .describe(
          "Between a front's rim and walls or backdrop. 0.05 when left out: as to the ceiling (common practice, no source).",
        ),
      people: quantity(0, 3, "m")
        .default(0.4)
        .describe(
          "From the upright through a person's mark, up to the crown, to a front's rim. 0.4 when left out: an elbow's " +
            "room (common practice, no source).",
        ),
    })
    .prefault({})
    .describe("Air that a set-up keeps."),
  hold: z
    .strictObject({
      exposureStops: quantity(0.02, 3, "stops")
        .default(THIRD)
        .describe(
          "Either way. A third when left out: one click of a lens, seen side by side and hardly else.",
        ),
      ratioStops: quantity(0.02, 3, "stops")
        .default(THIRD)
        .describe("Either way. A third when left out: as for the exposure."),
      headroomStops: quantity(-3, 3, "stops")
        .default(0)
        .describe("At least so much to clipping. 0 when left out: nothing on the skin clips."),
    })
    .prefault({})
    .describe("What the hold zone allows before it ends."),
});

export type Brief = z.output<typeof brief>;
export type Want = Brief["want"];
export type Span = NonNullable<Want["ratioStops"]>;
/** What is asked for by from and to. */
export type SpanWish = {
  [Field in keyof Want]: Span | null extends Want[Field] ? Field : never;
}[keyof Want];
