import type { Plan } from "../plan/index.ts";
import type { Computer, Finder, Progress, WorkOptions } from "../workbench/index.ts";
import {
  describeFailure,
  type FromWorker,
  type Job,
  type JobResult,
  type ToWorker,
  transferList,
} from "./worker-protocol.ts";

type Post = (message: FromWorker, transfer: ArrayBuffer[]) => void;

/** The worker's side of the port: takes messages, calls the computer, answers with data.
 * A job that was asked to stop answers "cancelled" even when it had finished, so that the window never
 * shows a result it no longer wants. */
export function hostComputer(computer: Computer & Finder, post: Post): (message: ToWorker) => void {
  const cancelled = new Set<number>();

  async function run(message: Extract<ToWorker, { type: "start" }>): Promise<void> {
    const { id, job, plan } = message;
    const flag = message.stop === null ? null : new Int32Array(message.stop);
    const isStopped = () => cancelled.has(id) || (flag !== null && Atomics.load(flag, 0) === 1);
    const options = {
      signal: {
        get aborted() {
          return isStopped();
        },
      },
      onProgress: (progress: Progress) => post({ type: "progress", id, progress }, []),
    };
    try {
      // A turn of the loop first: a "cancel" already in the queue is seen before the work starts. A glance is over sooner.
      if (!("quality" in job && job.quality === "glance"))
        await new Promise((resolve) => setTimeout(resolve, 0));
      if (isStopped()) return post({ type: "cancelled", id }, []);
      const result = await answer(computer, job, plan, options);
      if (isStopped()) post({ type: "cancelled", id }, []);
      else post({ type: "done", id, result }, transferList(result));
    } catch (error) {
      if (isStopped()) post({ type: "cancelled", id }, []);
      else post({ type: "failed", id, problem: describeFailure(error) }, []);
    } finally {
      cancelled.delete(id);
    }
  }

  return (message) => {
    if (message.type === "cancel") cancelled.add(message.id);
    else void run(message);
  };
}

function answer(computer: Computer & Finder, job: Job, plan: Plan, options: WorkOptions): Promise<JobResult> {
  switch (job.kind) {
    case "read":
      return computer.read(plan, job.quality, { ...options, ...(job.studied && { studied: job.studied }) });
    case "frame":
      return computer.frame(plan, job, options);
    case "map":
      return computer.map(plan, job, options);
    case "ready":
      return computer.ready(plan, options);
    case "search":
      return computer.search(plan, job, options);
    case "settle":
      return computer.settle(plan, job, options);
    case "hold":
      return computer.hold(plan, job, options);
    case "steps":
      return computer.steps(plan, job, options);
    case "reach":
      return computer.reach(plan, options);
    case "remedies":
      return computer.remedies(plan, job, options);
    case "calibrate":
      return computer.calibrate(plan, job, options);
    case "compare":
      return computer.compare(plan, job, options);
  }
}
