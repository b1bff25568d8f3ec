/** JPEG, PNG, TIFF and WebP to levels, by libvips. */
import type { Sharp } from "sharp";
import type { Orientation } from "../testframe/index.ts";
import { type FileHead, sharpLibrary } from "./photo-head.ts";
import { isCutOff, LONGEST_SECONDS, MOST_PIXELS, notReadable, reasonOf } from "./photo-problem.ts";

export interface Levels {
  readonly data: Uint8Array | Uint16Array;
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3;
  /** of its rows; null where the picture itself does not say */
  readonly orientation: Orientation | null;
  /** what a colour engine has turned them into; null where they are the file's own */
  readonly converted: "sRGB" | "Display P3" | null;
  readonly notes: readonly string[];
}

/** Takes levels as they are, unless `needsEngine`: a profile that is more than curves and a matrix, or no RGB at all.
 * Errors  WorkError: damaged, incomplete */
export async function sharpLevels(
  name: string,
  bytes: Uint8Array,
  head: FileHead,
  needsEngine: boolean,
): Promise<Levels> {
  const sharp = await sharpLibrary();
  const isOther = head.channels === "other";
  const isDeep = head.isDeep && !isOther;
  const space = head.isGrey ? (isDeep ? "grey16" : "b-w") : isDeep ? "rgb16" : "srgb";
  const isConverted = needsEngine || isOther;
  const decode = (failOn: "warning" | "truncated") => {
    const image = sharp(bytes, {
      limitInputPixels: MOST_PIXELS,
      sequentialRead: true,
      ignoreIcc: !isConverted,
      failOn,
    });
    return levelsOf(image.removeAlpha().toColourspace(space), isDeep);
  };
  const notes: string[] = [];
  // a missing part is refused, spots of damage are told: the rest of such a picture is as it was
  const { data, info } = await decode("warning").catch(async (first: unknown) => {
    if (isCutOff(first)) throw notReadable(name, first);
    const whole = await decode("truncated").catch((error: unknown) => {
      throw notReadable(name, error);
    });
    notes.push(`it is damaged in places and was read all the same (${reasonOf(first)})`);
    return whole;
  });
  if (head.hasAlpha) notes.push("its transparency was left out");
  // libvips' own choice: a wide space where there are levels enough for it
  const converted = isConverted && !head.isGrey ? (isDeep ? "Display P3" : "sRGB") : null;
  if (converted) notes.push(`its colours were turned into ${converted}: tones may be off by half a stop`);
  if (head.channels === "float")
    notes.push("its floating-point numbers were taken as linear light, 1 as clipping");
  const { width, height } = info;
  return {
    data,
    width,
    height,
    channels: info.channels === 1 ? 1 : 3,
    orientation: head.orientation,
    converted,
    notes,
  };
}

async function levelsOf(image: Sharp, isDeep: boolean) {
  const raw = isDeep ? image.raw({ depth: "ushort" }) : image.raw();
  const { data, info } = await raw
    .timeout({ seconds: LONGEST_SECONDS })
    .toBuffer({ resolveWithObject: true });
  if (!isDeep) return { data: new Uint8Array(data.buffer, data.byteOffset, data.length), info };
  const aligned = data.byteOffset % 2 === 0 ? data : Buffer.from(data);
  return { data: new Uint16Array(aligned.buffer, aligned.byteOffset, aligned.length >> 1), info };
}
