import sharp from "sharp";
import { expect, it } from "vitest";
import { decodePhotograph, thumbnail } from "./index.ts";

it("[PF25] a thumbnail is a small sRGB JPEG of the same light", async () => {
  const levels = [200, 118, 40];
  const bytes = await sharp({
    create: { width: 300, height: 200, channels: 3, background: { r: 200, g: 118, b: 40 } },
  })
    .png()
    .toBuffer();
  const photo = await decodePhotograph("a.png", bytes);
  const small = await thumbnail(photo, 90);
  const { data, info } = await sharp(small).raw().toBuffer({ resolveWithObject: true });
  expect([info.width, info.height, info.channels]).toEqual([90, 60, 3]);
  // JPEG's rounding of colour
  for (const [i, level] of levels.entries()) expect(Math.abs(data[i] - level)).toBeLessThanOrEqual(3);
  // never enlarged
  expect((await sharp(await thumbnail(photo, 5000)).metadata()).width).toBe(300);
});
