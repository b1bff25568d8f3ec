/** What a file is, by its first bytes; its name is not believed. */
import type { PhotoKind } from "../testframe/index.ts";

export type FileKind =
  | Exclude<PhotoKind, "raw preview">
  /** a raw file that is built as a TIFF file is: to be looked into before it is known */
  | "tiff raw"
  | "cr3"
  | "raf";

export type Sniffed = { readonly kind: FileKind } | { readonly other: string };

/** First bytes of kinds that people may take for photographs. */
const OTHERS: readonly (readonly [first: string, name: string])[] = [
  ["GIF8", "a GIF picture"],
  ["%PDF", "a PDF document"],
  ["8BPS", "a layered picture of an editor"],
  ["BM", "a BMP picture"],
  ["PK\x03\x04", "a ZIP archive"],
  ["v/1\x01", "an OpenEXR picture"],
  ["#?RADIANCE", "a Radiance picture"],
  ["P5", "a portable grey map"],
  ["P6", "a portable pixel map"],
  ["\xff\x0a", "a JPEG XL picture"],
  ["\0\0\0\x0cJXL ", "a JPEG XL picture"],
  ["\0\0\0\x0cjP  ", "a JPEG 2000 picture"],
  ["<", "a drawing or a text"],
  ["FOVb", "a raw file without a JPEG inside"],
];

const HEIC_BRANDS = new Set(["heic", "heix", "heim", "heis", "hevc", "hevx", "mif1", "msf1"]);

export function sniffKind(bytes: Uint8Array): Sniffed {
  let head = "";
  for (let i = 0; i < Math.min(32, bytes.length); i++) head += String.fromCharCode(bytes[i]);
  if (head.startsWith("\xff\xd8\xff")) return { kind: "jpeg" };
  if (head.startsWith("\x89PNG\r\n\x1a\n")) return { kind: "png" };
  if (head.startsWith("RIFF") && head.slice(8, 12) === "WEBP") return { kind: "webp" };
  if (head.startsWith("FUJIFILMCCD-RAW")) return { kind: "raf" };
  // Olympus and Panasonic write other letters where TIFF has 42
  if (/^(IIRO|IIRS|MMOR|IIU\0)/.test(head)) return { kind: "tiff raw" };
  if (/^(II\*\0|MM\0\*)/.test(head)) return { kind: head.slice(8, 10) === "CR" ? "tiff raw" : "tiff" };
  if (/^(II\+\0|MM\0\+)/.test(head)) return { kind: "tiff" };
  if (head.slice(4, 8) === "ftyp") return isoKind(head.slice(8, 12));
  return {
    other: OTHERS.find(([first]) => head.startsWith(first))?.[1] ?? "no photograph that is known here",
  };
}

function isoKind(brand: string): Sniffed {
  if (brand === "crx ") return { kind: "cr3" };
  if (HEIC_BRANDS.has(brand)) return { kind: "heic" };
  if (brand.startsWith("avi")) return { other: "an AVIF picture" };
  return { other: "a film" };
}

/** Endings under which each kind is usually kept; others are noted. */
const ENDINGS: Record<FileKind, RegExp> = {
  jpeg: /^(jpe?g|jpe|jfif|mpo)$/,
  png: /^png$/,
  tiff: /^tiff?$/,
  webp: /^webp$/,
  heic: /^(hei[cf]|hif)$/,
  "tiff raw": /^(?!(jpe?g|png|tiff?|webp|hei[cf])$)/,
  cr3: /^cr3$/,
  raf: /^raf$/,
};

/** Null where the name's ending fits what the file is. */
export function wrongEnding(name: string, kind: FileKind): string | null {
  const ending = /\.([^./\\]+)$/.exec(name)?.[1];
  if (ending === undefined || ENDINGS[kind].test(ending.toLowerCase())) return null;
  return ending;
}
