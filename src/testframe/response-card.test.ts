import { describe, expect, it } from "vitest";
import { decodePhotograph } from "../files/index.ts";
import { deepTiff } from "../files/testing/make-tiff.ts";
import { decodeSrgb } from "../photometry/index.ts";
import { cardLevel, exposureStops } from "./response-card.ts";
import type { PhotoExif } from "./types.ts";

/** A card over the middle third of a black picture, a fifth of it covered by a glint and a finger. */
async function card(level: number, edit: (x: number, y: number) => number | null = () => null) {
  const data = new Uint16Array(120 * 90);
  for (let y = 0; y < 90; y++)
    for (let x = 0; x < 120; x++) {
      const inside = Math.abs(x - 60) < 20 && Math.abs(y - 45) < 15;
      data[120 * y + x] = inside ? (edit(x, y) ?? level) : 0;
    }
  return decodePhotograph("card.tif", deepTiff(120, 90, data));
}

describe("a grey card in a photograph", () => {
  it("[PF26] its level is that of the middle of the picture, whatever glints on it", async () => {
    const plain = await card(30000);
    expect(cardLevel(plain).level).toBeCloseTo(decodeSrgb(30000 / 65535), 6);
    expect(cardLevel(plain).spreadStops).toBe(0);
    const glint = await card(30000, (x, y) => (x > 65 ? 65535 : y > 51 ? 200 : null));
    expect(cardLevel(glint).level).toBeCloseTo(decodeSrgb(30000 / 65535), 6);
    expect(cardLevel(glint).clippedShare).toBeGreaterThan(0.1);
    const steep = await card(30000, (x) => 20000 + 500 * (x - 40));
    expect(cardLevel(steep).spreadStops).toBeGreaterThan(0.2);
  });

  it("[PF26] a box elsewhere, or one that lies outside, gives finite numbers", async () => {
    const photo = await card(30000);
    expect(cardLevel(photo, { left: 0, top: 0, width: 10, height: 10 }).level).toBe(0);
    const outside = cardLevel(photo, { left: 500, top: -40, width: 10, height: 10 });
    expect([outside.level, outside.clippedShare, outside.spreadStops].every(Number.isFinite)).toBe(true);
  });

  it("[PF26] exposures are the exact steps that marks stand for", () => {
    const exif = (shutter: number | null, fNumber: number, iso: number) =>
      ({ shutter, fNumber, iso }) as PhotoExif;
    // 1/128 s at f/11.31 and ISO 100; a third slower; half an aperture wider
    expect(exposureStops(exif(1 / 125, 11, 100))).toBeCloseTo(-14, 9);
    expect(exposureStops(exif(1 / 100, 11, 100))).toBeCloseTo(-14 + 1 / 3, 9);
    expect(exposureStops(exif(1 / 90, 9.5, 125))).toBeCloseTo(-6.5 - 6.5 + 1 / 3, 9);
    // every third of an aperture from f/1.4 to f/22, as engraved (f/1.2 is a half on some dials and a third on others)
    const marks = [
      1.4, 1.6, 1.8, 2, 2.2, 2.5, 2.8, 3.2, 3.5, 4, 4.5, 5, 5.6, 6.3, 7.1, 8, 9, 10, 11, 13, 14, 16, 18, 20,
      22,
    ];
    for (const [i, mark] of marks.entries())
      expect(exposureStops(exif(1, mark, 100)), `f/${mark}`).toBeCloseTo(-1 - i / 3, 9);
    expect(exposureStops(exif(null, 8, 100))).toBe(null);
  });
});
