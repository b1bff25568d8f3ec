export * from "./beam.ts";
export * from "./carried.ts";
export * from "./certainty.ts";
export * from "./dial.ts";
export * from "./edits.ts";
export { emptyBrief } from "./empty-brief.ts";
export * from "./front.ts";
export { gearKey } from "./gear-key.ts";
export * from "./geometry.ts";
export * from "./history.ts";
export type { Migration } from "./migrations.ts";
export { mirrored, mirroredBearing, type Upright } from "./mirror.ts";
export * from "./output.ts";
export * from "./parse.ts";
export type { Direction, Reflectance, SkinReflectance, Tone, Vec3 } from "./parts.ts";
export { photometryOf } from "./photometry.ts";
export type { Problem } from "./problems.ts";
export { type MadeReading, placeOf, type ReadingPlace, readingOf, standing } from "./readings.ts";
export { isSameData } from "./same.ts";
export {
  ALL_LIGHTS,
  type Ambient,
  type Backdrop,
  type Beam,
  type Brief,
  type Camera,
  type Circuit,
  type Dial,
  type Face,
  FORMAT,
  type Gear,
  type GearFront,
  type GearLight,
  type GearPanel,
  type Gel,
  type Head,
  type Light,
  type LightCalibration,
  type LightHead,
  type ListName,
  type Mark,
  type Meter,
  type Output,
  type Panel,
  type Person,
  type Plan,
  type Print,
  type Reading,
  type Room,
  type Shooting,
  type Span,
  type SpanWish,
  type StandingLight,
  type Support,
  VERSION,
  type Want,
} from "./schema.ts";
export { MOST_KG } from "./schema-support.ts";
export { subjectSpeed } from "./shooting.ts";
export * from "./write.ts";
