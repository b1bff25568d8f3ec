/** Writes a ZIP archive (APPNOTE 6.3.10; ZIP64 where it is large) a piece at a time. Files are stored as they are, with size
 * and checksum before their bytes, and without times: the same files make the same bytes on every machine. */
import fs from "node:fs";
import { crc32 } from "node:zlib";

type Bytes = Uint8Array | null;

/** A file of an archive: its bytes when they are asked for (null: it is left out), or a file that is copied in. */
export type ZipPart = { readonly name: string } & (
  | { readonly bytes: () => Bytes | Promise<Bytes> }
  | { readonly path: string; readonly size: number }
);

/** Puts bytes at a place of the file that is being written. */
export type WriteAt = (bytes: Uint8Array, position: number) => void;

interface Written {
  readonly name: Buffer;
  readonly crc: number;
  readonly size: number;
  readonly offset: number;
}

const PIECE_BYTES = 1024 * 1024;
const MOST_32 = 0xffffffff;
const MOST_16 = 0xffff;
/** 1980-01-01, the first day that the format has */
const DATE = 0x21;
/** names are UTF-8 */
const FLAGS = 0x800;
const PLAIN = 20;
const LARGE = 45;
/** Unix, a file that everybody may read */
const MADE_BY = (3 << 8) | 63;
const ATTRIBUTES = 0o100644 * 0x10000;

/** The length of the whole archive. Holds one piece of a file at a time.
 * Errors  those of reading and writing; Error where a file changes its size meanwhile; `keepGoing` may throw between pieces */
export async function writeZip(
  parts: Iterable<ZipPart> | AsyncIterable<ZipPart>,
  write: WriteAt,
  keepGoing: (written_bytes: number) => void = () => {},
): Promise<number> {
  const written: Written[] = [];
  let end = 0;
  for await (const part of parts) {
    const name = Buffer.from(part.name);
    const offset = end;
    let crc = 0;
    let size = 0;
    const put = (bytes: Uint8Array, dataStart: number) => {
      crc = crc32(bytes, crc);
      write(bytes, dataStart + size);
      size += bytes.length;
      keepGoing(offset + size);
    };
    const expected = "path" in part ? part.size : null;
    const bytes = "bytes" in part ? await part.bytes() : null;
    if (bytes === null && expected === null) continue;
    const dataStart = offset + localHeader(name, 0, expected ?? bytes?.length ?? 0).length;
    if (bytes !== null) put(bytes, dataStart);
    else if ("path" in part) {
      for await (const piece of fs.createReadStream(part.path, { highWaterMark: PIECE_BYTES }))
        put(piece as Buffer, dataStart);
      if (size !== expected) throw new Error(`${part.path} changed while it was read`);
    }
    write(localHeader(name, crc, size), offset);
    written.push({ name, crc, size, offset });
    end = dataStart + size;
  }
  const directory = end;
  for (const entry of written) {
    const record = directoryRecord(entry);
    write(record, end);
    end += record.length;
  }
  const tail = endRecords(written.length, directory, end - directory);
  write(tail, end);
  return end + tail.length;
}

function localHeader(name: Buffer, crc: number, size: number): Buffer {
  const isLarge = size >= MOST_32;
  const extra = isLarge ? largeField([size, size]) : Buffer.alloc(0);
  const header = Buffer.alloc(30);
  header.writeUInt32LE(0x04034b50, 0);
  header.writeUInt16LE(isLarge ? LARGE : PLAIN, 4);
  header.writeUInt16LE(FLAGS, 6);
  header.writeUInt16LE(DATE, 12);
  header.writeUInt32LE(crc, 14);
  header.writeUInt32LE(Math.min(size, MOST_32), 18);
  header.writeUInt32LE(Math.min(size, MOST_32), 22);
  header.writeUInt16LE(name.length, 26);
  header.writeUInt16LE(extra.length, 28);
  return Buffer.concat([header, name, extra]);
}

function directoryRecord({ name, crc, size, offset }: Written): Buffer {
  const large = [...(size >= MOST_32 ? [size, size] : []), ...(offset >= MOST_32 ? [offset] : [])];
  const extra = large.length > 0 ? largeField(large) : Buffer.alloc(0);
  const record = Buffer.alloc(46);
  record.writeUInt32LE(0x02014b50, 0);
  record.writeUInt16LE(MADE_BY, 4);
  record.writeUInt16LE(large.length > 0 ? LARGE : PLAIN, 6);
  record.writeUInt16LE(FLAGS, 8);
  record.writeUInt16LE(DATE, 14);
  record.writeUInt32LE(crc, 16);
  record.writeUInt32LE(Math.min(size, MOST_32), 20);
  record.writeUInt32LE(Math.min(size, MOST_32), 24);
  record.writeUInt16LE(name.length, 28);
  record.writeUInt16LE(extra.length, 30);
  record.writeUInt32LE(ATTRIBUTES, 38);
  record.writeUInt32LE(Math.min(offset, MOST_32), 42);
  return Buffer.concat([record, name, extra]);
}

/** What does not fit into 32 bits, in the order of the format. */
function largeField(values: readonly number[]): Buffer {
  const field = Buffer.alloc(4 + 8 * values.length);
  field.writeUInt16LE(1, 0);
  field.writeUInt16LE(8 * values.length, 2);
  for (const [i, value] of values.entries()) field.writeBigUInt64LE(BigInt(value), 4 + 8 * i);
  return field;
}

function endRecords(count: number, directory: number, size: number): Buffer {
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(Math.min(count, MOST_16), 8);
  end.writeUInt16LE(Math.min(count, MOST_16), 10);
  end.writeUInt32LE(Math.min(size, MOST_32), 12);
  end.writeUInt32LE(Math.min(directory, MOST_32), 16);
  if (count < MOST_16 && size < MOST_32 && directory < MOST_32) return end;
  const large = Buffer.alloc(56);
  large.writeUInt32LE(0x06064b50, 0);
  large.writeBigUInt64LE(44n, 4);
  large.writeUInt16LE(MADE_BY, 12);
  large.writeUInt16LE(LARGE, 14);
  large.writeBigUInt64LE(BigInt(count), 24);
  large.writeBigUInt64LE(BigInt(count), 32);
  large.writeBigUInt64LE(BigInt(size), 40);
  large.writeBigUInt64LE(BigInt(directory), 48);
  const locator = Buffer.alloc(20);
  locator.writeUInt32LE(0x07064b50, 0);
  locator.writeBigUInt64LE(BigInt(directory + size), 8);
  locator.writeUInt32LE(1, 16);
  return Buffer.concat([large, locator, end]);
}
