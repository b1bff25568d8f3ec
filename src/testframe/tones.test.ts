import { describe, expect, it } from "vitest";
import { Pcg32 } from "../math/index.ts";
import { LINEAR_SRGB, SRGB } from "./icc-space.ts";
import { measureTones } from "./tones.ts";
import { type FilePixels, linearTables, type Orientation } from "./tones-pixels.ts";
import { reducePixels } from "./tones-reduce.ts";
import { uprightSize } from "./tones-upright.ts";

function pixelsOf(data: Uint8Array | Uint16Array, width: number, more: Partial<FilePixels> = {}): FilePixels {
  const channels = more.channels ?? 3;
  const isDeep = data instanceof Uint16Array;
  return {
    data,
    width,
    height: data.length / channels / width,
    channels,
    orientation: 1,
    clipLevel: isDeep ? 65535 : 255,
    space: more.space ?? SRGB,
    linear: linearTables(more.space ?? SRGB, isDeep ? 65536 : 256),
    ...more,
  };
}

const whole = (pixels: FilePixels) => ({ left: 0, top: 0, ...uprightSize(pixels) });

function noise(length: number, seed: number): Uint8Array {
  const random = new Pcg32(seed);
  return Uint8Array.from({ length }, () => random.nextUint32() >>> 24);
}

describe("tones", () => {
  it("[PF10] clipped and near are counted per channel and for any, exactly", () => {
    // 0.7937 is a third of a stop under clipping: level 230 of the sRGB curve is 0.7913, 231 is 0.7991
    const data = Uint8Array.from([255, 0, 0, 255, 255, 0, 231, 230, 0, 10, 20, 254]);
    const { clipped, near } = measureTones(pixelsOf(data, 2));
    expect(clipped).toEqual({ red: 0.5, green: 0.25, blue: 0, any: 0.5 });
    expect(near).toEqual({ red: 0.75, green: 0.25, blue: 0.25, any: 1 });
  });

  it("[PF10] headroom is that of the 99.5th percentile: half a percent may be lights and glints", () => {
    const data = new Uint8Array(3 * 1000).fill(118);
    for (let i = 0; i < 3 * 5; i++) data[i] = 255;
    const stops = measureTones(pixelsOf(data, 100)).headroomStops.red;
    expect(stops).toBeCloseTo(Math.log2(1 / SRGB.curves[0](118 / 255)), 5);
    for (let i = 0; i < 3 * 6; i++) data[i] = 255;
    expect(measureTones(pixelsOf(data, 100)).headroomStops.red).toBe(0);
    // where there is nothing at all, the darkest that is told
    expect(measureTones(pixelsOf(new Uint8Array(300), 10)).headroomStops.blue).toBe(12);
  });

  it("[PF11] the histogram is that of plain logarithms, in tenths of a stop, and adds up to one", () => {
    const data = noise(3 * 4000, 11);
    const seen = measureTones(pixelsOf(data, 100)).histogram;
    const plain = new Float64Array(120);
    const table = linearTables(SRGB, 256)[0];
    for (let i = 0; i < data.length; i += 3) {
      const light = 0.2126 * table[data[i]] + 0.7152 * table[data[i + 1]] + 0.0722 * table[data[i + 2]];
      plain[Math.min(119, Math.floor(-10 * Math.log2(light)))] += 1 / 4000;
    }
    expect(seen.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9);
    // a pixel or two on the very edge between two tenths
    for (const [i, share] of seen.entries())
      expect(Math.abs(share - plain[i]), `bin ${i}`).toBeLessThan(3 / 4000);
    const ends = measureTones(pixelsOf(Uint8Array.from([255, 255, 255, 0, 0, 0]), 2)).histogram;
    expect([ends[0], ends[119]]).toEqual([0.5, 0.5]);
  });

  it("[PF10] 16 bits and grey are measured as they are", () => {
    const grey = measureTones(
      pixelsOf(new Uint16Array([65535, 65534, 32768, 0]), 2, { channels: 1, space: LINEAR_SRGB }),
    );
    expect(grey.clipped).toEqual({ red: 0.25, green: 0.25, blue: 0.25, any: 0.25 });
    expect(grey.near.any).toBe(0.5);
    expect([grey.histogram[0], grey.histogram[9] + grey.histogram[10], grey.histogram[119]]).toEqual([
      0.5, 0.25, 0.25,
    ]);
  });
});

describe("the working copy", () => {
  it("[PF12] averages light, not levels: a fine chequerboard of black and white is half the light", () => {
    const data = new Uint8Array(3 * 64 * 64);
    for (let i = 0; i < 64 * 64; i++) data.fill(((i + (i >> 6)) & 1) * 255, 3 * i, 3 * i + 3);
    const pixels = pixelsOf(data, 64);
    const { picture, clippedShare } = reducePixels(pixels, whole(pixels), 16);
    expect([picture.width, picture.height]).toEqual([16, 16]);
    for (const value of picture.rgb) expect(value).toBeCloseTo(0.5, 4);
    for (const share of clippedShare) expect(share).toBe(128);
  });

  it("[PF12] keeps all of the light at any reduction, as a plain sum has it", () => {
    const data = noise(3 * 97 * 53, 5);
    const pixels = pixelsOf(data, 97, { space: LINEAR_SRGB });
    const mean = data.reduce((sum, level) => sum + level / 255, 0) / data.length;
    for (const side of [97, 96, 60, 33, 7, 1]) {
      const { picture } = reducePixels(pixels, whole(pixels), side);
      expect(Math.max(picture.width, picture.height)).toBe(side);
      // edges weighed by rounding of the shorter side
      expect(picture.rgb.reduce((sum, value) => sum + value, 0) / picture.rgb.length).toBeCloseTo(mean, 3);
    }
  });

  it("[PF12] is never enlarged, and a part is the same light as the whole has there", () => {
    const pixels = pixelsOf(noise(3 * 40 * 30, 9), 40);
    const full = reducePixels(pixels, whole(pixels), 4000).picture;
    expect([full.width, full.height]).toEqual([40, 30]);
    const part = reducePixels(pixels, { left: 10.4, top: 5, width: 7, height: 4.2 }, 4000).picture;
    expect([part.width, part.height]).toEqual([8, 5]);
    for (let y = 0; y < 5; y++)
      for (let x = 0; x < 24; x++) expect(part.rgb[24 * y + x]).toBe(full.rgb[3 * (40 * (y + 5) + 10) + x]);
    for (const box of [
      { left: -50, top: -50, width: 10, height: 10 },
      { left: 500, top: Number.NaN, width: 0, height: Number.POSITIVE_INFINITY },
    ]) {
      const { picture } = reducePixels(pixels, box, 10);
      expect(picture.rgb.every(Number.isFinite)).toBe(true);
    }
  });

  it("[PF13] all eight ways of holding a camera come out upright", () => {
    // rows as stored for each orientation of the picture [[1, 2, 3], [4, 5, 6]] (Exif 2.32, tag 274)
    const stored: Record<Orientation, number[][]> = {
      1: [
        [1, 2, 3],
        [4, 5, 6],
      ],
      2: [
        [3, 2, 1],
        [6, 5, 4],
      ],
      3: [
        [6, 5, 4],
        [3, 2, 1],
      ],
      4: [
        [4, 5, 6],
        [1, 2, 3],
      ],
      5: [
        [1, 4],
        [2, 5],
        [3, 6],
      ],
      6: [
        [3, 6],
        [2, 5],
        [1, 4],
      ],
      7: [
        [6, 3],
        [5, 2],
        [4, 1],
      ],
      8: [
        [4, 1],
        [5, 2],
        [6, 3],
      ],
    };
    for (const [orientation, rows] of Object.entries(stored)) {
      const data = Uint8Array.from(rows.flat().map((value) => 40 * value));
      const pixels = pixelsOf(data, rows[0].length, {
        channels: 1,
        space: LINEAR_SRGB,
        orientation: Number(orientation) as Orientation,
      });
      const { picture } = reducePixels(pixels, whole(pixels), 100);
      expect([picture.width, picture.height]).toEqual([3, 2]);
      const levels = Array.from({ length: 6 }, (_, i) => Math.round((picture.rgb[3 * i] * 255) / 40));
      expect(levels, orientation).toEqual([1, 2, 3, 4, 5, 6]);
      const part = reducePixels(pixels, { left: 1, top: 1, width: 2, height: 1 }, 100).picture;
      expect([...part.rgb].filter((_, i) => i % 3 === 0).map((v) => Math.round((v * 255) / 40))).toEqual([
        5, 6,
      ]);
    }
  });
});
