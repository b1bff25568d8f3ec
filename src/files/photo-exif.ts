/** What a camera wrote into its file. None of it is believed further than it can be true. */
import { type PhotoExif, plainText } from "../testframe/index.ts";
import { type TiffEntry, TiffFile } from "./photo-tiff.ts";

export interface ReadExif {
  readonly exif: PhotoExif;
  /** what it says of the colours: "sRGB", "Adobe RGB (1998)"; null where it does not say */
  readonly colour: "sRGB" | "Adobe RGB (1998)" | null;
}

/** Exif 2.32 and DNG 1.7, by number: the library's names for some differ from the standards'. */
const TAG = {
  make: 0x010f,
  model: 0x0110,
  shutter: 0x829a,
  fNumber: 0x829d,
  iso: 0x8827,
  takenAt: 0x9003,
  shutterApex: 0x9201,
  apertureApex: 0x9202,
  flash: 0x9209,
  focalLength: 0x920a,
  fraction: 0x9291,
  colourSpace: 0xa001,
  focalLength35: 0xa405,
  serial: 0xa431,
  lens: 0xa434,
  dngSerial: 0xc62f,
  interop: 0x0001,
} as const;
const WANTED: readonly number[] = Object.values(TAG);
const EXIF_DIRECTORY = 0x8769;
const INTEROP_DIRECTORY = 0xa005;

type Tags = Record<number, unknown>;

/** `blocks` are TIFF-structured, as Exif is; later ones fill what earlier ones leave open. */
export async function readExif(blocks: readonly Uint8Array[]): Promise<ReadExif> {
  const tags: Tags = {};
  for (const block of blocks)
    for (const part of await parse(block)) for (const tag of WANTED) tags[tag] ??= part[tag];
  return { exif: exifOf(tags), colour: colourOf(tags) };
}

async function parse(given: Uint8Array): Promise<Tags[]> {
  const block = plainBlock(given);
  if (!block || !isBounded(block)) return [];
  const { default: exifr } = await import("exifr");
  // each directory by itself: picked for all at once, the library looks for each only where the standard puts it
  const pick = [...WANTED];
  try {
    const found = await exifr.parse(block, {
      mergeOutput: false,
      translateKeys: false,
      translateValues: false,
      reviveValues: false,
      ifd0: { pick },
      exif: { pick },
      interop: { pick },
      gps: false,
      ifd1: false,
      makerNote: false,
      userComment: false,
      xmp: false,
      icc: false,
      iptc: false,
      jfif: false,
      ihdr: false,
    } as never);
    return [found?.ifd0, found?.exif, found?.interop].filter((part) => part);
  } catch {
    // a picture is as good without: what is missing shows as not known
    return [];
  }
}

/** Without the letters that JPEG puts before it, and with the number of TIFF where a maker writes another. */
function plainBlock(bytes: Uint8Array): Uint8Array | null {
  const block = String.fromCharCode(...bytes.subarray(0, 6)) === "Exif\0\0" ? bytes.slice(6) : bytes;
  if (block.length < 8) return null;
  const [low, high] = block[0] === 0x49 ? [42, 0] : [0, 42];
  if (block[2] === low && block[3] === high) return block;
  const copy = block.slice();
  copy.set([low, high], 2);
  return copy;
}

/** The library allots what an entry claims: one that claims more than there is never reaches it. */
function isBounded(block: Uint8Array): boolean {
  const file = new TiffFile(block);
  const [first] = file.directories;
  if (!first) return false;
  const exif = new Map<number, TiffEntry>();
  for (const at of file.numbers(first.get(EXIF_DIRECTORY), 1)) file.readDirectory(at, exif);
  for (const at of file.numbers(exif.get(INTEROP_DIRECTORY), 1)) file.readDirectory(at, new Map());
  return !WANTED.some((tag) => file.unfit.has(tag));
}

function exifOf(tags: Tags): PhotoExif {
  const shutter =
    amount(tags[TAG.shutter], 1e-6, 86400) ?? apex(tags[TAG.shutterApex], (v) => 2 ** -v, 1e-6, 86400);
  return {
    make: text(tags[TAG.make]),
    model: text(tags[TAG.model]),
    serial: text(tags[TAG.serial] ?? tags[TAG.dngSerial]),
    lens: text(tags[TAG.lens]),
    fNumber:
      amount(tags[TAG.fNumber], 0.5, 128) ?? apex(tags[TAG.apertureApex], (v) => 2 ** (v / 2), 0.5, 128),
    shutter,
    iso: amount(tags[TAG.iso], 1, 1e7),
    focalLength: amount(tags[TAG.focalLength], 0.5, 5000),
    focalLength35: amount(tags[TAG.focalLength35], 0.5, 5000),
    flash: flash(tags[TAG.flash]),
    takenAt: takenAt(tags[TAG.takenAt], tags[TAG.fraction]),
  };
}

function amount(value: unknown, least: number, most: number): number | null {
  const first = isList(value) ? value[0] : value;
  return typeof first === "number" && first >= least && first <= most ? first : null;
}

const isList = (value: unknown): value is ArrayLike<unknown> =>
  Array.isArray(value) || ArrayBuffer.isView(value);

function apex(value: unknown, of: (value: number) => number, least: number, most: number): number | null {
  const given = amount(value, -30, 30);
  return given === null ? null : amount(of(given), least, most);
}

function text(value: unknown): string | null {
  if (typeof value !== "string" && typeof value !== "number") return null;
  return plainText(String(value), 64) || null;
}

/** Its first bit says whether it fired. Exif 2.32, tag 37385. */
function flash(value: unknown): boolean | null {
  const bits = amount(value, 0, 65535);
  return bits === null ? null : (bits & 1) === 1;
}

/** "2026:11:26 10:12:30" and "25" to "2026-11-26T10:12:30.25"; null where there is no such time. */
function takenAt(value: unknown, fraction: unknown): string | null {
  const parts = /^(\d{4}):(\d\d):(\d\d) (\d\d):(\d\d):(\d\d)/.exec(typeof value === "string" ? value : "");
  if (!parts) return null;
  const [year, month, day, hour, minute, second] = parts.slice(1).map(Number);
  if (!(year >= 1970 && month >= 1 && month <= 12 && day >= 1 && day <= 31)) return null;
  if (hour > 23 || minute > 59 || second > 60) return null;
  const part = /^\d{1,6}/.exec(text(fraction) ?? "")?.[0];
  return `${parts[1]}-${parts[2]}-${parts[3]}T${parts[4]}:${parts[5]}:${parts[6]}${part ? `.${part}` : ""}`;
}

/** DCF 2.0: 1 is sRGB; Adobe RGB is "uncalibrated" with R03 for interoperability. */
function colourOf(tags: Tags): ReadExif["colour"] {
  if (tags[TAG.colourSpace] === 1) return "sRGB";
  if (tags[TAG.colourSpace] === 2 || text(tags[TAG.interop]) === "R03") return "Adobe RGB (1998)";
  return null;
}
