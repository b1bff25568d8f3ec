export type { HairLength } from "./hair.ts";
export { buildHead } from "./head.ts";
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
