/** The set: room, ambient light, backdrop, panels. */
import { z } from "zod";
import {
  angle,
  direction,
  floorPoint,
  line,
  name,
  oneOf,
  pinned,
  point,
  quantity,
  reflectance,
  share,
  size,
  yesOrNo,
} from "./parts.ts";
import { support } from "./schema-support.ts";

const wall = reflectance
  .default(0.6)
  .describe("0.6 when left out: light grey or dusty white paint, an ordinary studio.");

const roomCalibration = z.strictObject({
  bounceStops: quantity(-6, 6, "stops").describe(
    "what its surfaces send back over what their reflectances say: r / (1 - r) of each is 2^bounceStops of what is " +
      "written, which is what light that goes round in a closed even room goes with",
  ),
  uncertaintyStops: quantity(0, 10, "stops").describe("standard deviation: two sets in three are within it"),
  measuredOn: line(0, 80).default("").describe("A date, or where. Nothing when left out."),
});

export const room = z.strictObject({
  width: quantity(0.5, 100, "m"),
  depth: quantity(0.5, 100, "m"),
  height: quantity(0.5, 50, "m"),
  reflectance: z
    .strictObject({
      floor: reflectance.default(0.35).describe("0.35 when left out: wood or grey lino."),
      ceiling: reflectance
        .default(0.75)
        .describe("0.75 when left out: a white ceiling that is no longer new."),
      near: wall,
      far: wall,
      left: wall,
      right: wall,
    })
    .prefault({}),
  bounce: yesOrNo
    .default(true)
    .describe(
      "True when left out: bounced light is there unless somebody takes it away to see what it does.",
    ),
  sprinklers: z
    .strictObject({
      below: quantity(0, 2, "m").describe("from the ceiling down to the sprinklers' plates"),
    })
    .nullable()
    .default(null)
    .describe("None known of when left out: look up before anything is raised."),
  calibration: roomCalibration
    .nullable()
    .default(null)
    .describe("What was measured of its bounce. None when left out: reflectances are taken as written."),
});

export const ambient = z.strictObject({
  lux: quantity(0, 200000, "lx")
    .default(0)
    .describe("As a flat receptor reads it. 0 when left out: at flash exposures room lamps hardly count."),
});

export const backdrop = z.strictObject({
  kind: oneOf("paper", "cove"),
  width: size.default(2.72).describe("2.72 when left out: the usual full-width paper roll."),
  top: quantity(0.1, 50, "m")
    .default(2.6)
    .describe(
      "Height of the top edge. 2.6 when left out, or the room's height where that is less: over a standing head.",
    ),
  sweepRadius: quantity(0, 5, "m")
    .default(0.3)
    .describe("Of the curve between wall and floor. 0.3 when left out: about how paper falls by itself."),
  floorLength: quantity(0, 50, "m")
    .default(0.6)
    .describe(
      "How far it runs on along the floor in front of the curve. 0.6 when left out: enough for a bust.",
    ),
  position: floorPoint.describe("middle of the line it hangs from, on the floor"),
  bearing: angle.default(180).describe("Where its lit side faces. 180 when left out: the camera side."),
  reflectance: reflectance
    .default(0.18)
    .describe("0.18 when left out: middle grey, which can be lit either way."),
  pinned,
});

export const panel = z.strictObject({
  name: name.meta({ filledIn: true, description: "panel 1, panel 2, … when left out" }),
  position: point.describe("its centre"),
  direction,
  roll: angle.default(0).describe("Clockwise seen from behind. 0 when left out: width level."),
  width: size.default(1.2).describe("1.2 when left out: one leaf of a common V-flat."),
  height: size.default(2.4).describe("2.4 when left out: one leaf of a common V-flat."),
  reflectance: reflectance.default(0.85).describe("Both sides. 0.85 when left out: white board."),
  transmittance: share
    .default(0)
    .describe("Both sides; with the reflectance at most 1. 0 when left out: board lets nothing through."),
  support: support
    .nullable()
    .default(null)
    .describe("What holds it up, for the sums of weights. Not known when left out: no sum is made."),
  pinned,
});

export const mark = z.strictObject({
  name: name.meta({ filledIn: true, description: "mark 1, mark 2, … when left out" }),
  position: floorPoint.describe("where the tape is stuck to the floor"),
  pinned,
});

export const print = z.strictObject({
  width: quantity(0.01, 20, "m").describe("of the finished picture"),
  height: quantity(0.01, 20, "m").describe("of the finished picture"),
  use: line(0, 80).default("").describe("What it is: season poster, spread. Nothing when left out."),
  viewingDistance: quantity(0.05, 500, "m")
    .nullable()
    .default(null)
    .describe("The nearest that people look from. Its diagonal when left out (common practice, no source)."),
  asksPpi: quantity(1, 5000, "pixels an inch")
    .nullable()
    .default(null)
    .describe("What the printer asks. Nothing is asked when left out."),
  cropWidth: quantity(0.01, 1, "")
    .nullable()
    .default(null)
    .describe(
      "Share of the picture's width that is used, at the print's proportions. As much as fits when left out.",
    ),
});

export type Room = z.output<typeof room>;
export type Ambient = z.output<typeof ambient>;
export type Backdrop = z.output<typeof backdrop>;
export type Panel = z.output<typeof panel>;
export type Mark = z.output<typeof mark>;
export type Print = z.output<typeof print>;
