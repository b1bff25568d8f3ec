export * from "./effects.ts";
export { holdZone } from "./hold-zone.ts";
export type { Move, MoveKey } from "./move.ts";
export * from "./moves.ts";
export { findRemedies } from "./remedies.ts";
export { regionRoundHead } from "./round-head.ts";
export { answerOf, chooseCandidates, runSearch, searchTasks, settleCandidate } from "./search.ts";
export { trySteps } from "./try-steps.ts";
export * from "./types.ts";
