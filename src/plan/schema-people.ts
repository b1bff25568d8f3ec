/** Who sits, who looks, who measures: people, camera, meters. */
import { z } from "zod";
import {
  angle,
  direction,
  floorPoint,
  fNumber,
  iso,
  kelvin,
  name,
  oneOf,
  pinned,
  point,
  quantity,
  reflectance,
  skinReflectance,
  wholeNumber,
  yesOrNo,
} from "./parts.ts";

const head = z.strictObject({
  follows: oneOf("nothing", "camera")
    .default("nothing")
    .describe("Nothing when left out: the nose stays where it is when the camera moves."),
  turn: quantity(-180, 180, "degrees")
    .default(0)
    .describe("+ to the person's own left. 0 when left out: straight."),
  tip: quantity(-90, 90, "degrees").default(0).describe("+ chin up. 0 when left out: level."),
  tilt: quantity(-90, 90, "degrees")
    .default(0)
    .describe("+ toward own left shoulder. 0 when left out: upright."),
});

const hair = z.strictObject({
  length: oneOf("none", "short", "shoulder")
    .default("none")
    .describe("None when left out: a bare head hides nothing of the light."),
  reflectance: reflectance
    .default(0.05)
    .describe("0.05 when left out: dark hair. About 0.25 is fair (common practice, no source)."),
});

const glasses = z.strictObject({
  lensWidth: quantity(0.03, 0.08, "m").default(0.05).describe("0.05 when left out: an ordinary frame."),
  lensHeight: quantity(0.015, 0.07, "m").default(0.038).describe("0.038 when left out: an ordinary frame."),
  tilt: quantity(-10, 30, "degrees")
    .default(8)
    .describe("How far the lenses' tops lean out. 8 when left out: as frames are usually fitted."),
  wrap: quantity(0, 25, "degrees")
    .default(5)
    .describe("How far each lens turns round to its own side. 5 when left out: an ordinary frame."),
  curve: quantity(0, 10, "dioptres")
    .default(4)
    .describe("Base curve of the fronts, radius 0.53 m over it; 0 is flat. 4 when left out: weak lenses."),
  coated: yesOrNo
    .default(true)
    .describe("True when left out: most lenses are. Bare ones show lights about eight times as bright."),
});

export const person = z.strictObject({
  name: name.meta({ filledIn: true, description: "person 1, person 2, … when left out" }),
  position: floorPoint.describe("the floor point under the mid-point between the ear openings"),
  stature: quantity(0.5, 2.6, "m")
    .default(1.7)
    .describe("1.7 when left out: between the means of women (1.63) and men (1.76), ANSUR II."),
  facing: angle.default(180).describe("Bearing of the body. 180 when left out: toward the camera side."),
  pose: oneOf("standing", "seated")
    .default("standing")
    .describe("Standing when left out: needs no seat height."),
  seatHeight: quantity(0.1, 1.2, "m").default(0.45).describe("0.45 when left out: an ordinary chair."),
  eyeHeight: quantity(0.3, 2.5, "m")
    .optional()
    .describe("Above the floor, measured. When left out it follows from stature, pose and seat."),
  head: head.prefault({}),
  headSize: quantity(1, 99, "percentile")
    .default(50)
    .describe("Among adults, ANSUR II. 50 when left out: the mean head."),
  hair: hair.prefault({}),
  glasses: glasses.nullable().default(null).describe("None when left out."),
  skin: z
    .strictObject({
      reflectance: skinReflectance
        .default(0.36)
        .describe(
          "0.36 when left out: the published light-skin chart patch; set it for the person who comes.",
        ),
      shine: quantity(0, 2, "")
        .default(1)
        .describe(
          "How much of its surface glints: 0 powdered dull, 1 bare, 2 wet. 1 when left out: no make-up.",
        ),
      roughness: quantity(0.1, 0.6, "")
        .default(0.3)
        .describe(
          "Root mean square slope of the surface that glints. 0.3 when left out: the middle of what is measured on faces.",
        ),
    })
    .prefault({}),
  clothing: z
    .strictObject({
      reflectance: reflectance
        .default(0.08)
        .describe("0.08 when left out: dark cloth, which adds the least light."),
    })
    .prefault({}),
  pinned,
});

export const camera = z.strictObject({
  position: point.meta({
    filledIn: true,
    description:
      "Entrance pupil. When left out: in the middle of the width, 1 m from the near wall (or a quarter of a small " +
      "room's depth), 1.5 m up; in open space [0, 0, 1.5].",
  }),
  direction: direction
    .default({ bearing: 0, tilt: 0 })
    .describe("Level into the set when left out: the way the axes are laid."),
  roll: angle.default(0).describe("0 when left out: a level horizon."),
  sensor: z
    .strictObject({ width: quantity(1, 200, "mm"), height: quantity(1, 200, "mm") })
    .default({ width: 36, height: 24 })
    .describe("As the body is held level. 36 x 24 when left out: the size focal lengths are spoken of in."),
  pixels: z
    .strictObject({ width: wholeNumber(16, 100000), height: wholeNumber(16, 100000) })
    .nullable()
    .default(null)
    .describe("Of the file, as the body is held level. Not known when left out."),
  orientation: oneOf("portrait", "landscape")
    .default("portrait")
    .describe("Portrait when left out: one person."),
  focalLength: quantity(1, 2000, "mm").default(85).describe("85 when left out: the usual portrait length."),
  fNumber: fNumber.default(8).describe("8 when left out: both eyes and the ears sharp in a bust."),
  shutter: quantity(1e-6, 3600, "s")
    .default(0.00625)
    .describe("1/160 when left out: no slower than needed, and within the flash speed of any body."),
  iso: iso.default(100).describe("100 when left out: the base speed of most bodies."),
  whiteBalance: kelvin.default(5600).describe("5600 when left out: flash is neutral."),
  headroom: quantity(0, 10, "stops")
    .default(2.96)
    .describe("From the middle level to clipping. 2.96 when left out: log2(78 / 10), ISO 12232."),
  pinned,
});

export const meter = z.strictObject({
  name: name.meta({ filledIn: true, description: "meter 1, meter 2, … when left out" }),
  position: point,
  direction: direction
    .default({ bearing: 180, tilt: 0 })
    .describe("Toward the camera side when left out: where an incident meter is usually pointed."),
  receptor: oneOf("flat", "dome", "spot")
    .default("flat")
    .describe("Flat when left out: the same as for a light's output by meter, so that the two compare."),
  pinned,
});

export type Person = z.output<typeof person>;
export type Head = Person["head"];
export type Camera = z.output<typeof camera>;
export type Meter = z.output<typeof meter>;
