/** Where a desk keeps what it has read: the library, as far as a desk sees it. */
import type { TestFrame } from "../workbench/index.ts";
import type { ReadPhoto } from "./reader.ts";

export interface ShelfFrame {
  readonly frame: TestFrame;
  /** null where it was handed over */
  readonly path: string | null;
  /** of the file */
  readonly bytes: number;
}

export interface CameFrom {
  readonly path: string | null;
  readonly bytes: number;
  /** files that it stands for: the name that it had until now, the raw file beside it */
  readonly before: readonly string[];
}

export interface FrameShelf {
  /** of the shoot in hand the newest so many, in the order in which they came */
  ids(most: number): string[];
  /** of any shoot; null where it is not there any more */
  frame(id: string): ShelfFrame | null;
  /** Keeps it, in the shoot in hand unless it stands for a frame of another one. The same file again is the same frame; what
   * came from the same files before is replaced. */
  put(photo: ReadPhoto, from: CameFrom): TestFrame;
  /** Takes it out; the file stays. Whether it was there. */
  drop(id: string): boolean;
  /** JPEG; null where there is none */
  thumbnail(id: string): Uint8Array | null;
  /** Says when something is different: frames, or which shoot is in hand. The answer ends it. */
  subscribe(listener: () => void): () => void;
}

/** One that forgets, for a desk without a library. */
export class MemoryShelf implements FrameShelf {
  private kept: (ShelfFrame & { readonly small: Uint8Array | null })[] = [];

  constructor(private readonly now: () => Date) {}

  ids(most: number): string[] {
    return this.kept.slice(-most).map(({ frame }) => frame.id);
  }

  frame(id: string): ShelfFrame | null {
    return this.kept.find(({ frame }) => frame.id === id) ?? null;
  }

  put({ id, reading, thumbnail }: ReadPhoto, { path, bytes, before }: CameFrom): TestFrame {
    const there = this.frame(id);
    const arrivedAt = there?.frame.arrivedAt ?? this.now().toISOString();
    const frame = { id, name: reading.image.name, arrivedAt, reading };
    const row = { frame, path, bytes, small: thumbnail };
    const isReplaced = (old: string | null) => old !== null && (old === path || before.includes(old));
    this.kept = this.kept
      .filter((kept) => kept.frame.id === id || !isReplaced(kept.path))
      .map((kept) => (kept.frame.id === id ? row : kept));
    if (there === null) this.kept.push(row);
    return frame;
  }

  drop(id: string): boolean {
    const before = this.kept.length;
    this.kept = this.kept.filter(({ frame }) => frame.id !== id);
    return this.kept.length < before;
  }

  thumbnail(id: string): Uint8Array | null {
    return this.kept.find(({ frame }) => frame.id === id)?.small ?? null;
  }

  subscribe(): () => void {
    return () => {};
  }
}
