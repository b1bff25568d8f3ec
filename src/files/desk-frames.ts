/** The frames on a desk: the newest of the shoot in hand, in the order in which they were taken, and the pictures of those that
 * were seen last. */
import { existsSync } from "node:fs";
import type { TestFrame } from "../workbench/index.ts";
import { takenBefore } from "./desk-order.ts";
import type { CameFrom, FrameShelf, ShelfFrame } from "./desk-shelf.ts";
import type { ReadPhoto } from "./reader.ts";

/** A long session's. Each is a page of numbers and a picture of about a quarter of a megabyte: some 100 MB. */
export const MOST_FRAMES = 300;

export class DeskFrames {
  private kept = new Map<string, ShelfFrame>();
  private readonly previews = new Map<string, Uint8Array>();
  /** those whose file is not where it was */
  private readonly away = new Set<string>();

  constructor(private readonly shelf: FrameShelf) {
    this.refresh();
  }

  put(photo: ReadPhoto, from: CameFrom): TestFrame {
    const frame = this.shelf.put(photo, from);
    this.kept.delete(frame.id);
    if (photo.preview !== null) this.see(frame.id, photo.preview);
    this.refresh();
    return frame;
  }

  /** Takes up what the shelf has now. Whether other frames are on the desk than before. */
  refresh(): boolean {
    const kept = new Map<string, ShelfFrame>();
    for (const id of this.shelf.ids(MOST_FRAMES)) {
      const frame = this.kept.get(id) ?? this.shelf.frame(id);
      if (frame === null) continue;
      if (!this.kept.has(id)) this.checkFile(frame);
      kept.set(id, frame);
    }
    const isOther = kept.size !== this.kept.size || [...kept.keys()].some((id) => !this.kept.has(id));
    this.kept = kept;
    return isOther;
  }

  list(): TestFrame[] {
    return [...this.kept.values()]
      .map((kept) => this.told(kept))
      .sort((a, b) => takenBefore(takenOf(a), takenOf(b)));
  }

  /** On the desk, or on its shelf; null where it is neither. */
  find(id: string): ShelfFrame | null {
    return this.kept.get(id) ?? this.shelf.frame(id);
  }

  /** Those on the desk whose file is not where it was. */
  lost(): ShelfFrame[] {
    return [...this.kept.values()].filter(({ frame }) => this.away.has(frame.id));
  }

  /** Whether that is other than it was thought. */
  checkFile({ frame, path }: ShelfFrame): boolean {
    const isAway = path !== null && !existsSync(path);
    if (isAway === this.away.has(frame.id)) return false;
    if (isAway) this.away.add(frame.id);
    else this.away.delete(frame.id);
    return true;
  }

  preview(id: string): Uint8Array | null {
    return this.previews.get(id) ?? null;
  }

  /** Keeps a picture until many others were looked at. */
  see(id: string, preview: Uint8Array): void {
    this.previews.delete(id);
    this.previews.set(id, preview);
    for (const oldest of this.previews.keys()) {
      if (this.previews.size <= MOST_FRAMES) break;
      this.previews.delete(oldest);
    }
  }

  thumbnail(id: string): Uint8Array | null {
    return this.shelf.thumbnail(id);
  }

  /** Whether something was taken off. */
  drop(id: string): boolean {
    this.previews.delete(id);
    const isDropped = this.shelf.drop(id);
    this.refresh();
    return isDropped;
  }

  private told({ frame, path }: ShelfFrame): TestFrame {
    if (!this.away.has(frame.id)) return frame;
    return {
      ...frame,
      away: `the file is not at ${path} any more; put it back, or watch the folder that it is in now`,
    };
  }
}

function takenOf({ name, arrivedAt, reading }: TestFrame) {
  return { name, arrivedAt, takenAt: reading.image.exif.takenAt };
}
