export * from "./beam.ts";
export * from "./dial.ts";
export * from "./edits.ts";
export * from "./front.ts";
export * from "./geometry.ts";
export * from "./history.ts";
export type { Migration } from "./migrations.ts";
export { mirrored, mirroredBearing, type Upright } from "./mirror.ts";
export * from "./output.ts";
export * from "./parse.ts";
export type { Direction, Reflectance, SkinReflectance, Tone, Vec3 } from "./parts.ts";
export { photometryOf } from "./photometry.ts";
export type { Problem } from "./problems.ts";
export {
  type Ambient,
  type Backdrop,
  type Beam,
  type Brief,
  type Camera,
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
  type ListName,
  type Mark,
  type Meter,
  type Output,
  type Panel,
  type Person,
  type Plan,
  type Print,
  type Room,
  type Span,
  VERSION,
  type Want,
} from "./schema.ts";
export * from "./write.ts";
