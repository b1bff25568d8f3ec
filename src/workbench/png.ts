import { encode } from "fast-png";
import type { FramePicture } from "./ports.ts";

/** A developed frame as a PNG file: 8 bits, three channels. A PNG without a profile is taken as sRGB. */
export function encodePng(picture: Pick<FramePicture, "width" | "height" | "rgba">): Uint8Array {
  const { width, height, rgba } = picture;
  const data = new Uint8Array(width * height * 3);
  for (let from = 0, to = 0; to < data.length; from += 4, to += 3) {
    data[to] = rgba[from];
    data[to + 1] = rgba[from + 1];
    data[to + 2] = rgba[from + 2];
  }
  return encode({ width, height, data, channels: 3, depth: 8 });
}
