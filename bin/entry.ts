/** Where the shell, the server and the use cases are put together. Built into dist/node/entry.js. */
import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { basename, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import {
  MOST_THREADS,
  type OpenRequest,
  type Photographs,
  run,
  sheetPdf,
  startFinders,
} from "../src/cli/index.ts";
import { createComputer, fileError, makeSheet, openPlan, WorkError } from "../src/workbench/index.ts";

export async function main(words: readonly string[], root: string): Promise<number> {
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    // a reader that has seen enough (head, a closed pager) is no failure
    if (error.code === "EPIPE") process.exit(0);
    fail(fileError("could not write to standard output", error).message);
  });
  process.on("uncaughtException", (error) => fail(`something failed inside: ${messageOf(error)}`));
  process.on("unhandledRejection", (reason) => fail(`something failed inside: ${messageOf(reason)}`));
  const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string };
  return run(words, {
    version,
    out: (text) => process.stdout.write(text),
    error: (text) => process.stderr.write(text),
    errorStream: process.stderr,
    openWorkbench: (request) => openWorkbench(request, root),
    startFinders: () =>
      startFinders(
        pathToFileURL(join(root, "dist", "node", "finder-thread.js")),
        Math.min(MOST_THREADS, availableParallelism()),
      ),
    photographs: () => photographs(root),
    now: () => new Date(),
    onInterrupt: (stop) => {
      process.once("SIGINT", stop);
      process.once("SIGTERM", stop);
      const off = () => {
        process.off("SIGINT", stop);
        process.off("SIGTERM", stop);
      };
      return { off };
    },
  });
}

/** Loaded where photographs are read: other commands start without it. */
async function photographs(root: string): Promise<Photographs> {
  const { createGearFile, dataFolder, startReader } = await import("../src/files/index.ts");
  const script = pathToFileURL(join(root, "dist", "node", "photo-process.js"));
  return {
    startReader: (count) => startReader(script, count),
    gear: createGearFile(dataFolder(process.env, process.platform), () => new Date()),
  };
}

/** The last resort: a line for people, never a stack trace. */
function fail(message: string): never {
  process.stderr.write(`tapemark: ${message}\n`);
  process.exit(3);
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

async function openWorkbench(request: OpenRequest, root: string): Promise<void> {
  const { startServer } = await import("../src/server/index.ts");
  const { createDesk } = await import("../src/files/index.ts");
  const { gear, startReader } = await photographs(root);
  const server = await startServer({
    appFolder: join(root, "dist", "app"),
    opened: request.plan && { key: keyOf(request.plan), text: request.plan.text },
    port: request.port,
    desk: createDesk({ reader: startReader(1), gear, now: () => new Date() }),
    sheet: async (text, { paper, units }) => {
      const opened = openPlan(text);
      if (!opened.ok)
        throw new WorkError(`${opened.problems[0].path}: ${opened.problems[0].what}`, "correct the plan");
      return sheetPdf(opened.plan, await makeSheet(createComputer(), opened.plan, { paper, units }), paper);
    },
  });
  if (server.note) process.stderr.write(`tapemark: ${server.note}\n`);
  process.stdout.write(`Tapemark is open at ${server.url}\nCtrl-C ends it.\n`);
  if (request.browser) openBrowser(server.url);
  await new Promise<void>((resolve) => {
    process.once("SIGINT", resolve);
    process.once("SIGTERM", resolve);
  });
  await server.stop();
}

/** A work is kept under the name of the file it came from and where that lies, so that two files of one name are two
 * works. What came through a pipe has only its text to be known by. */
function keyOf({ name, text }: NonNullable<OpenRequest["plan"]>): string {
  const isPiped = name === "-";
  const mark = createHash("sha256")
    .update(isPiped ? text : resolve(name))
    .digest("hex")
    .slice(0, 8);
  const words = (isPiped ? "piped" : basename(name).replace(/\.json$/i, ""))
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .slice(0, 48)
    .replace(/^-+|-+$/g, "");
  return `${words || "plan"}-${mark}`;
}

/** Asks the desktop for its browser; where there is none that is said, and the printed address is enough. */
function openBrowser(url: string): void {
  const [command, ...args] =
    process.platform === "darwin"
      ? ["open", url]
      : process.platform === "win32"
        ? ["cmd", "/c", "start", "", url]
        : ["xdg-open", url];
  const child = spawn(command, args, { stdio: "ignore", detached: true });
  const say = () =>
    process.stderr.write("tapemark: no browser could be opened here; open the address in one\n");
  child.once("error", say);
  child.once("exit", (code) => code !== 0 && say());
  child.unref();
}
