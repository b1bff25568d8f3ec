import {
  findRemedies,
  holdZone,
  reachEffects,
  readyForSearch,
  runSearch,
  settleCandidate,
  trySteps,
} from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import {
  computeMap,
  developFrame,
  glanceFrame,
  type KeepGoing,
  Memory,
  readPlan,
  renderFrame,
  tryReadingOf,
} from "../reading/index.ts";
// by its file: the room as a whole brings a solver and file formats with it that a page has no need of at first
import { compareFrame } from "../testframe/compare.ts";
import type { Computer, Finder, FrameRequest, WorkOptions } from "./ports.ts";

/** The computer by plain calls: for the shell, the server, a worker and tests. It remembers what it has traced.
 * Errors  rejects with Stopped once `signal.aborted` is seen; a call runs to its end or its stop before it answers */
export function createComputer(): Computer & Finder {
  const memory = new Memory();
  return {
    read: async (plan, quality, options) =>
      readPlan(plan, quality, memory, followed(options, "reading"), options?.studied ?? null),
    frame: async (plan, request, options) =>
      developFrame(pictureOf(plan, request, memory, options), plan.camera, request.deep),
    map: async (plan, request, options) => {
      // a map has few cells as it is
      const quality = request.quality === "glance" ? "coarse" : request.quality;
      return computeMap(plan, { ...request, quality }, memory, followed(options, "mapping the light"));
    },
    ready: async (plan) => {
      readyForSearch(plan);
      return null;
    },
    search: async (plan, { task }, options) => runSearch(plan, task, followed(options, "trying set-ups")),
    settle: async (plan, { candidate }, options) =>
      settleCandidate(plan, candidate, memory, followed(options, "tracing a set-up")),
    hold: async (plan, { person }, options) =>
      holdZone(plan, person, memory, followed(options, "walking round the mark")),
    steps: async (plan, { person, units }, options) =>
      trySteps(plan, person, units, memory, followed(options, "trying steps")),
    reach: async (plan, options) =>
      reachEffects(plan, memory, { keepGoing: followed(options, "standing a little off the mark") }),
    remedies: async (plan, { person, units, ask }, options) =>
      findRemedies(plan, person, ask, units, memory, followed(options, "looking for the smallest change")),
    calibrate: async (plan, { frames }, options) => {
      // the solver comes when it is first asked for: a page has no need of it to show a plan
      const { calibrate } = await import("../testframe/calibrate.ts");
      return calibrate(plan, { frames, memory, keepGoing: followed(options, "tracing the readings") });
    },
    compare: async (plan, request, options) => {
      const keepGoing = followed(options, "trying what may be off");
      const read = (tried: Plan) =>
        tryReadingOf(readPlan(tried, "coarse", memory, keepGoing), request.person);
      return compareFrame({ plan, ...request, read });
    },
  };
}

function pictureOf(plan: Plan, request: FrameRequest, memory: Memory, options: WorkOptions | undefined) {
  const { quality } = request;
  if (quality === "glance") return glanceFrame(plan, request, memory);
  return renderFrame(plan, { ...request, quality }, memory, followed(options, "tracing the frame"));
}

/** What a long computation asks now and then: how far it is goes out, whether to go on comes back. */
export function followed(options: WorkOptions | undefined, what: string): KeepGoing {
  return (done) => {
    options?.onProgress?.({ done, what });
    return !options?.signal?.aborted;
  };
}
