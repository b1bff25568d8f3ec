/** The gear on hand, for a brief: heads with what goes on them and the stands they are on, and panels. */
import { z } from "zod";
import { kelvin, name, quantity, reflectance, share, size } from "./parts.ts";
import { dial, face, lobe } from "./schema-lights.ts";

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

const full = z
  .union(
    [
      z.strictObject({
        wattSeconds: quantity(0.1, 1e6, "Ws"),
        lumensPerWatt: quantity(0.01, 300, "lm/W")
          .default(35)
          .describe("35 when left out: as for a light of the plan, a guess until calibrated."),
        efficiency: share
          .default(0.55)
          .describe(
            "Share that leaves the front. 0.55 when left out: as for a light of the plan, a guess until calibrated.",
          ),
      }),
      z.strictObject({ lumenSeconds: quantity(0.001, 1e9, "lm.s").describe("luminous energy in one flash") }),
    ],
    { error: 'must be { "wattSeconds": … } or { "lumenSeconds": … }, at full power' },
  )
  .describe("What it gives at full power.");

const stand = z
  .strictObject({
    lowest: quantity(0, 10, "m")
      .default(0.6)
      .describe("0.6 when left out: an ordinary stand let down (common practice, no source)."),
    highest: quantity(0.1, 10, "m")
      .default(2.8)
      .describe("2.8 when left out: an ordinary stand run out (common practice, no source)."),
    boom: quantity(0, 4, "m")
      .default(0)
      .describe(
        "How far an arm holds the front from the stand. 0 when left out: no arm, so the stand is under the front.",
      ),
  })
  .prefault({})
  .describe("Heights of the front's centre that its stand reaches, and how far an arm holds it out.");

const gearLight = z.strictObject({
  name,
  full,
  dial: dial.prefault({}),
  kelvin: kelvin.default(5600).describe("5600 when left out: what flash is balanced to."),
  fronts: z
    .array(front, { error: "must be a list in brackets: [ … ]" })
    .min(1, { error: "must have at least one front" })
    .max(12, { error: "must have at most 12 entries" })
    .describe("What can be put on it; the search takes one at a time."),
  stand,
});

const gearPanel = z.strictObject({
  name,
  width: size,
  height: size,
  reflectance: reflectance
    .default(0.85)
    .describe("Both sides. 0.85 when left out: white board. 0.04 is black."),
});

const listOf = <T extends z.ZodType>(item: T) =>
  z
    .array(item, { error: "must be a list in brackets: [ … ]" })
    .max(8, { error: "must have at most 8 entries" })
    .default([])
    .describe("None when left out: once gear is listed, only what is listed is there.");

export const gear = z.strictObject({ lights: listOf(gearLight), panels: listOf(gearPanel) });

export type Gear = z.output<typeof gear>;
export type GearLight = Gear["lights"][number];
export type GearFront = GearLight["fronts"][number];
export type GearPanel = Gear["panels"][number];
