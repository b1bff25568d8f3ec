/** Record and contact sheets made by a process of their own: they take many seconds, in which nobody else should wait. */
import { fork } from "node:child_process";
import { setPriority } from "node:os";
import { fileURLToPath } from "node:url";
import type { ShootRecord } from "../library/index.ts";
import { type Progress, WorkError, type WorkOptions } from "../workbench/index.ts";
import type { SheetRequest } from "./routes.ts";

export interface ContactRequest extends SheetRequest {
  readonly person: number;
  readonly form: "pdf" | "png";
}

export type PrintJob =
  | { readonly want: "contact"; readonly text: string; readonly options: ContactRequest }
  | { readonly want: "record"; readonly record: ShootRecord; readonly options: SheetRequest };

type Told =
  | { readonly progress: Progress }
  | { readonly file: Uint8Array }
  | { readonly problem: string; readonly cure: string };

/** How far a sheet is, as the process that makes it says. */
type Follow = (progress: Progress) => void;

/** Makes one file. Whoever asked and went away stops it.
 * Errors  WorkError with the problem and the cure */
export type Print = (job: PrintJob, signal: AbortSignal, follow?: Follow) => Promise<Uint8Array>;

/** What the other side does with it. */
export interface PrintWork {
  contact(text: string, options: ContactRequest, work: WorkOptions): Promise<Uint8Array>;
  record(record: ShootRecord, options: SheetRequest, work: WorkOptions): Promise<Uint8Array>;
}

/** One process a file, one file after the other, at a low priority: the one who drags a light must not feel it. */
export function printInProcess(script: URL): Print {
  let last: Promise<unknown> = Promise.resolve();
  let many = 0;
  return (job, signal, follow = () => {}) => {
    if (many++ > 0) follow({ done: 0, what: "another sheet is made first" });
    const made = last.then(() => printOne(script, job, signal, follow)).finally(() => many--);
    last = made.catch(() => undefined);
    return made;
  };
}

function printOne(script: URL, job: PrintJob, signal: AbortSignal, follow: Follow): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    if (signal.aborted) {
      reject(stopped());
      return;
    }
    const child = fork(fileURLToPath(script), {
      serialization: "advanced",
      stdio: ["ignore", "ignore", "inherit", "ipc"],
    });
    const stop = () => child.kill("SIGKILL");
    signal.addEventListener("abort", stop);
    child.once("error", reject);
    child.on("message", (told: Told) => {
      if ("progress" in told) {
        follow(told.progress);
        return;
      }
      child.disconnect();
      if ("file" in told) resolve(told.file);
      else reject(new WorkError(told.problem, told.cure));
    });
    child.once("exit", () => {
      signal.removeEventListener("abort", stop);
      reject(stopped());
    });
    child.send(job);
  });
}

function stopped(): WorkError {
  return new WorkError("the sheet was not made: working it out was broken off", "ask for it again");
}

/** The other side. */
export function servePrints(work: PrintWork): void {
  try {
    setPriority(10);
  } catch {
    // a system that does not let us
  }
  process.once("disconnect", () => process.exit());
  process.on("SIGINT", () => {});
  process.once("message", (job: PrintJob) => {
    const options = { onProgress: newTeller() };
    const made =
      job.want === "contact"
        ? work.contact(job.text, job.options, options)
        : work.record(job.record, job.options, options);
    made.then(
      (file) => tell({ file }),
      (error: unknown) =>
        tell(
          error instanceof WorkError
            ? { problem: error.problem, cure: error.cure }
            : { problem: `the sheet failed inside: ${messageOf(error)}`, cure: "tell us, and keep the plan" },
        ),
    );
  });
}

/** Tells each hundredth once: work says how far it is some thousand times. */
function newTeller(): Follow {
  let last = "";
  return (progress) => {
    const now = `${Math.floor(100 * progress.done)} ${progress.what}`;
    if (now !== last) tell({ progress });
    last = now;
  };
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

function tell(told: Told): void {
  process.send?.(told);
}
