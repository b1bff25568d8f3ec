export {
  type BodyReachTold,
  type ReachEffect,
  type ReachEffectsOptions,
  reachEffects,
  reachesTold,
} from "./by-body.ts";
export { type BodyReach, bodyReaches } from "./by-body-reach.ts";
export { effectWords, reachLine } from "./by-body-words.ts";
export * from "./effects.ts";
export * from "./hold-words.ts";
export { holdZone } from "./hold-zone.ts";
export type { Move, MoveKey } from "./move.ts";
export * from "./moves.ts";
export * from "./next-sitter.ts";
export { findRemedies } from "./remedies.ts";
export { isAlready } from "./remedy-wish.ts";
export { regionRoundHead } from "./round-head.ts";
export {
  ANSWERED,
  answerOf,
  BriefError,
  chooseCandidates,
  readyForSearch,
  runSearch,
  searchTasks,
  settleCandidate,
} from "./search.ts";
export * from "./sitter-ladder.ts";
export { lensStops } from "./step-camera.ts";
export { trySteps } from "./try-steps.ts";
export * from "./types.ts";
