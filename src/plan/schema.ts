/** The plan document: the one source of its types, its checks and its published JSON Schema.
 * Every default has its reason beside it. */
import { z } from "zod";
import {
  angle,
  direction,
  floorPoint,
  fNumber,
  iso,
  kelvin,
  name,
  point,
  quantity,
  reflectance,
  share,
  size,
} from "./parts.ts";

export const FORMAT = "tapemark/plan";
export const VERSION = 1;

const walls = z.strictObject({
  // wooden or lino floor, white ceiling, light grey walls: an ordinary hired studio (typical values, no source)
  floor: reflectance.default(0.35),
  ceiling: reflectance.default(0.75),
  near: reflectance.default(0.6),
  far: reflectance.default(0.6),
  left: reflectance.default(0.6),
  right: reflectance.default(0.6),
});

export const room = z.strictObject({
  width: quantity(0.5, 100, "m"),
  depth: quantity(0.5, 100, "m"),
  height: quantity(0.5, 50, "m"),
  reflectance: walls.prefault({}),
  // light that is really there is counted unless somebody switches it off
  bounce: z.boolean({ error: "must be true or false" }).default(true),
});

const face = z.discriminatedUnion(
  "shape",
  [
    z.strictObject({ shape: z.literal("disc"), width: size }),
    z.strictObject({ shape: z.literal("rectangle"), width: size, height: size }),
    z.strictObject({
      shape: z.literal("polygon"),
      width: size,
      sides: z.int({ error: "must be a whole number from 3 to 64" }).min(3).max(64),
    }),
    z.strictObject({ shape: z.literal("point") }),
  ],
  { error: 'shape must be "disc", "rectangle", "polygon" or "point"' },
);

const beam = z.strictObject({
  // a perfect diffuser, which a fully diffused softbox comes near
  exponent: quantity(0, 60, "").default(1),
  edgeDrop: quantity(0, 10, "stops").default(0),
});

const stopsDown = quantity(-20, 20, "stops").default(0);
const output = z.union(
  [
    z.strictObject({ lumenSeconds: quantity(0, 1e9, "lm.s") }),
    z.strictObject({
      wattSeconds: quantity(0, 1e6, "Ws"),
      // xenon flash tubes give 30 to 40 lm/W and a diffused softbox passes about half (typical, no source)
      lumensPerWatt: quantity(0.01, 300, "lm/W").default(35),
      efficiency: share.default(0.55),
      stopsDown,
    }),
    z.strictObject({
      meter: z.strictObject({
        fNumber,
        iso: iso.default(100),
        distance: quantity(0.01, 1000, "m"),
        receptor: z.enum(["flat", "dome"], { error: 'must be "flat" or "dome"' }).default("flat"),
      }),
    }),
    z.strictObject({ guideNumber: quantity(0.01, 10000, "m"), iso: iso.default(100), stopsDown }),
  ],
  {
    error:
      'must be one of { "lumenSeconds" }, { "wattSeconds", … }, { "meter": { "fNumber", "distance", … } } or { "guideNumber", … }',
  },
);

export const light = z.strictObject({
  name,
  on: z.boolean({ error: "must be true or false" }).default(true),
  position: point,
  direction,
  roll: angle.default(0),
  face,
  beam: beam.prefault({}),
  output,
  // daylight-balanced flash
  kelvin: kelvin.default(5600),
  gel: z.strictObject({ rgb: z.tuple([share, share, share]) }).default({ rgb: [1, 1, 1] }),
});

export const backdrop = z.strictObject({
  kind: z.enum(["paper", "cove"], { error: 'must be "paper" or "cove"' }),
  // the common narrow-wide paper roll, 107 in
  width: size.default(2.72),
  top: quantity(0.1, 20, "m").default(2.6),
  sweepRadius: quantity(0, 5, "m").default(0.3),
  floorLength: quantity(0, 50, "m").default(0.6),
  // middle of the line it hangs from, on the floor
  position: floorPoint,
  // its lit side faces the camera side
  bearing: angle.default(180),
  // mid-grey paper
  reflectance: reflectance.default(0.18),
});

export const panel = z.strictObject({
  name,
  position: point,
  direction,
  roll: angle.default(0),
  // half of an upright pair of 4 x 8 ft boards
  width: size.default(1.2),
  height: size.default(2.4),
  reflectance: reflectance.default(0.85),
  transmittance: share.default(0),
});

export const person = z.strictObject({
  name,
  position: floorPoint,
  // mean of women and men, ANSUR II 2012: 1.63 and 1.76
  stature: quantity(0.5, 2.6, "m").default(1.7),
  facing: angle.default(180),
  pose: z.enum(["standing", "seated"], { error: 'must be "standing" or "seated"' }).default("standing"),
  // an ordinary stool or chair
  seatHeight: quantity(0.1, 1.2, "m").default(0.45),
  eyeHeight: quantity(0.3, 2.5, "m").optional(),
  head: z
    .strictObject({
      follows: z.enum(["nothing", "camera"], { error: 'must be "nothing" or "camera"' }).default("nothing"),
      turn: quantity(-180, 180, "degrees").default(0),
      tip: quantity(-90, 90, "degrees").default(0),
      tilt: quantity(-90, 90, "degrees").default(0),
    })
    .prefault({}),
  // light skin in luminance (ColorChecker light skin, Y 0.36)
  skin: z.strictObject({ reflectance: reflectance.default(0.36) }).prefault({}),
  // dark grey cloth
  clothing: z.strictObject({ reflectance: reflectance.default(0.08) }).prefault({}),
});

export const camera = z.strictObject({
  position: point.default([3, 1, 1.5]),
  direction: direction.default({ bearing: 0, tilt: 0 }),
  roll: angle.default(0),
  sensor: z
    .strictObject({ width: quantity(1, 200, "mm"), height: quantity(1, 200, "mm") })
    .default({ width: 36, height: 24 }),
  // a portrait
  orientation: z
    .enum(["portrait", "landscape"], { error: 'must be "portrait" or "landscape"' })
    .default("portrait"),
  focalLength: quantity(1, 2000, "mm").default(85),
  fNumber: fNumber.default(8),
  // at or under the sync speed of every body
  shutter: quantity(1e-6, 3600, "s").default(0.00625),
  iso: iso.default(100),
  whiteBalance: kelvin.default(5600),
  // log2(78 / 10): saturation against the SOS middle level, ISO 12232
  headroom: quantity(0, 10, "stops").default(2.96),
});

export const meter = z.strictObject({
  name,
  position: point,
  direction,
  receptor: z.enum(["flat", "dome", "spot"], { error: 'must be "flat", "dome" or "spot"' }).default("flat"),
});

const listOf = <T extends z.ZodType>(item: T, most: number) =>
  z
    .array(item, { error: "must be a list" })
    .max(most, { error: `has too many entries; at most ${most}` })
    .default([]);

export const plan = z.strictObject({
  format: z.literal(FORMAT, { error: `must be "${FORMAT}"` }),
  version: z.literal(VERSION, { error: `must be ${VERSION}` }),
  title: z
    .string({ error: "must be text in quotes" })
    .max(200, { error: "must be at most 200 characters" })
    .default("Untitled"),
  // open space: nothing is assumed that the user has not drawn
  room: room.nullable().default(null),
  ambient: z.strictObject({ lux: quantity(0, 200000, "lx").default(0) }).prefault({}),
  lights: listOf(light, 64),
  backdrop: backdrop.nullable().default(null),
  panels: listOf(panel, 64),
  people: listOf(person, 8),
  camera: camera.prefault({}),
  meters: listOf(meter, 64),
});

export type Plan = z.output<typeof plan>;
export type Room = z.output<typeof room>;
export type Light = z.output<typeof light>;
export type Face = Light["face"];
export type Output = Light["output"];
export type Backdrop = z.output<typeof backdrop>;
export type Panel = z.output<typeof panel>;
export type Person = z.output<typeof person>;
export type Camera = z.output<typeof camera>;
export type Meter = z.output<typeof meter>;
