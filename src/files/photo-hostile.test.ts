import { readFileSync } from "node:fs";
import { deflateSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { decodePhotograph } from "./index.ts";
import { grain } from "./testing/grain.ts";
import { pngOf } from "./testing/make-png.ts";
import { deepTiff, long, makeTiff, place, short } from "./testing/make-tiff.ts";

const noise = grain(200, 160);
const files = {
  "a.jpg": await noise.clone().jpeg().toBuffer(),
  "a.png": await noise.clone().png().toBuffer(),
  "a.tif": await noise.clone().tiff({ compression: "lzw" }).toBuffer(),
  "a.webp": await noise.clone().webp().toBuffer(),
  "a.heic": readFileSync("src/files/testing/patches.heic"),
};

/** The process's own numbers hold what tests beside this one take: what is over is tried again. */
const TRIES = 3;
const MOST_MS = 2000;
const MOST_MB = 60;

/** What is said of it, with what it took: ms of the processor's time and MB more than before. */
async function refused(name: string, bytes: Uint8Array) {
  for (let tries = 1; ; tries++) {
    const [time, memory] = [process.cpuUsage(), process.memoryUsage().rss];
    const said = await decodePhotograph(name, bytes).then(
      (photo) => ({ name: "read", message: photo.notes.join("; "), cure: "" }),
      (error: Error & { cure: string }) => error,
    );
    const { user, system } = process.cpuUsage(time);
    const took = { ms: (user + system) / 1000, mb: (process.memoryUsage().rss - memory) / 1e6 };
    if (tries === TRIES || (took.ms < MOST_MS && took.mb < MOST_MB))
      return { kind: said.name, text: said.message, ...took };
  }
}

/** A decoder starts, reads a header and stops: far under a second, and no more memory than a small picture's. */
async function expectRefused(name: string, bytes: Uint8Array, text: RegExp): Promise<void> {
  const said = await refused(name, bytes);
  expect(said.kind, `${name}: ${said.text}`).toBe("WorkError");
  expect(said.text).toMatch(text);
  expect(said.ms, name).toBeLessThan(MOST_MS);
  expect(said.mb, name).toBeLessThan(150);
}

const head = (width: number, height: number) => {
  const body = Buffer.alloc(13);
  body.writeUInt32BE(width, 0);
  body.writeUInt32BE(height, 4);
  body.set([8, 2], 8);
  return ["IHDR", body] as const;
};

describe("damaged and hostile files", () => {
  it("[PF20] a file that ends too early is refused: a part of a picture would be measured as if it were all", async () => {
    for (const [name, bytes] of Object.entries(files))
      for (const part of [0.1, 0.3, 0.6, 0.95])
        await expectRefused(name, bytes.subarray(0, Math.floor(bytes.length * part)), /incomplete/);
    await expectRefused(
      "a.jpg",
      files["a.jpg"].subarray(0, 3000),
      /^a\.jpg is incomplete .*; wait until it is written whole/,
    );
  });

  it("[PF20] spots of damage are told and the rest is read", async () => {
    const bytes = await noise.clone().jpeg({ progressive: true }).toBuffer();
    for (let i = 0; i < 6; i++) bytes[Math.floor(bytes.length * (0.3 + 0.1 * i))] ^= 0x55;
    const said = await refused("a.jpg", bytes);
    expect(said.kind).toBe("read");
    expect(said.text).toMatch(/it is damaged in places and was read all the same \(/);
  });

  it("[PF21] nothing, text, a picture of another kind: each is named", async () => {
    const cases: [string, Buffer, string][] = [
      ["a.jpg", Buffer.alloc(0), "a.jpg is empty; copy it again from the card"],
      ["a.jpg", Buffer.from("once upon a time"), "a.jpg is no photograph that is known here; give a JPEG"],
      ["a.gif", Buffer.from("GIF89a...."), "a.gif is a GIF picture; give a JPEG"],
      [
        "a.svg",
        Buffer.from("<svg xmlns='http://www.w3.org/2000/svg'/>"),
        "a.svg is a drawing or a text; give a JPEG",
      ],
      ["a.mov", Buffer.from("\0\0\0\x14ftypqt  \0\0\0\0", "latin1"), "a.mov is a film; give a JPEG"],
      ["two\nlines.jpg", Buffer.from("P"), "twolines.jpg is no photograph"],
      ["a.png", Buffer.from("\x89PNG\r\n\x1a\n", "latin1"), "a.png is damaged or incomplete"],
      ["a.jpg", Buffer.from([0xff, 0xd8, 0xff]), "a.jpg is incomplete"],
    ];
    for (const [name, bytes, text] of cases) {
      const said = await refused(name, bytes);
      expect(said.kind).toBe("WorkError");
      expect(said.text.startsWith(text), said.text).toBe(true);
    }
  });

  it("[PF21] a wrong ending is read by what the file is, and noted", async () => {
    const photo = await decodePhotograph("a.png", files["a.jpg"]);
    expect(photo.kind).toBe("jpeg");
    expect(photo.notes[0]).toBe("its name ends in .png, but it is a JPEG file and was read as one");
  });

  it("[PF22] headers that claim 30,000 × 30,000 pixels are refused before anything of that size is allotted", async () => {
    const text =
      /claims 30,000 × 30,000 pixels, 900 megapixels; at most 120 megapixels are read; export a smaller copy/;
    const jpeg = Buffer.from(files["a.jpg"]);
    const frame = jpeg.indexOf(Buffer.from([0xff, 0xc0]));
    jpeg.writeUInt16BE(30000, frame + 5);
    jpeg.writeUInt16BE(30000, frame + 7);
    await expectRefused("a.jpg", jpeg, text);
    await expectRefused(
      "a.png",
      pngOf([head(30000, 30000), ["IDAT", deflateSync(Buffer.alloc(9))], ["IEND", Buffer.alloc(0)]]),
      text,
    );
    const tiff = deepTiff(3, 2, new Uint16Array(18), { 256: long(30000), 257: long(30000) });
    await expectRefused("a.tif", tiff, /900 megapixels; at most 60 megapixels are read at 16 bits a channel/);
    // few pixels in all, and a row of them longer than any picture's
    const strip = deepTiff(3, 2, new Uint16Array(18), { 256: long(5_000_000), 257: long(2) });
    await expectRefused("a.tif", strip, /claims 5,000,000 × 2 pixels; sides of at most 65,535 are read/);
    const heic = Buffer.from(files["a.heic"]);
    const size = heic.indexOf("ispe");
    heic.writeUInt32BE(30000, size + 8);
    heic.writeUInt32BE(30000, size + 12);
    await expectRefused("a.heic", heic, /claims 30,000 × 30,000|damaged/);
    // a raw file's preview is held to the same
    await expectRefused(
      "a.dng",
      makeTiff({ 262: short(32803), 513: place(jpeg), 514: long(jpeg.length) }),
      text,
    );
  });

  it("[PF22] packed bombs unpack no further than a picture's own size", async () => {
    const bomb = deflateSync(Buffer.alloc(60_000_000));
    const rows = deflateSync(Buffer.alloc(31 * 10));
    const hidden = (kind: string) =>
      [kind, Buffer.concat([Buffer.from("of ours\0\0", "latin1"), bomb])] as const;
    for (const chunk of [hidden("zTXt"), hidden("iCCP")]) {
      const said = await refused(
        "a.png",
        pngOf([head(10, 10), chunk, ["IDAT", rows], ["IEND", Buffer.alloc(0)]]),
      );
      expect(said.kind, said.text).toBe("read");
      expect([said.ms < MOST_MS, said.mb < MOST_MB], `${chunk[0]}: ${said.ms} ms, ${said.mb} MB`).toEqual([
        true,
        true,
      ]);
    }
    const said = await refused("a.png", pngOf([head(10, 10), ["IDAT", bomb], ["IEND", Buffer.alloc(0)]]));
    expect([said.ms < MOST_MS, said.mb < MOST_MB], `${said.text}: ${said.ms} ms, ${said.mb} MB`).toEqual([
      true,
      true,
    ]);
  });

  it("[PF23] directories that lead in a circle, strips of huge claims and nested profiles end", async () => {
    const circle = deepTiff(3, 2, new Uint16Array(18), { 330: long(8), 34665: long(8) });
    // the next directory is the first
    circle.writeUInt32LE(8, 8 + 2 + 12 * circle.readUInt16LE(8));
    expect((await refused("a.tif", circle)).ms).toBeLessThan(MOST_MS);
    const raw = makeTiff({ 262: short(32803), 330: long(8, 8, 8), 34665: long(8) });
    await expectRefused("a.dng", raw, /raw file without a JPEG/);
    const strips = deepTiff(3, 2, new Uint16Array(18), { 278: long(0xffffffff), 279: long(0xfffffff0) });
    const said = await refused("a.tif", strips);
    expect([said.ms < MOST_MS, said.mb < 150], `${said.text}: ${said.ms} ms, ${said.mb} MB`).toEqual([
      true,
      true,
    ]);
    // a profile that is said to be 4 GB, and one that holds itself
    const profile = Buffer.alloc(300, "acsp");
    const tagged = deepTiff(3, 2, new Uint16Array(18), { 34675: { kind: "bytes", bytes: profile } });
    expect((await refused("a.tif", tagged)).text).toMatch(
      /its colour profile cannot be read: it claims \d+ parts/,
    );
    const endless = Buffer.from(tagged);
    const at = endless.indexOf(Buffer.from([0x73, 0x87, 7, 0]));
    endless.writeUInt32LE(0xfffffff0, at + 4);
    expect((await refused("a.tif", endless)).ms).toBeLessThan(MOST_MS);
  });

  it("[PF22] a file larger than any photograph is not looked into", async () => {
    // never filled, so it costs nothing
    const bytes = new Uint8Array(256 * 1024 * 1024 + 1);
    bytes.set([0xff, 0xd8, 0xff]);
    await expectRefused("a.jpg", bytes, /has 257 MB; at most 256 MB are read; export a smaller copy/);
  });
});
