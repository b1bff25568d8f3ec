export { buildHead } from "./head.ts";
export { bendNeck } from "./neck.ts";
export {
  buildPerson,
  frontNeighbours,
  headRotation,
  type Neighbours,
  type PersonOptions,
} from "./person.ts";
export * from "./types.ts";
