/** The other side: a process that works for paired devices, one job after the other, only where nobody else needs the
 * processor. The one who drags a light must not feel who looks on. */
import { constants, setPriority } from "node:os";
import { reachEffects } from "../finder/index.ts";
import { gauge, Memory } from "../reading/index.ts";
import { WorkError } from "../workbench/index.ts";
import type { ShareAnswer, ShareJob, ShareWork } from "./live-words.ts";

export function serveShareWork(work: ShareWork): void {
  setPriority(constants.priority.PRIORITY_LOW);
  process.on("message", async (job: ShareJob) => process.send?.(await answer(work, job)));
  // whoever asked is gone, or ends it: Ctrl-C goes to both
  process.on("disconnect", () => process.exit());
  process.on("SIGINT", () => {});
}

/** Meters by the fine reading, and what comes of distances found by the body; remembering what was traced: a light that was
 * moved leaves the others as they are. */
export function createMeterWork(): Pick<ShareWork, "meters" | "reach"> {
  const memory = new Memory();
  return {
    meters: (plan) => [...gauge(plan, [], "fine", memory).meters],
    reach: (plan) => reachEffects(plan, memory),
  };
}

async function answer(work: ShareWork, job: ShareJob): Promise<ShareAnswer> {
  try {
    if (job.want === "meters") return { meters: work.meters(job.plan) };
    if (job.want === "reach") return { reach: work.reach(job.plan) };
    return { sheet: await work.sheet(job.text, job.options) };
  } catch (error) {
    if (error instanceof WorkError) return { problem: error.problem, cure: error.cure };
    return { problem: error instanceof Error ? error.message : String(error), cure: null };
  }
}
