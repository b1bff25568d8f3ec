/** What a file claims, before any of its pixels is decoded. */
import type { Metadata } from "sharp";
import type { Orientation } from "../testframe/index.ts";
import { checkSize, notReadable, photoProblem } from "./photo-problem.ts";

let library: Promise<typeof import("sharp")["default"]> | null = null;

/** Loaded when the first photograph comes. Nothing is kept between pictures: each is read once. */
export function sharpLibrary() {
  library ??= import("sharp").then(({ default: sharp }) => {
    sharp.cache(false);
    return sharp;
  });
  return library;
}

export interface FileHead {
  readonly width: number;
  readonly height: number;
  readonly isDeep: boolean;
  readonly isGrey: boolean;
  readonly hasAlpha: boolean;
  /** how its channels are meant: "rgb", "float" linear light in floating point, "other" CMYK, Lab and the like */
  readonly channels: "grey" | "rgb" | "float" | "other";
  /** null where the file does not say */
  readonly orientation: Orientation | null;
  readonly icc: Uint8Array | null;
  readonly exif: Uint8Array | null;
}

/** Errors  WorkError where there is no header or it claims more than is read */
export async function readHead(name: string, bytes: Uint8Array): Promise<FileHead> {
  const sharp = await sharpLibrary();
  const found = await sharp(bytes, { limitInputPixels: false, failOn: "none" })
    .metadata()
    .catch((error: unknown) => {
      throw notReadable(name, error);
    });
  const { width, height, depth, icc = null, exif = null } = found;
  const isDeep = depth !== "uchar" && depth !== "char";
  const channels = channelsOf(found);
  const isGrey = channels === "grey";
  checkSize(name, width, height, isDeep && !isGrey);
  if (isDeep && depth !== "ushort" && channels !== "float")
    throw photoProblem(name, `holds numbers of a kind that is not read (${depth})`, "export it with 16 bits");
  return {
    width,
    height,
    isDeep,
    isGrey,
    hasAlpha: found.hasAlpha,
    channels,
    orientation: orientationOf(found.orientation),
    icc,
    exif,
  };
}

function channelsOf({ space, channels }: Metadata): FileHead["channels"] {
  if (space === "scrgb") return "float";
  if (space === "b-w" || space === "grey16" || channels <= 2) return "grey";
  return space === "srgb" || space === "rgb16" || space === "rgb" ? "rgb" : "other";
}

export function orientationOf(number: number | undefined): Orientation | null {
  return number !== undefined && number >= 1 && number <= 8 ? (number as Orientation) : null;
}
