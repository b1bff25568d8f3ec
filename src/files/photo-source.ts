/** Where in a file the picture lies that is read. */
import type { Orientation, PhotoKind } from "../testframe/index.ts";
import { exifBoxes } from "./photo-boxes.ts";
import { orientationOf } from "./photo-head.ts";
import { type FileKind, sniffKind, wrongEnding } from "./photo-kind.ts";
import { LARGEST_FILE, photoProblem, sizeWords } from "./photo-problem.ts";
import { isRawTiff, largestJpeg } from "./photo-raw.ts";
import { TiffFile } from "./photo-tiff.ts";

export interface PictureSource {
  readonly kind: PhotoKind;
  readonly bytes: Uint8Array;
  /** of the file round it: Exif, and how the camera was held */
  readonly exif: readonly Uint8Array[];
  readonly orientation: Orientation | null;
  readonly notes: readonly string[];
}

const ORIENTATION = 0x0112;

const KIND_WORDS: Record<FileKind, string> = {
  jpeg: "a JPEG file",
  png: "a PNG file",
  tiff: "a TIFF file",
  webp: "a WebP file",
  heic: "a HEIC file",
  "tiff raw": "a raw file",
  cr3: "a raw file",
  raf: "a raw file",
};

/** Errors  WorkError: empty, too large, no photograph, a raw file without a JPEG */
export function findPicture(name: string, bytes: Uint8Array): PictureSource {
  if (bytes.length === 0) throw photoProblem(name, "is empty", "copy it again from the card");
  if (bytes.length > LARGEST_FILE) {
    const [size, most] = [bytes.length, LARGEST_FILE].map((count) => `${Math.ceil(count / 2 ** 20)} MB`);
    throw photoProblem(name, `has ${size}; at most ${most} are read`, "export a smaller copy");
  }
  const sniffed = sniffKind(bytes);
  if ("other" in sniffed)
    throw photoProblem(name, `is ${sniffed.other}`, "give a JPEG, PNG, TIFF, WebP, HEIC or raw file");
  const kind = sniffed.kind === "tiff" && isRawTiff(bytes) ? "tiff raw" : sniffed.kind;
  const ending = wrongEnding(name, kind);
  const notes = ending
    ? [`its name ends in .${ending}, but it is ${KIND_WORDS[kind]} and was read as one`]
    : [];
  if (kind !== "tiff raw" && kind !== "cr3" && kind !== "raf")
    return { kind, bytes, exif: [], orientation: null, notes };
  const jpeg = largestJpeg(bytes, kind === "tiff raw");
  if (!jpeg)
    throw photoProblem(
      name,
      "is a raw file without a JPEG inside that can be read",
      "have the camera write JPEG beside raw, or export one",
    );
  const exif = kind === "tiff raw" ? [bytes] : kind === "cr3" ? exifBoxes(bytes) : [];
  notes.push(`the JPEG inside a raw file, ${sizeWords(jpeg.width, jpeg.height)}`);
  const [held] = exif
    .map((block) => new TiffFile(block))
    .map((file) => file.numbers(file.directories[0]?.get(ORIENTATION), 1)[0]);
  return { kind: "raw preview", bytes: jpeg.bytes, exif, orientation: orientationOf(held), notes };
}
