import type { Plan } from "../plan/index.ts";
import type { Computer, Finder, WorkOptions } from "../workbench/index.ts";
import type { FromWorker, Job, JobResults, ToWorker } from "./worker-protocol.ts";

/** The part of a Worker that is used: lets the port be tested without a browser. */
export interface WorkerLike {
  postMessage(message: ToWorker): void;
  terminate(): void;
  onmessage: ((event: { data: FromWorker }) => void) | null;
  onerror: ((event: { message?: string }) => void) | null;
}

export class CancelledError extends Error {
  override readonly name = "CancelledError";
}

/** The worker answered with an error, or died. */
export class ComputerError extends Error {
  override readonly name = "ComputerError";
}

interface Pending {
  readonly job: Job;
  readonly plan: Plan;
  readonly options: WorkOptions;
  readonly stop: SharedArrayBuffer | null;
  readonly resolve: (result: never) => void;
  readonly reject: (error: Error) => void;
}

/** A worker that has not answered a "stop" after this long is replaced: it is deep in a loop that cannot hear. */
const GRACE_MS = 200;

function listensTo(signal: WorkOptions["signal"]): signal is AbortSignal {
  return signal !== undefined && "addEventListener" in signal;
}

/** The `Computer` port over one worker. The worker starts with the first job and is replaced when it dies
 * or does not stop; jobs that were waiting behind a stopped one are handed to its successor. */
export class WorkerComputer implements Computer, Finder {
  readonly #spawn: () => WorkerLike;
  readonly #share: boolean;
  #worker: WorkerLike | null = null;
  #nextId = 1;
  readonly #pending = new Map<number, Pending>();
  readonly #stopping = new Map<number, ReturnType<typeof setTimeout>>();

  constructor(spawn: () => WorkerLike, share: boolean) {
    this.#spawn = spawn;
    this.#share = share;
  }

  read: Computer["read"] = (plan, quality, { studied, ...options } = {}) =>
    this.#run({ kind: "read", quality, ...(studied && { studied }) }, plan, options);

  frame: Computer["frame"] = (plan, request, options = {}) =>
    this.#run({ kind: "frame", ...request }, plan, options);

  map: Computer["map"] = (plan, request, options = {}) =>
    this.#run({ kind: "map", ...request }, plan, options);

  ready: Finder["ready"] = (plan, options = {}) => this.#run({ kind: "ready" }, plan, options);

  search: Finder["search"] = (plan, request, options = {}) =>
    this.#run({ kind: "search", ...request }, plan, options);

  settle: Finder["settle"] = (plan, request, options = {}) =>
    this.#run({ kind: "settle", ...request }, plan, options);

  hold: Finder["hold"] = (plan, request, options = {}) =>
    this.#run({ kind: "hold", ...request }, plan, options);

  steps: Finder["steps"] = (plan, request, options = {}) =>
    this.#run({ kind: "steps", ...request }, plan, options);

  reach: Finder["reach"] = (plan, options = {}) => this.#run({ kind: "reach" }, plan, options);

  remedies: Finder["remedies"] = (plan, request, options = {}) =>
    this.#run({ kind: "remedies", ...request }, plan, options);

  calibrate: Finder["calibrate"] = (plan, request, options = {}) =>
    this.#run({ kind: "calibrate", ...request }, plan, options);

  compare: Finder["compare"] = (plan, request, options = {}) =>
    this.#run({ kind: "compare", ...request }, plan, options);

  /** Loads the worker before there is anything to do. */
  wake(): void {
    this.#worker ??= this.#start();
  }

  dispose(): void {
    this.#fail(new ComputerError("the window was closed"));
  }

  #run<K extends Job["kind"]>(
    job: Job & { kind: K },
    plan: Plan,
    options: WorkOptions,
  ): Promise<JobResults[K]> {
    if (options.signal?.aborted) return Promise.reject(new CancelledError("stopped before it began"));
    return new Promise((resolve, reject) => {
      const id = this.#nextId++;
      const stop = this.#share ? new SharedArrayBuffer(4) : null;
      this.#pending.set(id, { job, plan, options, stop, resolve, reject });
      if (listensTo(options.signal)) {
        options.signal.addEventListener("abort", () => this.#cancel(id), { once: true });
      }
      this.#post(id);
    });
  }

  #post(id: number): void {
    const pending = this.#pending.get(id);
    if (pending === undefined) return;
    this.#worker ??= this.#start();
    this.#worker.postMessage({ type: "start", id, job: pending.job, plan: pending.plan, stop: pending.stop });
  }

  #start(): WorkerLike {
    const worker = this.#spawn();
    worker.onmessage = (event) => this.#receive(event.data);
    worker.onerror = (event) =>
      this.#fail(new ComputerError(event.message || "the worker could not be loaded"));
    return worker;
  }

  #receive(message: FromWorker): void {
    if (message.type === "progress") {
      this.#pending.get(message.id)?.options.onProgress?.(message.progress);
      return;
    }
    clearTimeout(this.#stopping.get(message.id));
    this.#stopping.delete(message.id);
    const pending = this.#pending.get(message.id);
    this.#pending.delete(message.id);
    if (pending === undefined) return;
    if (message.type === "done") pending.resolve(message.result as never);
    else if (message.type === "failed") pending.reject(new ComputerError(message.problem.message));
    else pending.reject(new CancelledError("stopped"));
  }

  #cancel(id: number): void {
    const pending = this.#pending.get(id);
    if (pending === undefined || this.#worker === null) return;
    this.#pending.delete(id);
    pending.reject(new CancelledError("stopped"));
    if (pending.stop !== null) Atomics.store(new Int32Array(pending.stop), 0, 1);
    this.#worker.postMessage({ type: "cancel", id });
    this.#stopping.set(
      id,
      setTimeout(() => this.#replace(), GRACE_MS),
    );
  }

  #drop(): void {
    this.#worker?.terminate();
    this.#worker = null;
    for (const timer of this.#stopping.values()) clearTimeout(timer);
    this.#stopping.clear();
  }

  #replace(): void {
    this.#drop();
    for (const id of this.#pending.keys()) this.#post(id);
  }

  #fail(error: Error): void {
    this.#drop();
    const pending = [...this.#pending.values()];
    this.#pending.clear();
    for (const { reject } of pending) reject(error);
  }
}
