export * from "./edits.ts";
export * from "./geometry.ts";
export * from "./history.ts";
export { type Migration, migrate } from "./migrations.ts";
export * from "./parse.ts";
export type { Direction, Reflectance, Vec3 } from "./parts.ts";
export { type Problem, pathText } from "./problems.ts";
export {
  type Backdrop,
  type Camera,
  type Face,
  FORMAT,
  type Light,
  type Meter,
  type Output,
  type Panel,
  type Person,
  type Plan,
  plan as planSchema,
  type Room,
  VERSION,
} from "./schema.ts";
export * from "./write.ts";
