/** What lights and panels are held up by, and what they are plugged into: only sums of weights and watts are made of it. */
import { z } from "zod";
import { angle, line, oneOf, quantity, wholeNumber, yesOrNo } from "./parts.ts";

/** Of a thing that somebody carries in. */
export const MOST_KG = 200;
const kilograms = quantity(0, MOST_KG, "kg");

const arm = z.strictObject({
  reach: quantity(0, 6, "m").describe("level, from the stand's column to the load's middle"),
  mass: kilograms
    .default(0)
    .describe("Of the arm itself, spread evenly over its whole length. 0 when left out: not weighed."),
  counterReach: quantity(0, 6, "m")
    .default(0)
    .describe("Level, from the column to the counterweight. 0 when left out: there is no arm behind."),
  counterweight: kilograms.default(0).describe("0 when left out: none, which the sums say."),
  bearing: angle
    .nullable()
    .default(null)
    .describe(
      "Where it points from the column to the load: 0 = into the set, 90 = to the right. Not known when left out: " +
        "cautions take every way.",
    ),
});

export const support = z.strictObject({
  name: line(1, 80).default("stand").describe("What it is called on set. Stand when left out."),
  legs: wholeNumber(3, 6).default(3).describe("3 when left out: as most stands have."),
  footRadius: quantity(0.05, 3, "m")
    .default(0.5)
    .describe(
      "From the column to the tip of a leg, spread. 0.5 when left out: a middling stand (common practice, no source).",
    ),
  mass: kilograms
    .default(3)
    .describe("Of the stand. 3 when left out: a middling stand (common practice, no source)."),
  bag: kilograms.default(0).describe("On its legs. 0 when left out: none, which the sums say."),
  load: kilograms.describe("what it carries: head and front, or panel"),
  legUnderLoad: yesOrNo
    .default(false)
    .describe("A leg points under the load. False when left out: the sums take the worst way to stand."),
  arm: arm.nullable().default(null).describe("None when left out: the load is over the column."),
  isWheeled: yesOrNo.default(false).describe("Stands on wheels. False when left out."),
});

export const circuit = z.strictObject({
  name: line(1, 80).describe("as it is marked at the board or on the wall"),
  volts: quantity(50, 500, "V").default(230).describe("230 when left out: as in most of the world."),
  amps: quantity(1, 200, "A").describe("what its fuse or breaker is marked with"),
  otherWatts: quantity(0, 50000, "W")
    .default(0)
    .describe("What else it feeds: heaters, kettle, computers. 0 when left out: nothing."),
  feeds: oneOf("short", "hours")
    .default("hours")
    .describe("Hours when left out: three and more in one go are counted as continuous load."),
});

/** A sitter who breathes and turns (a guess). */
export const SITTER_M_S = 0.1;

/** How often it flashes and how fast things move: what heads must keep up with. */
export const shooting = z.strictObject({
  everySeconds: quantity(0.05, 600, "s").describe("from one frame to the next, at the quickest"),
  subjectSpeed: quantity(0, 20, "m/s")
    .default(SITTER_M_S)
    .describe("Of what must stay sharp. 0.1 when left out: a sitter who breathes and turns (a guess)."),
});

export type Support = z.output<typeof support>;
export type Circuit = z.output<typeof circuit>;
export type Shooting = z.output<typeof shooting>;
