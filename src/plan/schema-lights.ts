/** Lights: front, beam, output, colour. */
import { z } from "zod";
import {
  angle,
  direction,
  fileName,
  fNumber,
  iso,
  kelvin,
  line,
  name,
  oneOf,
  pinned,
  point,
  quantity,
  share,
  size,
  wholeNumber,
  yesOrNo,
} from "./parts.ts";
import { support } from "./schema-support.ts";

export const face = z.discriminatedUnion(
  "shape",
  [
    z.strictObject({ shape: z.literal("disc"), width: size.describe("diameter, m") }),
    z.strictObject({ shape: z.literal("rectangle"), width: size, height: size }),
    z.strictObject({
      shape: z.literal("polygon"),
      sides: wholeNumber(3, 64),
      width: size.describe("across the flats; for odd counts the diameter of the inscribed circle, m"),
    }),
    z.strictObject({ shape: z.literal("point") }),
  ],
  { error: 'must be "disc", "rectangle", "polygon" or "point"' },
);

/** How a front spreads and fades, without a file. */
export const lobe = z.strictObject({
  exponent: quantity(0, 60, "")
    .default(1)
    .describe(
      "Intensity goes with cos^m of the angle from the front's normal; 1 to 60 for fronts with a size, 0 to 60 " +
        "for points. 1 when left out: a perfect diffuser, which a fully diffused softbox comes near.",
    ),
  edgeDrop: quantity(0, 10, "stops")
    .default(0)
    .describe(
      "How much darker the rim is than the centre. 0 when left out: an even front assumes the least.",
    ),
});

const beam = lobe.extend({
  photometry: fileName
    .optional()
    .describe(
      "Name of an ANSI/IES LM-63 file (type C, TILT=NONE) that says how much goes which way, in place of the " +
        "exponent; its text stands in the plan's photometry, or the file beside the plan. Its vertical angle 0 is the " +
        "front's axis, its horizontal angle 0 the front's up, its opening's length the front's height.",
    ),
});

const stopsDown = quantity(0, 20, "stops")
  .default(0)
  .describe("Below full power. 0 when left out: what is written down is what is given.");

const output = z.union(
  [
    z.strictObject({
      lumenSeconds: quantity(0, 1e9, "lm.s").describe("luminous energy that leaves the front in one flash"),
    }),
    z.strictObject({
      wattSeconds: quantity(0, 1e6, "Ws"),
      lumensPerWatt: quantity(0.01, 300, "lm/W")
        .default(35)
        .describe(
          "35 when left out: the middle of the 30 to 40 usual for xenon tubes; a guess until calibrated.",
        ),
      efficiency: share
        .default(0.55)
        .describe(
          "Share that leaves the front. 0.55 when left out: about half is usual for a diffused softbox; a guess " +
            "until calibrated.",
        ),
      stopsDown,
    }),
    z.strictObject({
      meter: z.strictObject({
        fNumber,
        iso: iso.default(100).describe("100 when left out: the speed that meters are mostly set to."),
        distance: quantity(0.01, 1000, "m").describe("from the front's centre, on its axis"),
        receptor: oneOf("flat", "dome")
          .default("flat")
          .describe("Flat when left out: the receptor for measuring one light by itself."),
      }),
    }),
    z.strictObject({
      guideNumber: quantity(0.01, 10000, "m"),
      iso: iso.default(100).describe("100 when left out: guide numbers are stated for it."),
      stopsDown,
    }),
  ],
  {
    error:
      'must be one of { "lumenSeconds": … }, { "wattSeconds": … }, { "meter": { "fNumber": …, "distance": … } } ' +
      'or { "guideNumber": … }',
  },
);

export const dial = z.strictObject({
  marked: oneOf("stops", "fractions", "wattSeconds")
    .default("stops")
    .describe("How its power is written on the head. Stops when left out."),
  range: quantity(0, 14, "stops")
    .default(6)
    .describe("From full power down to the least. 6 when left out: 1/64 (common practice, no source)."),
  step: quantity(0.01, 1, "stops").default(0.1).describe("0.1 when left out: tenths, as most heads have."),
});

const calibration = z.strictObject({
  stops: quantity(-10, 10, "stops").describe("what it really gives over what its output says"),
  uncertaintyStops: quantity(0, 10, "stops").describe("standard deviation: two sets in three are within it"),
  measuredOn: line(0, 80).default("").describe("A date, or where. Nothing when left out."),
  from: oneOf("readings", "gear book")
    .default("readings")
    .describe(
      "readings: found from this plan's readings, and found anew the next time; gear book: known from earlier work, " +
        "and what the next calibration starts from. Readings when left out.",
    ),
});

const head = z.strictObject({
  name: line(1, 80).optional().describe("Which head it is, as on the shelf. Not told when left out."),
  modifier: line(1, 80)
    .optional()
    .describe("What is on it, as on the shelf. Not told when left out: the front says what it is like."),
  recycle: quantity(0.01, 120, "s")
    .nullable()
    .default(null)
    .describe("From a full-power flash until it is charged again. Not known when left out."),
  duration: z
    .strictObject({
      seconds: quantity(1e-6, 1, "s"),
      measured: oneOf("t0.1", "t0.5")
        .default("t0.5")
        .describe("Time above a tenth, or above half, of the peak. t0.5 when left out: what makers state."),
    })
    .nullable()
    .default(null)
    .describe("How long a full-power flash lasts. Not known when left out."),
  lampWatts: quantity(0, 2000, "W")
    .default(0)
    .describe("Of its modelling lamp. 0 when left out: off, or not known."),
  charging: quantity(0.1, 1, "")
    .default(0.8)
    .describe(
      "Share of what it draws from the mains that is stored. 0.8 when left out: a guess (common practice, no source).",
    ),
  circuit: line(1, 80)
    .nullable()
    .default(null)
    .describe("Name of the circuit it is plugged into. The first one when left out."),
});

export const light = z.strictObject({
  name: name.meta({ filledIn: true, description: "light 1, light 2, … when left out" }),
  on: yesOrNo.default(true).describe("On when left out: a light that is drawn is meant to be used."),
  position: point.describe("centre of the front"),
  direction,
  roll: angle.default(0).describe("Clockwise seen from behind. 0 when left out: width level."),
  face: face.meta({
    filledIn: true,
    description: "left out where a photometric file has the size of its opening",
  }),
  beam: beam.prefault({}),
  output,
  kelvin: kelvin.default(5600).describe("5600 when left out: what flash is balanced to."),
  gel: z
    .strictObject({
      rgb: z.tuple([share, share, share], { error: "must be three numbers from 0 to 1: [r, g, b]" }),
    })
    .default({ rgb: [1, 1, 1] })
    .describe("What it lets through. Everything when left out: no gel."),
  dial: dial.prefault({}),
  head: head
    .nullable()
    .default(null)
    .describe("What is known of the head beside its power. Nothing when left out."),
  support: support
    .nullable()
    .default(null)
    .describe("What holds it up, for the sums of weights. Not known when left out: no sum is made."),
  calibration: calibration
    .nullable()
    .default(null)
    .describe("What was measured of it. None when left out: its output is taken as it is written."),
  pinned,
});

export type Light = z.output<typeof light>;
export type Face = Light["face"];
export type Beam = Light["beam"];
export type Output = Light["output"];
export type Gel = Light["gel"];
export type Dial = Light["dial"];
export type LightHead = NonNullable<Light["head"]>;
export type LightCalibration = NonNullable<Light["calibration"]>;
