/** Where test frames come in: handed over, or from a watched folder. Files are read and left as they are. */
import { statSync } from "node:fs";
import { basename } from "node:path";
import { Stopped } from "../reading/index.ts";
import {
  type DeskState,
  type FrameDesk,
  type GearStore,
  type PendingFrame,
  type TestFrame,
  WorkError,
} from "../workbench/index.ts";
import { DeskFrames } from "./desk-frames.ts";
import { Intake } from "./desk-intake.ts";
import { findMoved } from "./desk-moved.ts";
import { type CameFrom, type FrameShelf, MemoryShelf } from "./desk-shelf.ts";
import type { PhotoReader, PhotoSource } from "./reader.ts";
import { type Watch, watchFolder } from "./watch.ts";

export interface Desk extends FrameDesk {
  /** for the screen; null where there is no such frame */
  picture(id: string): Promise<DeskPicture | null>;
  stop(): Promise<void>;
}

export interface DeskPicture {
  readonly jpeg: Uint8Array;
  /** the file is not where it was: all there is is its thumbnail */
  readonly isThumbnail: boolean;
}

export interface DeskParts {
  readonly reader: PhotoReader;
  readonly gear: Pick<GearStore, "load">;
  readonly now: () => Date;
  /** where frames are kept; they are forgotten when the desk ends where it is left out */
  readonly shelf?: FrameShelf;
  /** how long a question for news waits */
  readonly patience_ms?: number;
}

/** Browsers and what stands between give up on a question after half a minute. */
const PATIENCE_MS = 25_000;

export function createDesk(parts: DeskParts): Desk {
  return new OneDesk(parts);
}

class OneDesk implements Desk {
  private readonly frames: DeskFrames;
  private readonly handed = new Set<PendingFrame>();
  private readonly waiting = new Set<() => void>();
  private intake: Intake | null = null;
  private watching: Watch | null = null;
  private folderProblem: string | null = null;
  private version: number;
  private isStopped = false;
  private readonly leaveShelf: () => void;
  private isStale = false;

  constructor(private readonly parts: DeskParts) {
    const shelf = parts.shelf ?? new MemoryShelf(parts.now);
    this.frames = new DeskFrames(shelf);
    this.leaveShelf = shelf.subscribe(() => this.refreshSoon());
    // after a new start a page that asks for news of the old one is behind, not ahead
    this.version = parts.now().getTime();
  }

  async state(after: number): Promise<DeskState> {
    if (after === this.version && !this.isStopped) await this.news();
    return {
      version: this.version,
      folder: this.watching?.folder ?? null,
      folderProblem: this.folderProblem,
      frames: this.frames.list(),
      pending: [...(this.intake?.list() ?? []), ...this.handed],
    };
  }

  async read(name: string, bytes: Uint8Array): Promise<TestFrame> {
    const pending: PendingFrame = { name, state: "being read", problem: null };
    this.handed.add(pending);
    this.changed();
    try {
      return await this.take({ name, bytes }, { path: null, bytes: bytes.length, before: [] });
    } catch (error) {
      if (!(error instanceof Stopped)) throw error;
      throw new WorkError(
        `Tapemark was ended before ${name} was read`,
        "start it again and hand it over anew",
      );
    } finally {
      // whoever handed it over is told what is wrong
      this.handed.delete(pending);
      this.changed();
    }
  }

  async watch(folder: string | null): Promise<void> {
    const intake = folder === null ? null : this.newIntake();
    const next = folder === null || intake === null ? null : await watchFolder(folder, intake);
    if (this.isStopped) {
      await next?.stop();
      return;
    }
    this.intake?.stop();
    const before = this.watching;
    this.watching = next;
    this.intake = intake;
    this.folderProblem = null;
    this.changed();
    for (const { path, before } of next === null ? [] : findMoved(next.folder, this.frames.lost()))
      intake?.moved(path, before);
    await before?.stop();
  }

  async forget(id: string): Promise<void> {
    if (!this.frames.drop(id)) throw new WorkError("there is no such frame on the desk", "reload the page");
    this.changed();
  }

  async picture(id: string): Promise<DeskPicture | null> {
    const kept = this.frames.find(id);
    if (kept === null) return null;
    const seen = this.frames.preview(id);
    if (seen !== null) return { jpeg: seen, isThumbnail: false };
    const { path } = kept;
    if (this.frames.checkFile(kept)) this.changed();
    const jpeg = path === null ? null : await this.pictureAt(path, kept.frame.name);
    if (jpeg !== null) this.frames.see(id, jpeg);
    const shown = jpeg ?? this.frames.thumbnail(id);
    return shown && { jpeg: shown, isThumbnail: jpeg === null };
  }

  async stop(): Promise<void> {
    this.isStopped = true;
    this.leaveShelf();
    for (const wake of [...this.waiting]) wake();
    this.intake?.stop();
    await Promise.all([this.watching?.stop(), this.parts.reader.stop()]);
  }

  private newIntake(): Intake {
    return new Intake({
      now: this.parts.now,
      changed: () => this.changed(),
      problem: (text) => {
        this.folderProblem = text;
        this.changed();
      },
      read: async (path, before) => {
        const bytes = statSync(path, { throwIfNoEntry: false })?.size ?? 0;
        await this.take({ name: basename(path), path }, { path, bytes, before });
      },
    });
  }

  private async take(source: PhotoSource, from: CameFrom): Promise<TestFrame> {
    const { bodies } = await this.parts.gear.load();
    const photo = await this.parts.reader.read(source, { bodies, preview: true });
    const frame = this.frames.put(photo, from);
    this.changed();
    return frame;
  }

  /** Decoded anew; null where that cannot be done: the thumbnail has to do. */
  private async pictureAt(path: string, name: string): Promise<Uint8Array | null> {
    try {
      return await this.parts.reader.picture({ name, path });
    } catch {
      return null;
    }
  }

  /** News comes several at a time, and from within what this desk itself puts on its shelf. */
  private refreshSoon() {
    if (this.isStale) return;
    this.isStale = true;
    setImmediate(() => {
      this.isStale = false;
      if (!this.isStopped && this.frames.refresh()) this.changed();
    });
  }

  private changed() {
    this.version++;
    for (const wake of [...this.waiting]) wake();
  }

  private news(): Promise<void> {
    return new Promise((resolve) => {
      const wake = () => {
        clearTimeout(timer);
        this.waiting.delete(wake);
        resolve();
      };
      const timer = setTimeout(wake, this.parts.patience_ms ?? PATIENCE_MS);
      this.waiting.add(wake);
    });
  }
}
