import { computeMap, developFrame, type KeepGoing, Memory, readPlan, renderFrame } from "../reading/index.ts";
import type { Computer, Quality, WorkOptions } from "./ports.ts";

/** The computer by plain calls: for the shell, the server, a worker and tests. It remembers what it has traced.
 * Errors  rejects with Stopped once `signal.aborted` is seen; a call runs to its end or its stop before it answers */
export function createComputer(): Computer {
  const memory = new Memory();
  return {
    read: async (plan, quality, options) =>
      readPlan(plan, traced(quality), memory, followed(options, "reading")),
    frame: async (plan, request, options) => {
      const asked = { ...request, quality: traced(request.quality) };
      const frame = renderFrame(plan, asked, memory, followed(options, "tracing the frame"));
      return developFrame(frame, plan.camera, request.deep);
    },
    map: async (plan, request, options) => {
      const asked = { ...request, quality: traced(request.quality) };
      return computeMap(plan, asked, memory, followed(options, "mapping the light"));
    },
  };
}

/** A glance is traced as coarsely as there is. */
const traced = (quality: Quality) => (quality === "glance" ? "coarse" : quality);

/** What a long computation asks now and then: how far it is goes out, whether to go on comes back. */
export function followed(options: WorkOptions | undefined, what: string): KeepGoing {
  return (done) => {
    options?.onProgress?.({ done, what });
    return !options?.signal?.aborted;
  };
}
