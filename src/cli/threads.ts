/** Searching and tracing on threads of their own: whoever asked stays awake, and two processors do it in half the time. */
import { availableParallelism } from "node:os";
import { type MessagePort, Worker } from "node:worker_threads";
import type { Candidate, SearchTask } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import { Stopped } from "../reading/index.ts";
import {
  type Computer,
  createComputer,
  type Finder,
  type FrameRequest,
  type Looker,
  type Quality,
  type ReadOptions,
  type SearchFinder,
  WorkError,
} from "../workbench/index.ts";

export interface Finders {
  readonly finders: readonly [Worked, ...Worked[]];
  /** ends the threads at once; what they were at is rejected with Stopped */
  stop(): Promise<void>;
}

/** What a thread can be asked for. */
export type Worked = SearchFinder & Looker;

/** Plain data both ways. The plan and the answer are copied: nobody shares memory. */
type Job =
  | { readonly kind: "search"; readonly plan: Plan; readonly task: SearchTask }
  | { readonly kind: "settle"; readonly plan: Plan; readonly candidate: Candidate }
  | { readonly kind: "hold"; readonly plan: Plan; readonly person: number }
  | {
      readonly kind: "read";
      readonly plan: Plan;
      readonly quality: Quality;
      readonly options: Pick<ReadOptions, "studied">;
    }
  | { readonly kind: "frame"; readonly plan: Plan; readonly request: FrameRequest };
type Asked = { readonly id: number; readonly job: Job };
type Told =
  | { readonly id: number; readonly result: unknown }
  | { readonly id: number; readonly problem: string };

/** Two at most: a search has few parts, and a machine has other things to do. */
const MOST_THREADS = 2;

/** Starts threads of the built file `script`, which calls `serveFinder`: as many as there are processors to spare. */
export function startFinders(script: URL): Finders {
  const count = Math.min(MOST_THREADS, availableParallelism());
  const first = new Thread(script);
  const threads = [first, ...Array.from({ length: count - 1 }, () => new Thread(script))] as const;
  return {
    finders: threads,
    stop: async () => void (await Promise.all(threads.map((thread) => thread.stop()))),
  };
}

class Thread implements Worked {
  private readonly worker: Worker;
  private readonly waiting = new Map<number, { resolve(result: never): void; reject(error: Error): void }>();
  private next = 0;
  private ended: Error | null = null;

  constructor(script: URL) {
    this.worker = new Worker(script);
    this.worker.on("message", (told: Told) => this.hear(told));
    this.worker.on("error", (error) =>
      this.end(new WorkError(`working it out failed: ${error.message}`, "please keep the plan and tell us")),
    );
    this.worker.on("exit", () => this.end(new Stopped()));
  }

  search(plan: Plan, { task }: { task: SearchTask }) {
    return this.ask({ kind: "search", plan, task }) as ReturnType<Finder["search"]>;
  }

  settle(plan: Plan, { candidate }: { candidate: Candidate }) {
    return this.ask({ kind: "settle", plan, candidate }) as ReturnType<Finder["settle"]>;
  }

  hold(plan: Plan, { person }: { person: number }) {
    return this.ask({ kind: "hold", plan, person }) as ReturnType<Finder["hold"]>;
  }

  read(plan: Plan, quality: Quality, { studied }: ReadOptions = {}) {
    const options = studied === undefined ? {} : { studied };
    return this.ask({ kind: "read", plan, quality, options }) as ReturnType<Computer["read"]>;
  }

  frame(plan: Plan, request: FrameRequest) {
    return this.ask({ kind: "frame", plan, request }) as ReturnType<Computer["frame"]>;
  }

  async stop(): Promise<void> {
    this.end(new Stopped());
    await this.worker.terminate();
  }

  private ask(job: Job): Promise<never> {
    const { ended } = this;
    if (ended !== null) return Promise.reject(ended);
    const id = this.next++;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve, reject });
      this.worker.postMessage({ id, job } satisfies Asked);
    });
  }

  private hear(told: Told) {
    const asker = this.waiting.get(told.id);
    this.waiting.delete(told.id);
    if ("problem" in told) asker?.reject(new Error(told.problem));
    else asker?.resolve(told.result as never);
  }

  private end(reason: Error) {
    this.ended ??= reason;
    for (const { reject } of this.waiting.values()) reject(this.ended);
    this.waiting.clear();
  }
}

/** The other side, in the thread: one job after the other. */
export function serveFinder(port: MessagePort) {
  const computer = createComputer();
  port.on("message", async ({ id, job }: Asked) => {
    try {
      port.postMessage({ id, result: await answer(computer, job) } satisfies Told);
    } catch (error) {
      const problem = error instanceof Error ? error.message : String(error);
      port.postMessage({ id, problem } satisfies Told);
    }
  });
}

function answer(computer: Worked, job: Job): Promise<unknown> {
  switch (job.kind) {
    case "read":
      return computer.read(job.plan, job.quality, job.options);
    case "frame":
      return computer.frame(job.plan, job.request);
    case "search":
      return computer.search(job.plan, job);
    case "settle":
      return computer.settle(job.plan, job);
    case "hold":
      return computer.hold(job.plan, job);
  }
}
