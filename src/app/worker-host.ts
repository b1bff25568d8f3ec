import type { Computer, Progress } from "../workbench/index.ts";
import {
  describeFailure,
  type FromWorker,
  type JobResult,
  type ToWorker,
  transferList,
} from "./worker-protocol.ts";

type Post = (message: FromWorker, transfer: ArrayBuffer[]) => void;

/** The worker's side of the port: takes messages, calls the computer, answers with data.
 * A job that was asked to stop answers "cancelled" even when it had finished, so that the window never
 * shows a result it no longer wants. */
export function hostComputer(computer: Computer, post: Post): (message: ToWorker) => void {
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
      if (job.quality !== "glance") await new Promise((resolve) => setTimeout(resolve, 0));
      if (isStopped()) return post({ type: "cancelled", id }, []);
      let result: JobResult;
      if (job.kind === "read") result = await computer.read(plan, job.quality, options);
      else if (job.kind === "frame") result = await computer.frame(plan, job, options);
      else result = await computer.map(plan, job, options);
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
