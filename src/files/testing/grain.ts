/** Grain for photographs of tests: of its bytes some are struck, and which ones decides what a decoder can still read. */
import sharp from "sharp";
import { Pcg32 } from "../../math/index.ts";

/** The same at every run; about mean 120, standard deviation 42, three channels of 8 bits. */
export function grain(width: number, height: number, seed = 22): ReturnType<typeof sharp> {
  const draw = new Pcg32(seed);
  // four even draws together are near enough to a bell
  const dice = () => [0, 0, 0, 0].reduce((sum) => sum + (draw.nextUint32() / 2 ** 32) * 73, -26);
  const pixels = Uint8Array.from({ length: width * height * 3 }, () => Math.min(255, Math.max(0, dice())));
  return sharp(pixels, { raw: { width, height, channels: 3 } });
}
