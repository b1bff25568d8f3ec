/** What a watched folder brings, read one file after the other. */
import { basename } from "node:path";
import { Stopped } from "../reading/index.ts";
import type { PendingFrame } from "../workbench/index.ts";
import { MOST_FRAMES } from "./desk-frames.ts";
import type { WatchHearing } from "./watch.ts";
import { exposureOf, isRaw } from "./watch-names.ts";

export interface IntakeParts {
  /** reads the file and puts it on the desk in place of `before`: other files that it stands for */
  read(path: string, before: readonly string[]): Promise<void>;
  changed(): void;
  problem(text: string | null): void;
  readonly now: () => Date;
}

/** Of those that failed so many are told of; the files themselves show what is wrong with them. */
const MOST_FAILED = 20;
/** A camera writes raw file and picture one after the other. A picture that comes later was made by somebody. */
const BESIDE_MS = 30_000;

interface Asked {
  readonly path: string;
  readonly before: readonly string[];
}

export class Intake implements WatchHearing {
  private readonly pending = new Map<string, PendingFrame>();
  private queue: Asked[] = [];
  /** of each exposure: its files that are read or will be, and when the first was there */
  private readonly exposures = new Map<string, { readonly paths: Set<string>; readonly since: number }>();
  private isReading = false;
  private isStopped = false;

  constructor(private readonly parts: IntakeParts) {}

  list(): PendingFrame[] {
    return [...this.pending.values()];
  }

  stop() {
    this.isStopped = true;
    this.queue = [];
  }

  waiting(path: string) {
    this.tell(path, "being written", null);
  }

  whole(path: string, before: string | null) {
    const { paths, since } = this.exposure(path);
    const others = [...paths].filter((other) => other !== path);
    const isLate = this.parts.now().getTime() - since > BESIDE_MS;
    if (isRaw(path) && !isLate && others.some((other) => !isRaw(other))) {
      this.gone(path);
      return;
    }
    paths.add(path);
    const raws = isRaw(path) || isLate ? [] : others.filter(isRaw);
    for (const raw of raws) this.gone(raw);
    this.tell(path, "being read", null);
    this.queue = this.queue.filter((asked) => asked.path !== path);
    this.queue.push({ path, before: before === null ? raws : [...raws, before] });
    if (this.queue.length > MOST_FRAMES) {
      const [first] = this.queue.splice(0, 1);
      this.tell(first.path, "failed", `more than ${MOST_FRAMES} came at once; hand it over by itself`);
    }
    void this.readOn();
  }

  /** A photograph that lies elsewhere now: read, it takes the place of what was at `before`. */
  moved(path: string, before: string) {
    this.tell(path, "being read", null);
    this.queue.push({ path, before: [before] });
    void this.readOn();
  }

  gone(path: string) {
    this.queue = this.queue.filter((asked) => asked.path !== path);
    if (this.pending.delete(path)) this.parts.changed();
  }

  problem(text: string | null) {
    this.parts.problem(text);
  }

  private exposure(path: string) {
    const key = exposureOf(path);
    const now = this.parts.now().getTime();
    const there = this.exposures.get(key) ?? { paths: new Set<string>(), since: now };
    this.exposures.set(key, there);
    return there;
  }

  private tell(path: string, state: PendingFrame["state"], problem: string | null) {
    // anew at the end: the list is in the order of the last news
    this.pending.delete(path);
    this.pending.set(path, { name: basename(path), state, problem });
    const failed = [...this.pending].filter(([, { state }]) => state === "failed");
    for (const [old] of failed.slice(0, -MOST_FAILED)) this.pending.delete(old);
    this.parts.changed();
  }

  private async readOn() {
    if (this.isReading) return;
    this.isReading = true;
    for (let asked = this.queue.shift(); asked !== undefined; asked = this.queue.shift())
      await this.readOne(asked);
    this.isReading = false;
  }

  private async readOne({ path, before }: Asked) {
    try {
      await this.parts.read(path, before);
      this.gone(path);
    } catch (error) {
      if (this.isStopped || error instanceof Stopped) return;
      this.tell(path, "failed", error instanceof Error ? error.message : String(error));
    }
  }
}
