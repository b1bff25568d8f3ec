/** The JPEG pictures that cameras put into their raw files. */
import { type Directory, TiffFile } from "./photo-tiff.ts";

export interface EmbeddedJpeg {
  readonly bytes: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/** As many beginnings of a JPEG as are looked into. */
const MOST_STARTS = 20_000;

const TAG = {
  compression: 0x0103,
  photometric: 0x0106,
  stripOffsets: 0x0111,
  stripLengths: 0x0117,
  jpegOffset: 0x0201,
  jpegLength: 0x0202,
  /** Panasonic's */
  jpegFromRaw: 0x002e,
  dngVersion: 0xc612,
};
/** Colour filter array, and linear raw (DNG 1.7, PhotometricInterpretation). */
const RAW_PHOTOMETRIC = [32803, 34892];
/** Ways of packing that only raw files use: Sony, Nikon, Pentax, Samsung. */
const RAW_COMPRESSION = [32767, 34713, 65535, 32770];

/** Whether a TIFF-structured file holds a sensor's own numbers. */
export function isRawTiff(bytes: Uint8Array): boolean {
  const file = new TiffFile(bytes);
  const has = (directory: Directory, tag: number, values: readonly number[]) =>
    file.numbers(directory.get(tag), 1).some((value) => values.includes(value));
  return file.directories.some(
    (directory) =>
      directory.has(TAG.dngVersion) ||
      has(directory, TAG.photometric, RAW_PHOTOMETRIC) ||
      has(directory, TAG.compression, RAW_COMPRESSION),
  );
}

/** Shorter ones than this, pixels, are for the camera's own screen. */
const THUMBNAIL = 1000;

/** The largest one; null where there is none. The directories say where they lie; where they name a thumbnail alone, the
 * larger one lies in notes of the maker's own or in boxes of a film's kind: it is searched for by how a JPEG begins. */
export function largestJpeg(bytes: Uint8Array, isTiff: boolean): EmbeddedJpeg | null {
  const named = largest(isTiff ? told(bytes) : []);
  if (named && Math.max(named.width, named.height) >= THUMBNAIL) return named;
  return largest(searched(bytes)) ?? named;
}

function largest(found: Iterable<EmbeddedJpeg>): EmbeddedJpeg | null {
  let best: EmbeddedJpeg | null = null;
  for (const jpeg of found) if (!best || jpeg.width * jpeg.height > best.width * best.height) best = jpeg;
  return best;
}

function* told(bytes: Uint8Array): Generator<EmbeddedJpeg> {
  const file = new TiffFile(bytes);
  for (const directory of file.directories) {
    const number = (tag: number) => file.numbers(directory.get(tag), 2);
    const places: [at: number | undefined, length: number | undefined][] = [
      [number(TAG.jpegOffset)[0], number(TAG.jpegLength)[0]],
    ];
    const strips = number(TAG.stripOffsets);
    if (strips.length === 1) places.push([strips[0], number(TAG.stripLengths)[0]]);
    const inside = directory.get(TAG.jpegFromRaw);
    if (inside) places.push([inside.at, inside.count]);
    for (const [at, length] of places)
      if (at !== undefined && length !== undefined) {
        const jpeg = jpegAt(bytes, at, length);
        if (jpeg) yield jpeg;
      }
  }
}

function* searched(bytes: Uint8Array): Generator<EmbeddedJpeg> {
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length);
  const start = Buffer.from([0xff, 0xd8, 0xff]);
  let at = buffer.indexOf(start);
  for (let count = 0; at >= 0 && count < MOST_STARTS; count++) {
    const jpeg = jpegAt(bytes, at, bytes.length - at);
    if (jpeg) yield jpeg;
    at = buffer.indexOf(start, at + 3);
  }
}

/** Its size by its frame header; null where it is none that shows a picture (raw files pack sensor data as lossless JPEG). */
function jpegAt(bytes: Uint8Array, start: number, length: number): EmbeddedJpeg | null {
  const end = Math.min(bytes.length, start + length);
  if (bytes[start] !== 0xff || bytes[start + 1] !== 0xd8) return null;
  for (let at = start + 2; at + 9 < end && bytes[at] === 0xff; ) {
    const marker = bytes[at + 1];
    if (marker === 0xff) {
      at++;
      continue;
    }
    const size = (bytes[at + 2] << 8) | bytes[at + 3];
    if (size < 2) return null;
    if (marker >= 0xc0 && marker <= 0xc2) {
      const height = (bytes[at + 5] << 8) | bytes[at + 6];
      const width = (bytes[at + 7] << 8) | bytes[at + 8];
      if (bytes[at + 4] !== 8 || width === 0 || height === 0) return null;
      return { bytes: bytes.subarray(start, end), width, height };
    }
    // other frames (lossless among them), a scan or an end before any frame
    if (
      (marker >= 0xc3 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc) ||
      (marker >= 0xd8 && marker <= 0xda)
    )
      return null;
    at += 2 + size;
  }
  return null;
}
