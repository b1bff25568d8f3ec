export type { HairLength } from "./hair.ts";
export { buildHead } from "./head.ts";
export { MEAN_HEAD_LINES } from "./head-lines.generated.ts";
export type { HeadLines } from "./head-lines.ts";
export type { HeadView } from "./head-raster.ts";
export type { GlassesFit } from "./lens.ts";
export { bendNeck, bendWithNeck } from "./neck.ts";
export { headScale } from "./percentile.ts";
export {
  buildPerson,
  frontNeighbours,
  headRotation,
  type Neighbours,
  type PersonOptions,
} from "./person.ts";
export * from "./types.ts";
