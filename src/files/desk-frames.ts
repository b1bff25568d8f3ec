/** The frames on a desk: in the order they were taken, so many at most. */
import type { TestFrame } from "../workbench/index.ts";
import type { ReadPhoto } from "./reader.ts";

/** A long session's. Each is a page of numbers and a picture of about a quarter of a megabyte: some 100 MB. */
export const MOST_FRAMES = 300;

interface Kept {
  readonly frame: TestFrame;
  readonly preview: Uint8Array | null;
  /** files it came from; none where it was handed in */
  readonly path: string | null;
  readonly takenAt: string;
  readonly number: number;
}

export class DeskFrames {
  private kept: Kept[] = [];
  private count = 0;

  /** Puts a photograph on the desk. What came from the same file before is replaced; past `MOST_FRAMES` the one that came
   * first goes. */
  put({ id, reading, preview }: ReadPhoto, path: string | null, now: Date): TestFrame {
    const there = this.kept.find(({ frame }) => frame.id === id);
    const arrivedAt = there?.frame.arrivedAt ?? now.toISOString();
    const frame = { id, name: reading.image.name, arrivedAt, reading };
    const number = there?.number ?? this.count++;
    const takenAt = reading.image.exif.takenAt ?? localTime(new Date(arrivedAt));
    this.kept = this.kept.filter((k) => k.frame.id !== id && (path === null || k.path !== path));
    this.kept.push({ frame, preview, path, takenAt, number });
    this.kept.sort(inOrder);
    if (this.kept.length > MOST_FRAMES) {
      const oldest = this.kept.reduce((a, b) => (b.number < a.number ? b : a));
      this.kept = this.kept.filter((k) => k !== oldest);
    }
    return frame;
  }

  list(): TestFrame[] {
    return this.kept.map(({ frame }) => frame);
  }

  preview(id: string): Uint8Array | null {
    return this.kept.find(({ frame }) => frame.id === id)?.preview ?? null;
  }

  hasFile(path: string): boolean {
    return this.kept.some((k) => k.path === path);
  }

  /** Whether something was taken off. */
  drop(id: string): boolean {
    const before = this.kept.length;
    this.kept = this.kept.filter(({ frame }) => frame.id !== id);
    return this.kept.length < before;
  }

  dropFile(path: string): boolean {
    const before = this.kept.length;
    this.kept = this.kept.filter((k) => k.path !== path);
    return this.kept.length < before;
  }
}

/** By the camera's clock, then by number in the name as people count, then as they came. */
function inOrder(a: Kept, b: Kept): number {
  if (a.takenAt !== b.takenAt) return a.takenAt < b.takenAt ? -1 : 1;
  return NAMES.compare(a.frame.name, b.frame.name) || a.number - b.number;
}

const NAMES = new Intl.Collator("en", { numeric: true });

/** A camera writes local time without a zone: files without one are put beside it by this machine's clock. */
function localTime(at: Date): string {
  return new Date(at.getTime() - at.getTimezoneOffset() * 60_000).toISOString().slice(0, -1);
}
