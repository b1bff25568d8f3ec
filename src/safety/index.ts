export { cautionsFor, overheadCautions, usualCautions } from "./cautions.ts";
export { CONTINUOUS, heldAgainst_A, meanWatts } from "./mains.ts";
export { overheads, type Standing } from "./overhead.ts";
export { atCeiling, CEILING_AIR_M, CEILING_CURE, ceilingWord, isShort } from "./room-rows.ts";
export { safetyRows } from "./rows.ts";
export { counterweightToBalance, momentsOf, type Off, sidePush, tippingLine, type Way } from "./tipping.ts";
export { type Caution, ESTIMATES_ONLY, type SafetyRow, type SafetySum, sumWords } from "./types.ts";
export { listed, supportWords } from "./words.ts";
