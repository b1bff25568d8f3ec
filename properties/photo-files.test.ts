/** Photographs with bytes changed at random: read with finite values or refused in words, in bounded time. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { decodePhotograph } from "../src/files/index.ts";
import { grain } from "../src/files/testing/grain.ts";
import { makeProfile } from "../src/files/testing/make-profile.ts";
import {
  deepTiff,
  directory,
  long,
  makeTiff,
  place,
  rational,
  short,
  text,
} from "../src/files/testing/make-tiff.ts";
import { Pcg32 } from "../src/math/index.ts";
import type { Photograph } from "../src/testframe/index.ts";
import { amount } from "./amount.ts";

/** ms of the processor's time for one small file, whatever is done to it. Most take one or two. */
const LONGEST_MS = 4000;

/** Of the everyday tenth again this part: eight kinds of file are decoded so often. */
const SPARING = 3;
const isLong = process.env.TAPEMARK_LONG === "1";

const picture = grain(48, 40).withExif({
  IFD0: { Make: "Maker", Model: "Body 5" },
  IFD2: { FNumber: "8/1", ExposureTime: "1/125" },
});
const jpeg = await picture.clone().withIccProfile("p3").jpeg().toBuffer();
const profile = makeProfile({ name: "linear", curve: { kind: "points", points: [0, 0.25, 1] } });
const deep = Uint16Array.from({ length: 24 * 20 }, (_, i) => (i * 2654435761) & 0xffff);

const FILES: Record<string, Uint8Array> = {
  "a.jpg": jpeg,
  "progressive.jpg": await picture.clone().jpeg({ progressive: true }).toBuffer(),
  "a.png": await picture.clone().withIccProfile("p3").png({ compressionLevel: 1 }).toBuffer(),
  "a.webp": await picture.clone().webp().toBuffer(),
  "packed.tif": await picture.clone().tiff({ compression: "lzw" }).toBuffer(),
  "deep.tif": deepTiff(24, 20, deep, { 34675: { kind: "bytes", bytes: profile } }),
  "a.dng": makeTiff({
    271: text("Maker"),
    274: short(6),
    330: directory({ 262: short(32803), 256: long(4000), 257: long(3000) }),
    513: place(jpeg),
    514: long(jpeg.length),
    34665: directory({ 33434: rational([1, 125]), 37510: text("notes") }),
  }),
  // each is decoded in a thread of its own: a tenth of the number
  "a.heic": readFileSync("src/files/testing/patches-p3.heic"),
};

const EXTREMES = [0, 1, 0x7fff, 0x8000, 0xffff, 0x7fffffff, 0x80000000, 0xffffffff];

/** One to six changes: bits, bytes, numbers of four bytes at their extremes, cuts, pieces left out, doubled or moved. */
function mutated(bytes: Uint8Array, random: Pcg32): Uint8Array {
  let out = Buffer.from(bytes);
  const below = (count: number) => random.nextUint32() % Math.max(1, count);
  // what is read first is where claims are made
  const place = () => (below(2) ? below(Math.min(out.length, 400)) : below(out.length));
  for (let changes = 1 + below(6); changes > 0; changes--) {
    const at = place();
    const length = 1 + below(40);
    switch (below(7)) {
      case 0:
        out[at] ^= 1 << below(8);
        break;
      case 1:
        out[at] = below(256);
        break;
      case 2:
        if (at + 4 <= out.length) out.writeUInt32LE(EXTREMES[below(EXTREMES.length)], at);
        break;
      case 3:
        if (at + 4 <= out.length) out.writeUInt32BE(EXTREMES[below(EXTREMES.length)], at);
        break;
      case 4:
        out = Buffer.concat([out.subarray(0, at), out.subarray(at + length)]);
        break;
      case 5:
        out = Buffer.concat([out.subarray(0, at + length), out.subarray(at)]);
        break;
      default:
        if (below(4) === 0) out = out.subarray(0, at);
        else out.copy(out, place(), at, at + length);
    }
  }
  return out;
}

function expectSound(photo: Photograph): void {
  expect(photo.picture.rgb.every(Number.isFinite)).toBe(true);
  const { clipped, near, headroomStops, histogram } = photo.tones;
  for (const share of [...Object.values(clipped), ...Object.values(near), ...histogram])
    expect(share >= 0 && share <= 1).toBe(true);
  for (const stops of Object.values(headroomStops)) expect(stops >= 0 && stops <= 12).toBe(true);
  for (const value of Object.values(photo.exif))
    if (typeof value === "number") expect(Number.isFinite(value)).toBe(true);
  expect(photo.crop({ left: 1, top: 1, width: 5, height: 5 }, 3).rgb.every(Number.isFinite)).toBe(true);
}

describe("[PF24] two thousand changed files of each kind are read or refused in words", () => {
  for (const [stream, [name, bytes]] of Object.entries(FILES).entries())
    it(`${name}, seed 7 stream ${stream}`, { timeout: 600_000 }, async () => {
      const random = new Pcg32(7, stream);
      const count = Math.ceil(amount(name.endsWith(".heic") ? 200 : 2000) / (isLong ? 1 : SPARING));
      let read = 0;
      for (let i = 0; i < count; i++) {
        const file = mutated(bytes, random);
        const before = process.cpuUsage();
        try {
          expectSound(await decodePhotograph(name, file));
          read++;
        } catch (error) {
          if ((error as Error).name !== "WorkError")
            throw new Error(`mutation ${i}: ${error}`, { cause: error });
          expect((error as Error).message.length).toBeLessThan(500);
        }
        const { user, system } = process.cpuUsage(before);
        expect((user + system) / 1000, `mutation ${i}`).toBeLessThan(LONGEST_MS);
      }
      // changes that all end in a refusal, or none, would try nothing
      expect(read).toBeGreaterThan(0);
      expect(read).toBeLessThan(count);
    });
});
