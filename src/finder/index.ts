export * from "./effects.ts";
export type { Move, MoveKey } from "./move.ts";
export * from "./moves.ts";
export { regionRoundHead } from "./round-head.ts";
