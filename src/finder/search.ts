/** The search of set-ups for a brief: which parts it has, what each finds, which of them answer. */
import type { Plan } from "../plan/index.ts";
import type { KeepGoing, Memory } from "../reading/index.ts";
import type { Candidate, FindAnswer, SearchResult, SearchTask, SetUp } from "./types.ts";

/** The parts of the search that a brief asks for, in an order that does not depend on who works them out. */
export function searchTasks(_plan: Plan): SearchTask[] {
  throw new Error("not built");
}

export function runSearch(_plan: Plan, _task: SearchTask, _keepGoing: KeepGoing): SearchResult {
  throw new Error("not built");
}

/** The few candidates that are worth tracing: those that really differ, the best of each. */
export function chooseCandidates(_plan: Plan, _found: readonly SearchResult[]): Candidate[] {
  throw new Error("not built");
}

export function settleCandidate(
  _plan: Plan,
  _candidate: Candidate,
  _memory: Memory,
  _keepGoing: KeepGoing,
): SetUp {
  throw new Error("not built");
}

/** The answer from what was traced: up to five, best first. */
export function answerOf(_plan: Plan, _tried: number, _setUps: readonly SetUp[]): FindAnswer {
  throw new Error("not built");
}
