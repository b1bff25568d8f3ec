/** Reading in processes of their own: whoever asks stays awake, and what a hostile file does to the code that decodes it
 * (a crash, no end) is the end of that process alone. A thread could not be stopped in there. */
import { type ChildProcess, fork } from "node:child_process";
import { fileURLToPath } from "node:url";
import { Stopped } from "../reading/index.ts";
import { WorkError } from "../workbench/index.ts";
import type { PhotoReader, PhotoSource, ReadCard, ReadOptions, ReadPhoto } from "./reader.ts";
import type { Answer, Asked, Told } from "./reader-words.ts";

/** The largest files take a sixth of it on a slow machine. */
const LIMIT_MS = 60_000;

type Result = ReadPhoto | Uint8Array | ReadCard;

interface Job {
  readonly asked: Asked;
  resolve(result: Result): void;
  reject(error: Error): void;
}

/** Reads with up to `count` processes of the built file `script`, which calls `serveReader`. Each starts when it is needed. */
export function startReader(script: URL, count: number, limit_ms = LIMIT_MS): PhotoReader {
  return new Readers(script, count, limit_ms);
}

class Readers implements PhotoReader {
  private readonly queue: Job[] = [];
  private readonly desks: Reader[];
  private isStopped = false;

  constructor(script: URL, count: number, limit_ms: number) {
    this.desks = Array.from({ length: count }, () => new Reader(script, limit_ms));
  }

  read(source: PhotoSource, options: ReadOptions) {
    return this.ask({ want: "photo", source, options }) as Promise<ReadPhoto>;
  }

  picture(source: PhotoSource) {
    return this.ask({ want: "picture", source }) as Promise<Uint8Array>;
  }

  readCard(source: PhotoSource) {
    return this.ask({ want: "card", source }) as Promise<ReadCard>;
  }

  private ask(asked: Asked): Promise<Result> {
    if (this.isStopped) return Promise.reject(new Stopped());
    return new Promise((resolve, reject) => {
      this.queue.push({ asked, resolve, reject });
      const free = this.desks.find((desk) => !desk.isBusy);
      if (free) void this.serve(free);
    });
  }

  async stop(): Promise<void> {
    this.isStopped = true;
    for (const job of this.queue.splice(0)) job.reject(new Stopped());
    await Promise.all(this.desks.map((desk) => desk.stop()));
  }

  private async serve(reader: Reader) {
    for (let job = this.queue.shift(); job !== undefined; job = this.queue.shift())
      await reader.read(job.asked).then(job.resolve, job.reject);
  }
}

class Reader {
  private child: ChildProcess | null = null;
  private isReady = false;
  private isStopped = false;
  isBusy = false;

  constructor(
    private readonly script: URL,
    private readonly limit_ms: number,
  ) {}

  async read(asked: Asked): Promise<Result> {
    this.isBusy = true;
    try {
      const told = await this.answer(asked);
      if ("result" in told) return told.result;
      throw new WorkError(told.problem, told.cure ?? "please keep the photograph and tell us");
    } finally {
      this.isBusy = false;
    }
  }

  async stop(): Promise<void> {
    this.isStopped = true;
    const { child } = this;
    if (child === null) return;
    const ended = new Promise((resolve) => child.once("exit", resolve));
    child.kill("SIGKILL");
    await ended;
  }

  private answer(asked: Asked): Promise<Answer> {
    const { name } = asked.source;
    const child = this.child ?? this.start();
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => {
        end(new WorkError(`${name} takes longer than ${this.limit_ms / 1000} s to read`, RESAVE));
        this.leave(child);
        child.kill("SIGKILL");
      }, this.limit_ms);
      const end = (told: Answer | Error) => {
        clearTimeout(timer);
        child.off("message", hear);
        child.off("exit", ended);
        if (told instanceof Error) reject(told);
        else resolve(told);
      };
      const hear = (told: Told) => {
        if ("ready" in told) this.isReady = true;
        else end(told);
      };
      const ended = (code: number | null, signal: string | null) => {
        if (this.isStopped) end(new Stopped());
        else if (this.isReady)
          end(new WorkError(`reading ${name} broke off (${signal ?? `code ${code}`})`, RESAVE));
        else end(new WorkError("photographs cannot be read here", "run npm ci and npm run build"));
      };
      child.on("message", hear);
      child.on("exit", ended);
      child.send(asked);
    });
  }

  private start(): ChildProcess {
    const child = fork(fileURLToPath(this.script), {
      serialization: "advanced",
      // libraries in there complain about files in words of their own
      stdio: ["ignore", "ignore", "ignore", "ipc"],
    });
    child.on("error", () => {}); // what it was at is told by its exit
    child.once("exit", () => this.leave(child));
    this.child = child;
    this.isReady = false;
    return child;
  }

  private leave(child: ChildProcess) {
    if (this.child === child) this.child = null;
  }
}

const RESAVE = "save it anew as a JPEG and hand that over";
