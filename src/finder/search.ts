/** The search of set-ups for a brief: which parts it has, what each finds, which of them answer. */
export { BriefError } from "./search-brief.ts";
export { ANSWERED, answerOf, chooseCandidates } from "./search-choose.ts";
export { readyForSearch, runSearch, searchTasks } from "./search-kinds.ts";
export { settleCandidate } from "./search-settle.ts";
