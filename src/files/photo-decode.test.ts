import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { decodeSrgb } from "../photometry/index.ts";
import { decodePhotograph } from "./index.ts";

/** Four patches side by side, 64 x 64 each: a JPEG's blocks and halved colours stay inside them. */
const PATCHES = [
  [255, 255, 255],
  [118, 118, 118],
  [200, 60, 40],
  [0, 0, 0],
];
const SIDE = 64;

function patches(): ReturnType<typeof sharp> {
  const data = Buffer.alloc(4 * SIDE * SIDE * 3);
  for (let y = 0, at = 0; y < SIDE; y++)
    for (let x = 0; x < 4 * SIDE; x++, at += 3) data.set(PATCHES[Math.floor(x / SIDE)], at);
  return sharp(data, { raw: { width: 4 * SIDE, height: SIDE, channels: 3 } });
}

const middleOf = (picture: { width: number; rgb: Float32Array }, patch: number) => {
  const at = 3 * (32 * picture.width + SIDE * patch + 32);
  return [...picture.rgb.subarray(at, at + 3)];
};

describe("a plain file", () => {
  it("[PF1] JPEG, PNG, WebP and TIFF come out as the linear light of the sRGB curve", async () => {
    const files = {
      "a.png": [await patches().png().toBuffer(), 1e-6],
      "a.tif": [await patches().tiff({ compression: "lzw" }).toBuffer(), 1e-6],
      // rounding on the way through: a level or two of 255
      "a.jpg": [await patches().jpeg({ quality: 95, chromaSubsampling: "4:4:4" }).toBuffer(), 0.012],
      "a.webp": [await patches().webp({ lossless: true }).toBuffer(), 1e-6],
    } as const;
    for (const [name, [bytes, tolerance]] of Object.entries(files)) {
      const photo = await decodePhotograph(name, bytes);
      expect([photo.width, photo.height], name).toEqual([256, 64]);
      for (const patch of [0, 1, 2, 3])
        for (const [channel, value] of middleOf(photo.picture, patch).entries())
          expect(Math.abs(value - decodeSrgb(PATCHES[patch][channel] / 255)), name).toBeLessThan(tolerance);
      expect(photo.tones.clipped.any, name).toBeCloseTo(0.25, 3);
      expect(photo.colour, name).toEqual({ profile: "sRGB", isAssumed: true, bits: 8, isGrey: false });
      expect(photo.notes, name).toEqual(["nothing in the file says what its colours are: taken as sRGB"]);
    }
  });
});
