/** Copies made by a process of its own: checking a large one takes a second, in which nobody else should wait. */
import { fork } from "node:child_process";
import { setPriority } from "node:os";
import { fileURLToPath } from "node:url";
import { WorkError } from "../workbench/index.ts";
import { type CopyMade, copyLibrary } from "./copies.ts";

/** Copies the library at `path` to `target`, which must not be there yet. */
export type MakeCopy = (path: string, target: string) => Promise<CopyMade>;

type Asked = { readonly path: string; readonly target: string };
type Told = { readonly made: CopyMade } | { readonly problem: string; readonly cure: string };

/** Copies made by `script`, which calls `serveCopies`: one process a copy, at the lowest priority. */
export function copyInProcess(script: URL): MakeCopy {
  return (path, target) =>
    new Promise((resolve, reject) => {
      const child = fork(fileURLToPath(script), [], { stdio: "ignore" });
      try {
        if (child.pid !== undefined) setPriority(child.pid, 19);
      } catch {
        // a system that does not let us
      }
      child.once("error", reject);
      child.once("message", (told: Told) => {
        child.disconnect();
        if ("made" in told) resolve(told.made);
        else reject(new WorkError(told.problem, told.cure));
      });
      child.once("exit", () =>
        reject(new WorkError(`copying ${path} was broken off`, "it is tried again later")),
      );
      child.send({ path, target } satisfies Asked);
    });
}

/** The other side. */
export function serveCopies(): void {
  // whoever asked is gone: what is half made is cleared with the next copy
  process.once("disconnect", () => process.exit());
  process.on("SIGINT", () => {});
  process.once("message", ({ path, target }: Asked) => {
    copyLibrary(path, target, { never: "over" }).then(
      (made) => tell({ made }),
      (error: unknown) =>
        tell(
          error instanceof WorkError
            ? { problem: error.problem, cure: error.cure }
            : { problem: `copying ${path} failed inside: ${String(error)}`, cure: "tell us" },
        ),
    );
  });
}

function tell(told: Told): void {
  process.send?.(told);
}
