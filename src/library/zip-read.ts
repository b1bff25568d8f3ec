/** Reads ZIP archives that come from anywhere: nothing is believed of them, and nothing of them is held whole. */
import fs from "node:fs";
import { Readable } from "node:stream";
import { crc32 } from "node:zlib";
import yauzl, { type Entry, type ZipFile } from "yauzl";
import { folded, isSafeName } from "../shoots/index.ts";
import { WorkError } from "../workbench/index.ts";

export interface ZipEntries {
  /** names of files, in the order of the archive */
  readonly names: readonly string[];
  has(name: string): boolean;
  /** 0 where there is none of that name */
  size(name: string): number;
  /** Errors  WorkError where there is none, it is larger, or its bytes are not those that were put in */
  bytes(name: string, most: number): Promise<Buffer>;
  /** as `bytes`, handed on piece by piece */
  pieces(name: string, most: number): AsyncGenerator<Buffer>;
  close(): void;
}

const MOST_FILES = 500_000;
const PIECE_BYTES = 256 * 1024;
/** Documents are small; what unpacks to more than so many times its size is made to fill disks. */
const MOST_RATIO = 200;
const ALLOWANCE_BYTES = 4 * 1024 * 1024;
/** of the system's own kind of file: a link */
const LINK = 0o120000;
const KIND = 0o170000;

/** Errors  WorkError: no archive, damaged, or with names and sizes that are not taken */
export async function openZip(path: string): Promise<ZipEntries> {
  const called = `the archive ${path}`;
  const refuse = (problem: string, cure = "export it again from where it came") =>
    new WorkError(`${called} ${problem}`, cure);
  const damaged = (error: unknown) =>
    refuse(
      `is damaged (${error instanceof Error ? error.message : String(error)})`,
      "copy or export it again",
    );
  const file = new OpenFile(path);
  let zip: ZipFile;
  try {
    zip = await yauzl.fromRandomAccessReaderPromise(file, file.size, {
      autoClose: false,
      strictFileNames: true,
    });
  } catch {
    file.end();
    throw refuse("is no ZIP archive, or is cut off", "check the name, or export it again");
  }
  const entries = new Map<string, Entry>();
  try {
    let [packed, unpacked] = [0, 0];
    const seen = new Set<string>();
    for (const entry of await listed(zip)) {
      const { fileName: name } = entry;
      const isFolder = name.endsWith("/");
      if (!isSafeName(isFolder ? name.slice(0, -1) : name))
        throw refuse(`names a file ${JSON.stringify(name.slice(0, 80))}, which is not taken anywhere`);
      if (((entry.externalFileAttributes >>> 16) & KIND) === LINK) throw refuse(`has a link in it (${name})`);
      if (isFolder) continue;
      if (seen.has(folded(name))) throw refuse(`has two files of one name (${name})`);
      seen.add(folded(name));
      if (entry.isEncrypted()) throw refuse("is encrypted", "pack it without a password");
      if (!entry.canDecodeFileData())
        throw refuse(`is packed in a way that is not read (${name})`, "pack it by the common way, deflate");
      packed += entry.compressedSize;
      unpacked += entry.uncompressedSize;
      if (entry.uncompressedSize > MOST_RATIO * entry.compressedSize + ALLOWANCE_BYTES || packed > file.size)
        throw refuse(`unpacks to far more than it is (${name})`);
      entries.set(name, entry);
    }
    if (unpacked > MOST_RATIO * file.size + ALLOWANCE_BYTES) throw refuse("unpacks to far more than it is");
  } catch (error) {
    file.end();
    throw error instanceof WorkError ? error : damaged(error);
  }
  async function* pieces(name: string, most: number): AsyncGenerator<Buffer> {
    const entry = entries.get(name);
    if (!entry) throw refuse(`has no ${name}`);
    if (entry.uncompressedSize > most)
      throw refuse(
        `has ${name} of ${megabytes(entry.uncompressedSize)}; at most ${megabytes(most)} are read`,
      );
    let [crc, size] = [0, 0];
    try {
      const stream: Readable = await zip.openReadStreamPromise(entry);
      for await (const piece of stream) {
        size += (piece as Buffer).length;
        if (size > entry.uncompressedSize) throw new Error(`${name} is longer than it says`);
        crc = crc32(piece as Buffer, crc);
        yield piece as Buffer;
      }
    } catch (error) {
      throw error instanceof WorkError ? error : damaged(error);
    }
    if (size !== entry.uncompressedSize || crc !== entry.crc32)
      throw damaged(new Error(`${name} has not the bytes that were put in`));
  }
  return {
    names: [...entries.keys()],
    has: (name) => entries.has(name),
    size: (name) => entries.get(name)?.uncompressedSize ?? 0,
    pieces,
    async bytes(name, most) {
      const all: Buffer[] = [];
      for await (const piece of pieces(name, most)) all.push(piece);
      return Buffer.concat(all);
    },
    close: () => file.end(),
  };
}

function megabytes(bytes: number): string {
  return `${Math.ceil(bytes / 1e6)} MB`;
}

/** All entries, at most so many: an archive may claim any number. */
function listed(zip: ZipFile): Promise<Entry[]> {
  if (zip.entryCount > MOST_FILES) throw new Error(`it claims ${zip.entryCount} files`);
  return new Promise((resolve, reject) => {
    const entries: Entry[] = [];
    zip.on("entry", (entry: Entry) => {
      entries.push(entry);
      zip.readEntry();
    });
    zip.on("end", () => resolve(entries));
    zip.on("error", reject);
    zip.readEntry();
  });
}

/** The file, read only where it is: an archive may claim any place, and a system refuses some of them by throwing. */
class OpenFile extends yauzl.RandomAccessReader {
  readonly size: number;
  private readonly file: number;
  private isOpen = true;

  constructor(path: string) {
    super();
    this.file = fs.openSync(path, "r");
    this.size = fs.fstatSync(this.file).size;
  }

  override read(
    buffer: Buffer,
    offset: number,
    length: number,
    position: number,
    callback: (error: Error | null) => void,
  ): void {
    if (!this.isOpen || !(position >= 0 && position + length <= this.size)) {
      setImmediate(callback, new Error("it points outside of itself"));
      return;
    }
    fs.read(this.file, buffer, offset, length, position, (error, read) =>
      callback(error ?? (read === length ? null : new Error("it ends too early"))),
    );
  }

  // not a stream of Node's own: ending one early would close the file for all others
  override createReadStream({ start, end }: { start: number; end: number }): Readable {
    return Readable.from(this.range(start, end), { objectMode: false });
  }

  private async *range(start: number, end: number): AsyncGenerator<Buffer> {
    for (let at = start; at < end; ) {
      const buffer = Buffer.allocUnsafe(Math.min(PIECE_BYTES, end - at));
      await new Promise<void>((resolve, reject) => {
        this.read(buffer, 0, buffer.length, at, (error) => (error ? reject(error) : resolve()));
      });
      yield buffer;
      at += buffer.length;
    }
  }

  end(): void {
    if (this.isOpen) fs.closeSync(this.file);
    this.isOpen = false;
  }
}
