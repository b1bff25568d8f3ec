export { CANONICAL_TRIANGLES, CANONICAL_VERTICES } from "./canonical-face.generated.ts";
export type { HairLength } from "./hair.ts";
export { buildHead } from "./head.ts";
export { MEAN_HEAD_LINES } from "./head-lines.generated.ts";
export type { HeadLines } from "./head-lines.ts";
export type { HeadView } from "./head-raster.ts";
export type { GlassesFit } from "./lens.ts";
export { LEFT_EYE, LOWER_LIP, RIGHT_EYE, UPPER_LIP } from "./mask-parts.ts";
export { fromMask } from "./measures.ts";
export { bendNeck, bendWithNeck } from "./neck.ts";
export { headScale } from "./percentile.ts";
export {
  buildPerson,
  frontNeighbours,
  headRotation,
  type Neighbours,
  type PersonOptions,
} from "./person.ts";
export { armLength, type BodyLength, type Landmark, type Reach, reachOf, soleLength } from "./reach.ts";
export { regionOf } from "./regions.ts";
export { vertexAreas, writeNormals } from "./solids.ts";
export { type Cage, fitCage, subdivide } from "./subdivide.ts";
export * from "./types.ts";
