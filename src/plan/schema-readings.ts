/** Meter readings made on set, and what was learnt from them: how lights and room differ from what the plan says. */
import { z } from "zod";
import { direction, fNumber, iso, line, name, oneOf, point } from "./parts.ts";
import { light } from "./schema-lights.ts";

/** What a reading of every light that is on is of. */
export const ALL_LIGHTS = "all";

/** Only what the light itself depends on. */
const standing = light.omit({ calibration: true, dial: true, head: true, support: true, pinned: true });

export const reading = z.strictObject({
  name: name.meta({ filledIn: true, description: "reading 1, reading 2, … when left out" }),
  light: name
    .default(ALL_LIGHTS)
    .describe(
      '"all": every light that is on, together; or the name of one light, which then flashed by itself. All when left ' +
        "out: nothing has to be switched off for it.",
    ),
  meter: name.optional().describe("one of the plan's meters: held where it is"),
  position: point.optional().describe("where it was held, in place of a meter of the plan"),
  direction: direction
    .optional()
    .describe("Where it pointed. When left out as the meter named, or toward the camera side."),
  receptor: oneOf("flat", "dome", "spot")
    .optional()
    .describe("When left out that of the meter named, or flat: the receptor for one light by itself."),
  fNumber: fNumber.describe("what it read; f/8 and four tenths is 8 x 2^0.2 = 9.19"),
  iso: iso.default(100).describe("100 when left out: the speed that meters are mostly set to."),
  note: line(0, 200).default("").describe("Nothing when left out."),
  stood: z
    .array(standing, { error: "must be a list in brackets: [ … ]" })
    .max(64, { error: "must have at most 64 entries" })
    .optional()
    .describe(
      "The lights as they stood when it was made, so that what is moved or turned up later does not spoil it. As they " +
        "stand in the plan when left out.",
    ),
});

export type Reading = z.output<typeof reading>;
export type StandingLight = z.output<typeof standing>;
