/** Where the shell, the server and the use cases are put together. Built into dist/node/entry.js. */
import { spawn } from "node:child_process";
import { createHash, randomUUID } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { type OpenRequest, type Photographs, run, startFinders } from "../src/cli/index.ts";
import type { Library } from "../src/library/index.ts";
import { EMPTY_BOOK, fileError, type GearStore } from "../src/workbench/index.ts";
import { sheetOf } from "./sheet-of.ts";

const AROUND = { now: () => new Date(), newId: randomUUID };

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
    startFinders: () => startFinders(pathToFileURL(join(root, "dist", "node", "finder-thread.js"))),
    photographs: (library) => photographs(root, library),
    openLibrary: ownLibrary,
    libraryPath: pathOfLibrary,
    ...AROUND,
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
async function photographs(root: string, library: string | null): Promise<Photographs> {
  const { startReader } = await import("../src/files/index.ts");
  const script = pathToFileURL(join(root, "dist", "node", "photo-process.js"));
  return { startReader: (count) => startReader(script, count), gear: await gearOf(library) };
}

/** Reading a photograph makes no library: it is opened where there is one, or something to keep. */
async function gearOf(named: string | null): Promise<GearStore> {
  const { createGearShelf, libraryPath } = await import("../src/library/index.ts");
  const data = await ownFolder();
  const isThere = () => [libraryPath(named, process.env, data), join(data, "gear.json")].some(existsSync);
  let shelf: Promise<GearStore> | null = null;
  const open = () => {
    shelf ??= ownLibrary(named).then((library) => createGearShelf(library, AROUND));
    return shelf;
  };
  return {
    load: async () => (shelf || isThere() ? (await open()).load() : EMPTY_BOOK),
    save: async (book) => (await open()).save(book),
  };
}

async function ownFolder(): Promise<string> {
  const { dataFolder } = await import("../src/files/index.ts");
  return dataFolder(process.env, process.platform);
}

async function pathOfLibrary(named: string | null): Promise<string> {
  const { libraryPath } = await import("../src/library/index.ts");
  return libraryPath(named, process.env, await ownFolder());
}

/** The library that is named, or the user's own, into which comes what earlier versions kept beside it. */
async function ownLibrary(named: string | null): Promise<Library> {
  const { libraryPath, moveIn, openLibrary } = await import("../src/library/index.ts");
  const data = await ownFolder();
  const library = openLibrary(libraryPath(named, process.env, data), AROUND);
  process.once("exit", () => library.close());
  // one that was named by hand is about something else than what was kept before
  if (named === null)
    for (const note of moveIn(library, data, AROUND)) process.stderr.write(`tapemark: ${note}\n`);
  return library;
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
  const { printInProcess, startServer } = await import("../src/server/index.ts");
  const { createDesk, startReader } = await import("../src/files/index.ts");
  const { copyInProcess, createGearShelf } = await import("../src/library/index.ts");
  const library = await ownLibrary(request.library);
  const gear = createGearShelf(library, AROUND);
  const script = pathToFileURL(join(root, "dist", "node", "photo-process.js"));
  const server = await startServer({
    appFolder: join(root, "dist", "app"),
    share: {
      folder: join(root, "dist", "phone"),
      script: pathToFileURL(join(root, "dist", "node", "share-process.js")),
    },
    opened: request.plan && { key: keyOf(request.plan), text: request.plan.text },
    port: request.port,
    library,
    makeCopy: copyInProcess(pathToFileURL(join(root, "dist", "node", "copy-process.js"))),
    desk: (shelf) => createDesk({ reader: startReader(script, 1), gear, now: () => new Date(), shelf }),
    sheet: sheetOf,
    print: printInProcess(pathToFileURL(join(root, "dist", "node", "print-process.js"))),
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
