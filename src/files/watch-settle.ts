/** Waits until a file that appeared is there whole. */
import { stat } from "node:fs/promises";
import { type Ending, endingOf } from "./watch-whole.ts";

const TICK_MS = 100;
/** Its kind has no end that could be looked for: nothing has come for so long. Cards and cables pause for less. */
const QUIET_MS = 1000;
/** It ends too early, and nothing has come for so long: whoever wrote it has given up, and the reader says what is wrong. */
const GIVEN_UP_MS = 20_000;

export interface Settled {
  readonly ino: number;
  readonly size: number;
  readonly mtimeMs: number;
}

export interface SettleHearing {
  /** said once a wait is longer than a moment */
  waiting(path: string): void;
  whole(path: string, settled: Settled): void;
  gone(path: string): void;
}

interface Wait {
  timer: NodeJS.Timeout | null;
  last: Settled | null;
  /** ticks since it last changed */
  quiet_ms: number;
  ending: Ending | null;
  isTold: boolean;
}

export class Settling {
  private readonly waits = new Map<string, Wait>();

  constructor(private readonly hearing: SettleHearing) {}

  /** Something happened to the file: it is looked at until it is whole. */
  poke(path: string) {
    if (this.waits.has(path)) return;
    const wait: Wait = { timer: null, last: null, quiet_ms: 0, ending: null, isTold: false };
    this.waits.set(path, wait);
    void this.look(path, wait);
  }

  stop() {
    for (const { timer } of this.waits.values()) if (timer) clearTimeout(timer);
    this.waits.clear();
  }

  private async look(path: string, wait: Wait) {
    const next = await this.judged(path, wait);
    // somebody stopped it in the meantime
    if (this.waits.get(path) !== wait) return;
    if (next === "wait") {
      if (!wait.isTold) this.hearing.waiting(path);
      wait.isTold = true;
      wait.timer = setTimeout(() => void this.look(path, wait), TICK_MS);
      return;
    }
    this.waits.delete(path);
    if (next === "whole" && wait.last) this.hearing.whole(path, wait.last);
    else this.hearing.gone(path);
  }

  private async judged(path: string, wait: Wait): Promise<"wait" | "whole" | "gone"> {
    try {
      const there = await stat(path);
      if (!there.isFile()) return "gone";
      const { last } = wait;
      if (last?.size !== there.size || last.mtimeMs !== there.mtimeMs || last.ino !== there.ino) {
        wait.last = { ino: there.ino, size: there.size, mtimeMs: there.mtimeMs };
        wait.quiet_ms = 0;
        wait.ending = null;
        return "wait";
      }
      wait.quiet_ms += TICK_MS;
      wait.ending ??= await endingOf(path);
      return wait.quiet_ms >= PATIENCE_MS[wait.ending] ? "whole" : "wait";
    } catch (error) {
      const isGone = (error as NodeJS.ErrnoException).code === "ENOENT";
      // held by whoever writes it, or not ours to read: the reader will say so
      wait.quiet_ms += TICK_MS;
      return isGone ? "gone" : wait.quiet_ms >= GIVEN_UP_MS ? "whole" : "wait";
    }
  }
}

const PATIENCE_MS: Record<Ending, number> = {
  whole: TICK_MS,
  "cannot tell": QUIET_MS,
  unfinished: GIVEN_UP_MS,
};
