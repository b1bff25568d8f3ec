/** Starts processes that work on a library, and ends them hard. */
import { spawn, spawnSync } from "node:child_process";
import { bundle } from "../../../scripts/bundled.mjs";

/** What it said until its end, a line each; "killed" tells that it was still at work. */
export interface Ended {
  readonly lines: readonly string[];
  readonly isKilled: boolean;
}

let built: Promise<string> | null = null;

function script(): Promise<string> {
  built ??= bundle("src/library/testing/child.ts");
  return built;
}

/** Runs a job to its end. `limit_KiB`: no file may grow past it, as on a disk that is full there. */
export async function runJob(job: string, folder: string, limit_KiB: number | null = null): Promise<Ended> {
  const words = [await script(), job, folder];
  const done =
    limit_KiB === null
      ? spawnSync(process.execPath, words, { encoding: "utf8" })
      : spawnSync(
          "bash",
          // a write past the limit fails as one on a full disk does, instead of ending the process
          ["-c", `trap '' XFSZ; ulimit -f ${limit_KiB}; exec "$0" "$@"`, process.execPath, ...words],
          { encoding: "utf8" },
        );
  if (done.status !== 0) throw new Error(`${job} ended with ${done.status}: ${done.stderr}`);
  return { lines: linesOf(done.stdout), isKilled: false };
}

/** Starts a job and waits for its first line; `end` kills it and gives what it said. */
export async function startJob(
  job: string,
  folder: string,
  seed = 0,
): Promise<{ end(): Promise<Ended>; readonly ended: Promise<Ended> }> {
  const child = spawn(process.execPath, [await script(), job, folder, String(seed)], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  let said = "";
  const first = new Promise<void>((resolve) => {
    child.stdout.on("data", (chunk) => {
      said += chunk;
      resolve();
    });
    child.once("exit", () => resolve());
  });
  const ended = new Promise<Ended>((resolve) => {
    // once all that was said has been read
    child.once("close", (_, signal) => resolve({ lines: linesOf(said), isKilled: signal === "SIGKILL" }));
  });
  await first;
  return {
    ended,
    end() {
      child.kill("SIGKILL");
      return ended;
    },
  };
}

/** A line that the kill cut short promises nothing. */
function linesOf(text: string): string[] {
  return text.split("\n").slice(0, -1);
}
