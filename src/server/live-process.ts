/** A process of its own that does one job at a time. It starts with the first job; whatever becomes of it, the next job
 * starts a new one. */
import { type ChildProcess, fork } from "node:child_process";
import { fileURLToPath } from "node:url";
import { WorkError } from "../workbench/index.ts";
import type { ShareAnswer, ShareJob } from "./live-words.ts";

/** Far more than the largest plan takes on a slow machine that is busy with other things. */
const LIMIT_MS = 120_000;

export class ShareProcess {
  readonly #script: URL;
  readonly #limit_ms: number;
  #child: ChildProcess | null = null;
  #ended: Promise<unknown> = Promise.resolve();

  /** @param script the built file that calls `serveShareWork` */
  constructor(script: URL, limit_ms = LIMIT_MS) {
    this.#script = script;
    this.#limit_ms = limit_ms;
  }

  /** Who calls waits for the answer before the next job.
   * Errors  WorkError where it broke off, took too long or cannot start */
  ask(job: ShareJob): Promise<ShareAnswer> {
    const child = this.#child ?? this.#start();
    return new Promise((resolve, reject) => {
      const end = (answer: ShareAnswer | WorkError) => {
        clearTimeout(timer);
        child.off("message", end);
        child.off("exit", broke);
        if (answer instanceof WorkError) reject(answer);
        else resolve(answer);
      };
      const broke = (code: number | null, signal: string | null) =>
        end(new WorkError(`working it out broke off (${signal ?? `code ${code}`})`, "try it again"));
      const timer = setTimeout(() => {
        end(new WorkError(`working it out takes longer than ${this.#limit_ms / 1000} s`, "try it again"));
        void this.stop();
      }, this.#limit_ms);
      child.on("message", end);
      child.on("exit", broke);
      child.send(job);
    });
  }

  async stop(): Promise<void> {
    this.#child?.kill("SIGKILL");
    this.#child = null;
    await this.#ended;
  }

  #start(): ChildProcess {
    const child = fork(fileURLToPath(this.#script), {
      serialization: "advanced",
      stdio: ["ignore", "ignore", "inherit", "ipc"],
    });
    child.on("error", () => {}); // what it was at is told by its exit
    this.#ended = new Promise<void>((resolve) => {
      child.once("exit", () => {
        if (this.#child === child) this.#child = null;
        resolve();
      });
    });
    this.#child = child;
    return child;
  }
}
