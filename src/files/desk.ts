/** Where test frames come in: handed over, or from a watched folder. Files are read and left as they are. */
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
import type { PhotoReader, PhotoSource } from "./reader.ts";
import { type Watch, watchFolder } from "./watch.ts";

export interface Desk extends FrameDesk {
  /** JPEG for the screen; null where there is no such frame */
  picture(id: string): Uint8Array | null;
  stop(): Promise<void>;
}

export interface DeskParts {
  readonly reader: PhotoReader;
  readonly gear: Pick<GearStore, "load">;
  readonly now: () => Date;
  /** how long a question for news waits */
  readonly patience_ms?: number;
}

/** Browsers and what stands between give up on a question after half a minute. */
const PATIENCE_MS = 25_000;

export function createDesk(parts: DeskParts): Desk {
  return new OneDesk(parts);
}

class OneDesk implements Desk {
  private readonly frames = new DeskFrames();
  private readonly handed = new Set<PendingFrame>();
  private readonly waiting = new Set<() => void>();
  private intake: Intake | null = null;
  private watching: Watch | null = null;
  private folderProblem: string | null = null;
  private version: number;
  private isStopped = false;

  constructor(private readonly parts: DeskParts) {
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
      return await this.take({ name, bytes }, null, []);
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
    await before?.stop();
  }

  async forget(id: string): Promise<void> {
    if (!this.frames.drop(id)) throw new WorkError("there is no such frame on the desk", "reload the page");
    this.changed();
  }

  picture(id: string): Uint8Array | null {
    return this.frames.preview(id);
  }

  async stop(): Promise<void> {
    this.isStopped = true;
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
        await this.take({ name: basename(path), path }, path, before);
      },
    });
  }

  private async take(
    source: PhotoSource,
    path: string | null,
    before: readonly string[],
  ): Promise<TestFrame> {
    const { bodies } = await this.parts.gear.load();
    const photo = await this.parts.reader.read(source, { bodies, preview: true });
    for (const other of before) this.frames.dropFile(other);
    const frame = this.frames.put(photo, path, this.parts.now());
    this.changed();
    return frame;
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
