/** Where the shell, the server and the use cases are put together. Built into dist/node/entry.js. */
import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { type OpenRequest, run, sheetPdf } from "../src/cli/index.ts";
import { createComputer, makeSheet, openPlan, WorkError } from "../src/workbench/index.ts";

export async function main(words: readonly string[], root: string): Promise<number> {
  // a reader that has seen enough (head, a closed pager) is no failure
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code === "EPIPE") process.exit(0);
  });
  const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string };
  return run(words, {
    version,
    out: (text) => process.stdout.write(text),
    error: (text) => process.stderr.write(text),
    errorStream: process.stderr,
    openWorkbench: (request) => openWorkbench(request, root),
  });
}

async function openWorkbench(request: OpenRequest, root: string): Promise<void> {
  const { startServer } = await import("../src/server/index.ts");
  const server = await startServer({
    appFolder: join(root, "dist", "app"),
    examplesFolder: join(root, "examples"),
    opened: request.plan && { key: keyOf(request.plan.name), text: request.plan.text },
    port: request.port,
    sheet: async (text, { paper, units }) => {
      const opened = openPlan(text);
      if (!opened.ok)
        throw new WorkError(`${opened.problems[0].path}: ${opened.problems[0].what}`, "correct the plan");
      return sheetPdf(opened.plan, await makeSheet(createComputer(), opened.plan, { paper, units }), paper);
    },
  });
  process.stdout.write(`Tapemark is open at ${server.url}\nCtrl-C ends it.\n`);
  if (request.browser) openBrowser(server.url);
  await new Promise<void>((resolve) => {
    process.once("SIGINT", resolve);
    process.once("SIGTERM", resolve);
  });
  await server.stop();
}

/** A work is kept under the name of the file it came from. */
function keyOf(name: string): string {
  const key = basename(name)
    .replace(/\.json$/i, "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 64);
  return key || "plan";
}

/** Asks the desktop for its browser; where there is none the printed address is enough. */
function openBrowser(url: string): void {
  const [command, ...args] =
    process.platform === "darwin"
      ? ["open", url]
      : process.platform === "win32"
        ? ["cmd", "/c", "start", "", url]
        : ["xdg-open", url];
  const child = spawn(command, args, { stdio: "ignore", detached: true });
  child.on("error", () => undefined);
  child.unref();
}
