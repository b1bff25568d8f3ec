/** A picture as a PNG file: what the file worker does. */
import { encode } from "fast-png";
import type { FramePicture } from "../workbench/index.ts";
import type { Mono } from "./frame-look.ts";
import { ToneTable } from "./frame-tone.ts";

/** What goes to the file worker; sixteen bits where the picture is deep. */
export interface FileRequest {
  readonly picture: Pick<FramePicture, "width" | "height" | "rgba" | "deep">;
  readonly mono: Mono;
}

/** sRGB as a PNG without a profile is taken: three channels, or one in black and white. No guides, no overlays. */
export function pictureFile({ picture, mono }: FileRequest): Uint8Array {
  const { width, height, rgba, deep } = picture;
  const pixels = width * height;
  const channels = mono.on ? 1 : 3;
  const [from, stride, most] = deep === null ? [rgba, 4, 255 as const] : [deep, 3, 65535 as const];
  const data = deep === null ? new Uint8Array(channels * pixels) : new Uint16Array(channels * pixels);
  const table = mono.on ? new ToneTable(mono, most) : null;
  for (let i = 0; i < pixels; i++) {
    const k = stride * i;
    const [r, g, b] = [from[k] as number, from[k + 1] as number, from[k + 2] as number];
    if (table !== null) data[i] = table.of(r, g, b);
    else {
      data[3 * i] = r;
      data[3 * i + 1] = g;
      data[3 * i + 2] = b;
    }
  }
  return encode({ width, height, data, channels, depth: deep === null ? 8 : 16 });
}
