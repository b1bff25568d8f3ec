/** The brief: what is wanted of the picture, and what there is to make it with. A search of set-ups goes by it; it changes
 * no light. */
import { z } from "zod";
import { kelvin, name, oneOf, quantity, reflectance, share, size, wholeNumber } from "./parts.ts";
import { dial, face, lobe } from "./schema-lights.ts";

/** From and to; an end that is left out is open. */
function range(low: number, high: number, unit: string) {
  const end = quantity(low, high, unit).nullable().default(null);
  return z.strictObject({ from: end, to: end }).nullable().default(null);
}

const FREE = "Free when left out.";

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
  spreadStops: quantity(0, 6, "stops")
    .nullable()
    .default(null)
    .describe(`At most so much between the most and the least lit of several faces. ${FREE}`),
  crop: oneOf("head", "head and shoulders", "half", "three-quarter", "full")
    .nullable()
    .default(null)
    .describe("Free when left out: the camera stays as it frames now."),
});

const front = z.strictObject({
  name: name.describe("what it is called on set: octa 120"),
  face,
  beam: lobe.prefault({}),
  stopsLost: quantity(0, 10, "stops")
    .default(0)
    .describe(
      "What it takes away of the head's output as given. 0 when left out: the output is that through it.",
    ),
});

const gearLight = z.strictObject({
  name,
  full: z
    .union(
      [
        z.strictObject({
          wattSeconds: quantity(0.1, 1e6, "Ws"),
          lumensPerWatt: quantity(0.01, 300, "lm/W").default(35),
          efficiency: share.default(0.55),
        }),
        z.strictObject({ lumenSeconds: quantity(0.001, 1e9, "lm.s") }),
      ],
      { error: 'must be { "wattSeconds": … } or { "lumenSeconds": … }, at full power' },
    )
    .describe("What it gives at full power."),
  dial: dial.prefault({}),
  kelvin: kelvin.default(5600).describe("5600 when left out: what flash is balanced to."),
  fronts: z
    .array(front, { error: "must be a list in brackets: [ … ]" })
    .min(1, { error: "must have at least one front" })
    .max(12, { error: "must have at most 12 entries" }),
  stand: z
    .strictObject({
      lowest: quantity(0, 10, "m").default(0.6),
      highest: quantity(0.1, 10, "m").default(2.8),
      boom: quantity(0, 4, "m").default(0),
    })
    .prefault({})
    .describe(
      "Heights of the front's centre that its stand reaches, and how far an arm holds it from the stand. 0.6 to 2.8 m " +
        "and no arm when left out: an ordinary stand (common practice, no source).",
    ),
});

const gearPanel = z.strictObject({
  name,
  width: size,
  height: size,
  reflectance: reflectance.default(0.85).describe("0.85 when left out: white board. 0.04 is black."),
});

const gearList = <T extends z.ZodType>(item: T) =>
  z
    .array(item, { error: "must be a list in brackets: [ … ]" })
    .max(8, { error: "must have at most 8 entries" })
    .default([]);

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
  gear: z
    .strictObject({ lights: gearList(gearLight), panels: gearList(gearPanel) })
    .nullable()
    .default(null)
    .describe("Lights and panels on hand. What stands in the plan when left out."),
  clear: z
    .strictObject({
      ceiling: quantity(0, 2, "m").default(0.05),
      walls: quantity(0, 2, "m").default(0.05),
      people: quantity(0, 3, "m").default(0.4),
    })
    .prefault({})
    .describe(
      "Air between a front's rim, its tilt counted, and ceiling and walls; and round a person. 5 cm, 5 cm and 40 cm when " +
        "left out (common practice, no source).",
    ),
  hold: z
    .strictObject({
      exposureStops: quantity(0.02, 3, "stops").default(1 / 3),
      ratioStops: quantity(0.02, 3, "stops").default(1 / 3),
      headroomStops: quantity(-3, 3, "stops").default(0),
    })
    .prefault({})
    .describe(
      "What the hold zone allows: exposure and ratio either way, and least headroom. A third of a stop, a third and " +
        "nothing clipped when left out.",
    ),
});

export type Brief = z.output<typeof brief>;
export type Want = Brief["want"];
export type Span = NonNullable<Want["ratioStops"]>;
export type Gear = NonNullable<Brief["gear"]>;
export type GearLight = Gear["lights"][number];
export type GearFront = GearLight["fronts"][number];
export type GearPanel = Gear["panels"][number];
