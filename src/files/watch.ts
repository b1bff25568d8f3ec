/** A folder that a camera's program writes to, watched: what is new in it, once it is there whole. */
import fs from "node:fs";
import { homedir } from "node:os";
import { isAbsolute, normalize } from "node:path";
import { type FSWatcher, watch } from "chokidar";
import { fileError, WorkError } from "../workbench/index.ts";
import { isPhotoName } from "./watch-names.ts";
import { type Settled, Settling } from "./watch-settle.ts";

export interface WatchHearing {
  /** it is there and grows */
  waiting(path: string): void;
  /** `before`: the name that the same file had until now */
  whole(path: string, before: string | null): void;
  /** there is nothing to read, or nothing new */
  gone(path: string): void;
  /** null: all is well again */
  problem(text: string | null): void;
}

export interface Watch {
  readonly folder: string;
  stop(): Promise<void>;
}

/** Programs file what they take by day or by roll; deeper lies something else. */
export const DEPTH = 2;
/** How often a folder is asked whether it is still there. */
const ALIVE_MS = 1000;

/** Begins to watch. What lies there already is not read: it may be years of work.
 * Errors  WorkError where it is no folder or may not be read */
export async function watchFolder(asked: string, hearing: WatchHearing): Promise<Watch> {
  const folder = readable(asked);
  const watching = new FolderWatch(folder, hearing);
  await watching.begin();
  return watching;
}

function readable(asked: string): string {
  const folder = normalize(asked.replace(/^~(?=$|[/\\])/, homedir()).replace(/(?<=.)[/\\]+$/, ""));
  if (!isAbsolute(folder))
    throw new WorkError(`"${asked}" does not say where it is`, "write the whole path of the folder");
  try {
    if (!fs.statSync(folder).isDirectory())
      throw new WorkError(`${folder} is not a folder`, "name its folder");
    fs.readdirSync(folder);
  } catch (error) {
    if (error instanceof WorkError) throw error;
    throw fileError(`could not watch ${folder}`, error);
  }
  return folder;
}

class FolderWatch implements Watch {
  private watcher: FSWatcher | null = null;
  private readonly settling: Settling;
  /** files as they were when last seen whole, or at the start */
  private readonly seen = new Map<string, Settled>();
  /** those that were there before: of no interest, under whatever name */
  private readonly old = new Set<string>();
  private alive: NodeJS.Timeout | null = null;
  private isAway = false;

  constructor(
    readonly folder: string,
    private readonly hearing: WatchHearing,
  ) {
    this.settling = new Settling({
      waiting: (path) => hearing.waiting(path),
      gone: (path) => hearing.gone(path),
      whole: (path, settled) => this.whole(path, settled),
    });
  }

  async begin(): Promise<void> {
    await this.look((path, there) => {
      this.seen.set(path, there);
      this.old.add(path);
    });
    this.alive = setInterval(() => void this.checkAlive(), ALIVE_MS);
  }

  async stop(): Promise<void> {
    if (this.alive) clearInterval(this.alive);
    this.settling.stop();
    await this.watcher?.close();
    this.watcher = null;
  }

  /** Watches from now on; `first` is told of what lies there. */
  private async look(first: (path: string, there: Settled) => void): Promise<void> {
    let isReady = false;
    const watcher = watch(this.folder, {
      depth: DEPTH,
      alwaysStat: true,
      usePolling: isFarAway(this.folder),
      interval: 500,
      binaryInterval: 500,
      ignored: (path, stats) => path !== this.folder && !concerns(path, stats),
    });
    this.watcher = watcher;
    watcher.on("add", (path, stats) => {
      if (!isReady && stats) first(path, settledOf(stats));
      else this.settling.poke(path);
    });
    watcher.on("change", (path) => this.settling.poke(path));
    watcher.on("unlink", (path) => this.hearing.gone(path));
    watcher.on("error", (error) => this.hearing.problem(watchProblem(this.folder, error)));
    await new Promise<void>((resolve) => watcher.once("ready", resolve));
    isReady = true;
  }

  private whole(path: string, settled: Settled) {
    const before = this.renamed(path, settled);
    const last = this.seen.get(path);
    const isOld = before !== null && this.old.has(before);
    const isAsBefore = last !== undefined && isSame(last, settled);
    this.seen.set(path, settled);
    if (isOld) this.old.add(path);
    if (isOld || isAsBefore) {
      this.hearing.gone(path);
      return;
    }
    this.old.delete(path);
    this.hearing.whole(path, before);
  }

  /** The name under which the very same file was seen before and where it is no more. */
  private renamed(path: string, settled: Settled): string | null {
    for (const [other, there] of this.seen)
      if (other !== path && isSame(there, settled) && !fs.existsSync(other)) return other;
    return null;
  }

  private async checkAlive() {
    const isThere = fs.statSync(this.folder, { throwIfNoEntry: false })?.isDirectory() ?? false;
    if (isThere && this.isAway) {
      this.isAway = false;
      await this.watcher?.close();
      // a drive that was away comes back with what it had, and with what was put on it meanwhile
      await this.look((path, there) => {
        const last = this.seen.get(path);
        if (last === undefined || !isSame(last, there)) this.settling.poke(path);
      });
      this.hearing.problem(null);
    } else if (!isThere && !this.isAway) {
      this.isAway = true;
      this.hearing.problem(
        `the folder ${this.folder} is not there any more; put it or its drive back, and it goes on by itself`,
      );
    }
  }
}

function settledOf({ ino, size, mtimeMs }: fs.Stats): Settled {
  return { ino, size, mtimeMs };
}

function isSame(a: Settled, b: Settled): boolean {
  return a.ino === b.ino && a.size === b.size && a.mtimeMs === b.mtimeMs;
}

/** Folders and photographs; asked once with the path alone, before anybody knows what it is. */
function concerns(path: string, stats: fs.Stats | undefined): boolean {
  if (stats === undefined || stats.isDirectory()) return !/[/\\]\.[^/\\]*$/.test(path);
  return isPhotoName(path);
}

/** File systems of other machines do not tell of what is done there (numbers of Linux's statfs): they are asked instead. */
const FAR = new Set([0x6969, 0xff534d42, 0xfe534d42, 0x517b, 0x65735546]);

function isFarAway(folder: string): boolean {
  return process.platform === "linux" && FAR.has(fs.statfsSync(folder).type >>> 0);
}

function watchProblem(folder: string, error: unknown): string {
  const { code } = error as NodeJS.ErrnoException;
  if (code === "ENOSPC" || code === "EMFILE")
    return `${folder} holds more than this system can watch; watch a smaller folder`;
  return fileError(`not all of ${folder} can be watched`, error).message;
}
