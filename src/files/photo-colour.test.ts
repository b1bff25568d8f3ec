import { readFileSync } from "node:fs";
import { deflateSync } from "node:zlib";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { decodeSrgb } from "../photometry/index.ts";
import { ADOBE_RGB, apply, type ColourSpace, DISPLAY_P3 } from "../testframe/index.ts";
import { decodePhotograph } from "./index.ts";
import { makePng } from "./testing/make-png.ts";
import { makeProfile } from "./testing/make-profile.ts";
import { deepTiff } from "./testing/make-tiff.ts";

const P3_D50 = [
  [0.5151, 0.2412, -0.00105],
  [0.29198, 0.69225, 0.04189],
  [0.1571, 0.06657, 0.78407],
];
const ADOBE_D50 = [
  [0.60974, 0.31111, 0.01947],
  [0.20528, 0.62567, 0.06087],
  [0.14919, 0.06322, 0.74457],
];
const LEVELS = [
  [255, 0, 0],
  [30, 220, 90],
  [118, 118, 118],
  [255, 255, 255],
];
const P3 = makeProfile({ name: "P3 of ours", colours: P3_D50, curve: { kind: "srgb" } });
const ADOBE = makeProfile({
  name: "A98 of ours",
  colours: ADOBE_D50,
  curve: { kind: "power", exponent: 563 / 256 },
});

/** Of 16 x 16 pixels each, so that JPEG's blocks stay inside. */
function patches(levels: readonly (readonly number[])[]): Buffer {
  const channels = levels[0].length;
  const row = levels.flatMap((level) => new Array(16).fill(level).flat());
  return Buffer.from(new Array(16).fill(row).flat()).subarray(0, 16 * 16 * levels.length * channels);
}

/** Bytes with a profile put in as a writer would, the levels untouched. */
function withProfile(jpeg: Buffer, profile: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from("ICC_PROFILE\0\x01\x01", "latin1"), profile]);
  const head = Buffer.from([0xff, 0xe2, (body.length + 2) >> 8, (body.length + 2) & 255]);
  return Buffer.concat([jpeg.subarray(0, 2), head, body, jpeg.subarray(2)]);
}

function expected(space: ColourSpace, level: readonly number[]): number[] {
  return apply(
    space.toSrgb,
    level.map((value) => space.curves[0](value / 255)),
  );
}

const at = (picture: { width: number; rgb: Float32Array }, x: number, y = 8) => [
  ...picture.rgb.subarray(3 * (y * picture.width + x), 3 * (y * picture.width + x) + 3),
];

async function expectPatches(
  name: string,
  bytes: Buffer,
  space: ColourSpace,
  tolerance: number,
): Promise<void> {
  const photo = await decodePhotograph(name, bytes);
  expect(photo.colour).toMatchObject({ profile: space.name, isAssumed: false });
  for (const [i, level] of LEVELS.entries())
    for (const [channel, value] of expected(space, level).entries())
      expect(Math.abs(at(photo.picture, 16 * i + 8)[channel] - value), `${name} ${level}`).toBeLessThan(
        tolerance,
      );
}

const rgb = (levels = LEVELS) =>
  sharp(patches(levels), { raw: { width: 16 * levels.length, height: 16, channels: 3 } });

describe("colours of a file", () => {
  it("[PF5] Display P3 and Adobe RGB reach linear sRGB as published, beyond its gamut too", async () => {
    const jpeg = await rgb().jpeg({ quality: 100, chromaSubsampling: "4:4:4" }).toBuffer();
    for (const [profile, space] of [
      [P3, DISPLAY_P3],
      [ADOBE, ADOBE_RGB],
    ] as const) {
      // two levels of 255 by JPEG's rounding, at the steepest end of the curve
      await expectPatches("a.jpg", withProfile(jpeg, profile), space, 0.02);
      const png = makePng({
        width: 64,
        height: 16,
        levels: patches(LEVELS),
        chunks: [["iCCP", iccp(profile)]],
      });
      // five digits of the profile's numbers
      await expectPatches("a.png", png, space, 0.0005);
    }
    const photo = await decodePhotograph("a.jpg", withProfile(jpeg, P3));
    expect(at(photo.picture, 8)[0]).toBeGreaterThan(1.2);
    expect(at(photo.picture, 8)[1]).toBeLessThan(-0.03);
  });

  it("[PF6] 16 bits keep their digits; grey is grey", async () => {
    const levels = new Uint16Array([0, 1000, 30000, 30001, 50000, 65535]);
    const grey = await decodePhotograph("a.tif", deepTiff(3, 2, levels));
    expect(grey.colour).toEqual({ profile: "sRGB", isAssumed: true, bits: 16, isGrey: true });
    const colour = await decodePhotograph("a.tif", deepTiff(2, 1, levels));
    expect(colour.colour).toEqual({ profile: "sRGB", isAssumed: true, bits: 16, isGrey: false });
    // float32, and the matrix to itself by five digits
    for (const [i, level] of levels.entries()) {
      const value = decodeSrgb(level / 65535);
      expect(Math.abs(grey.picture.rgb[3 * i] - value)).toBeLessThan(1e-5 * value + 1e-9);
      // three colours go through the profile's rounding
      expect(Math.abs(colour.picture.rgb[i] - value)).toBeLessThan(1e-4 * value + 1e-4);
    }
    expect(grey.picture.rgb[9]).toBeGreaterThan(grey.picture.rgb[6]);
    expect(grey.tones.clipped.any).toBeCloseTo(1 / 6, 9);
  });

  it("[PF7] linear files are taken as such where they say so: PNG by its gamma, TIFF by its profile or as floating point", async () => {
    const quarter = new Uint16Array([16384, 32768, 65535]);
    const profile = makeProfile({ name: "linear", curve: { kind: "power", exponent: 1 } });
    const gamma = Buffer.from([0, 1, 0x86, 0xa0]);
    const files = {
      "a.png": makePng({ width: 3, height: 1, levels: quarter, chunks: [["gAMA", gamma]] }),
      "a.tif": deepTiff(3, 1, quarter, { 34675: { kind: "bytes", bytes: profile } }),
      "b.tif": deepTiff(3, 1, new Float32Array([0.25, 0.25, 0.25, 0.5, 0.5, 0.5, 1, 1, 1])),
    };
    for (const [name, bytes] of Object.entries(files)) {
      const photo = await decodePhotograph(name, bytes);
      expect(photo.colour.isAssumed, name).toBe(false);
      for (const [i, value] of [0.25, 0.5, 1].entries())
        expect(photo.picture.rgb[3 * i + 1], name).toBeCloseTo(value, 4);
    }
  });

  it("[PF7] PNG's own words: sRGB, a gamma with other primaries, P3 by code points", async () => {
    const png = (chunks: [string, Uint8Array][]) =>
      decodePhotograph("a.png", makePng({ width: 64, height: 16, levels: patches(LEVELS), chunks }));
    const words = (...values: number[]) => {
      const bytes = Buffer.alloc(4 * values.length);
      for (const [i, value] of values.entries()) bytes.writeUInt32BE(value, 4 * i);
      return bytes;
    };
    expect((await png([["sRGB", Buffer.from([0])]])).colour).toMatchObject({
      profile: "sRGB",
      isAssumed: false,
    });
    expect((await png([["gAMA", words(45455)]])).colour).toMatchObject({ profile: "sRGB", isAssumed: false });
    const wide = await png([
      ["gAMA", words(45471)],
      ["cHRM", words(31270, 32900, 64000, 33000, 21000, 71000, 15000, 6000)],
    ]);
    expect(wide.colour.profile).toBe("gamma 2.20, its own primaries");
    for (const [channel, value] of expected(ADOBE_RGB, LEVELS[1]).entries())
      expect(Math.abs(at(wide.picture, 24)[channel] - value)).toBeLessThan(0.001);
    expect((await png([["cICP", Buffer.from([12, 13, 0, 1])]])).colour.profile).toBe("Display P3");
  });

  it("[PF8] a printer's colours go through the colour engine and say so", async () => {
    const cmyk = await rgb().toColourspace("cmyk").withIccProfile("cmyk").jpeg({ quality: 95 }).toBuffer();
    const photo = await decodePhotograph("a.jpg", cmyk);
    expect(photo.colour).toMatchObject({ profile: "sRGB", isAssumed: false });
    expect(photo.notes).toEqual(["its colours were turned into sRGB: tones may be off by half a stop"]);
    // middle grey there and back through inks, by the profile's perceptual way
    expect(Math.abs(Math.log2(at(photo.picture, 40)[1] / 0.1812))).toBeLessThan(0.5);
  });

  it("[PF9] HEIC is decoded with its profile, turned as its file says", async () => {
    const read = (name: string) => decodePhotograph(name, readFileSync(`src/files/testing/${name}`));
    const plain = await read("patches.heic");
    expect(plain).toMatchObject({ kind: "heic", width: 256, height: 64 });
    expect(plain.colour.isAssumed).toBe(true);
    const red = [200, 60, 40].map((value) => ((value / 255 + 0.055) / 1.055) ** 2.4);
    // a level or two of 255 by the encoder
    for (const [channel, value] of red.entries())
      expect(Math.abs(at(plain.picture, 160, 32)[channel] - value)).toBeLessThan(0.012);
    const wide = await read("patches-p3.heic");
    expect(wide.colour).toMatchObject({ profile: "Display P3", isAssumed: false });
    for (const [channel, value] of red.entries())
      expect(Math.abs(at(wide.picture, 160, 32)[channel] - value)).toBeLessThan(0.02);
    expect(wide.exif).toMatchObject({ make: "Maker", model: "Body 1", fNumber: 8, shutter: 1 / 125 });
  });
});

function iccp(profile: Buffer): Buffer {
  return Buffer.concat([Buffer.from("of ours\0\0", "latin1"), deflateSync(profile)]);
}
