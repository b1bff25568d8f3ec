/** The directories of a TIFF-structured file, as raw files and Exif have them. Source: TIFF 6.0, section 2; Exif 2.32.
 * Nothing is read outside the bytes, loops end, and what does not fit is left out. */

export interface TiffEntry {
  readonly kind: number;
  readonly count: number;
  /** where its values lie */
  readonly at: number;
}

export type Directory = ReadonlyMap<number, TiffEntry>;

const MOST_DIRECTORIES = 64;
const MOST_ENTRIES = 2000;
const SUB_DIRECTORIES = 0x014a;
/** bytes of BYTE, ASCII, SHORT, LONG, RATIONAL, SBYTE, UNDEFINED, SSHORT, SLONG, SRATIONAL, FLOAT, DOUBLE, IFD */
const SIZES = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4];

export class TiffFile {
  readonly #view: DataView;
  readonly #isLittle: boolean;
  readonly directories: readonly Directory[];
  /** tags of entries that were left out: they claim more than the file holds */
  readonly unfit = new Set<number>();

  constructor(bytes: Uint8Array) {
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
    this.#isLittle = bytes[0] === 0x49;
    this.directories = bytes.length >= 8 ? this.#walk() : [];
  }

  /** Whole numbers of an entry, at most so many; none where it is of another kind. */
  numbers(entry: TiffEntry | undefined, most = 32): number[] {
    if (!entry || ![1, 3, 4, 13].includes(entry.kind)) return [];
    const size = SIZES[entry.kind];
    return Array.from({ length: Math.min(entry.count, most) }, (_, i) => {
      const at = entry.at + size * i;
      if (size === 1) return this.#view.getUint8(at);
      return size === 2 ? this.#view.getUint16(at, this.#isLittle) : this.#view.getUint32(at, this.#isLittle);
    });
  }

  /** The chain from the header, each followed by its sub-directories. */
  #walk(): Directory[] {
    const found: Directory[] = [];
    const seen = new Set<number>();
    const waiting = [this.#view.getUint32(4, this.#isLittle)];
    while (waiting.length > 0 && found.length < MOST_DIRECTORIES) {
      const at = waiting.shift() as number;
      if (at < 8 || at + 2 > this.#view.byteLength || seen.has(at)) continue;
      seen.add(at);
      const directory = new Map<number, TiffEntry>();
      const next = this.readDirectory(at, directory);
      found.push(directory);
      waiting.unshift(...this.numbers(directory.get(SUB_DIRECTORIES)), next);
    }
    return found;
  }

  /** Puts its entries into `out`; gives where the next one lies, 0 where none does. */
  readDirectory(start: number, out: Map<number, TiffEntry>): number {
    const view = this.#view;
    if (start + 2 > view.byteLength) return 0;
    const count = Math.min(MOST_ENTRIES, view.getUint16(start, this.#isLittle));
    let at = start + 2;
    for (let i = 0; i < count; i++, at += 12) {
      if (at + 12 > view.byteLength) return 0;
      const kind = view.getUint16(at + 2, this.#isLittle);
      const many = view.getUint32(at + 4, this.#isLittle);
      const size = (SIZES[kind] ?? 0) * many;
      const place = size <= 4 ? at + 8 : view.getUint32(at + 8, this.#isLittle);
      const tag = view.getUint16(at, this.#isLittle);
      if (size > 0 && place + size <= view.byteLength) out.set(tag, { kind, count: many, at: place });
      else this.unfit.add(tag);
    }
    return at + 4 <= view.byteLength ? view.getUint32(at, this.#isLittle) : 0;
  }
}
