import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { decodePhotograph } from "./index.ts";
import {
  bytesOf,
  directory,
  long,
  makeTiff,
  place,
  rational,
  short,
  type Tags,
  text,
} from "./testing/make-tiff.ts";

/** Plain grey JPEGs of a size each, so that it shows which was read. */
const jpeg = (width: number, height: number, level: number) =>
  sharp({ create: { width, height, channels: 3, background: { r: level, g: level, b: level } } })
    .jpeg({ quality: 95 })
    .toBuffer();

const small = await jpeg(160, 120, 40);
const large = await jpeg(640, 480, 118);
const middle = await jpeg(320, 240, 200);
/** A lossless JPEG's header, as sensors' numbers are packed: larger than any picture, and none. */
const lossless = Buffer.from([
  0xff, 0xd8, 0xff, 0xc3, 0, 11, 14, 0x20, 0, 0x20, 0, 1, 1, 0x11, 0, 0xff, 0xd9,
]);

const strip = (bytes: Buffer, more: Tags = {}): Tags => ({
  259: short(6),
  273: place(bytes),
  279: long(bytes.length),
  ...more,
});
const thumb: Tags = { 259: short(6), 513: place(small), 514: long(small.length) };
const sensor: Tags = {
  254: long(0),
  256: long(8192),
  257: long(8192),
  262: short(32803),
  ...strip(lossless),
};
const camera: Tags = {
  271: text("Maker"),
  272: text("Body 5"),
  34665: directory({
    33434: rational([1, 160]),
    33437: rational([80, 10]),
    34855: short(200),
    36867: text("2026:11:26 10:12:30"),
    37521: text("25"),
    37385: short(0x0f),
    37386: rational([85, 1]),
    41989: short(127),
    42033: text("A-1234"),
    42036: text("85 mm of ours"),
    40961: short(1),
  }),
};

const EXIF = {
  make: "Maker",
  model: "Body 5",
  serial: "A-1234",
  lens: "85 mm of ours",
  fNumber: 8,
  shutter: 1 / 160,
  iso: 200,
  focalLength: 85,
  focalLength35: 127,
  flash: true,
  takenAt: "2026-11-26T10:12:30.25",
};

async function expectLarge(name: string, bytes: Buffer): Promise<void> {
  const photo = await decodePhotograph(name, bytes);
  expect([photo.kind, photo.width, photo.height], name).toEqual(["raw preview", 640, 480]);
  expect(photo.notes, name).toEqual(["the JPEG inside a raw file, 640 × 480"]);
  expect(photo.exif, name).toEqual(EXIF);
  expect(photo.colour, name).toMatchObject({ profile: "sRGB", isAssumed: false });
  expect(photo.picture.rgb[0], name).toBeCloseTo(0.1812, 2);
}

describe("raw files", () => {
  it("[PF18] the largest JPEG inside is read, wherever the directories put it; Exif is the raw file's own", async () => {
    // as each family of cameras lays it out
    await expectLarge(
      "a.dng",
      makeTiff({
        ...thumb,
        ...camera,
        50706: bytesOf(Buffer.from([1, 4, 0, 0])),
        330: directory({ ...strip(large), 254: long(1) }),
      }),
    );
    await expectLarge(
      "a.nef",
      makeTiff({
        ...thumb,
        ...camera,
        330: directory({ ...sensor, 330: directory({ 513: place(large), 514: long(large.length) }) }),
      }),
    );
    await expectLarge(
      "a.arw",
      makeTiff({
        ...camera,
        ...strip(middle, { 513: place(large), 514: long(large.length) }),
        330: directory(sensor),
      }),
    );
    await expectLarge("a.rw2", makeTiff({ ...camera, 46: bytesOf(large) }, "IIU\0"));
    // in notes of the maker's own, where no directory leads
    await expectLarge(
      "a.orf",
      Buffer.concat([makeTiff({ ...thumb, ...camera }, "IIRO"), Buffer.alloc(33), large]),
    );
  });

  it("[PF18] so are those that are built otherwise", async () => {
    const box = (kind: string, ...bodies: Uint8Array[]) => {
      const body = Buffer.concat(bodies);
      const head = Buffer.alloc(8);
      head.writeUInt32BE(8 + body.length, 0);
      head.write(kind, 4, "latin1");
      return Buffer.concat([head, body]);
    };
    const { 34665: inside, ...outside } = camera as Record<number, { tags: Tags }>;
    const blocks = [makeTiff(outside as unknown as Tags), makeTiff({ 34665: inside as never })];
    const uuid = box(
      "uuid",
      Buffer.alloc(16, 0x85),
      box("CMT1", blocks[0]),
      box("CMT2", makeTiff(inside.tags)),
    );
    const cr3 = Buffer.concat([
      box("ftyp", Buffer.from("crx \0\0\0\x01crx isom", "latin1")),
      box("moov", uuid),
      box("uuid", Buffer.alloc(24), small),
      box("mdat", large, lossless),
    ]);
    await expectLarge("a.cr3", cr3);
    const raf = Buffer.concat([
      Buffer.from("FUJIFILMCCD-RAW 0201", "latin1"),
      Buffer.alloc(128),
      large,
      lossless,
    ]);
    const photo = await decodePhotograph("a.raf", raf);
    expect([photo.kind, photo.width]).toEqual(["raw preview", 640]);
  });

  it("[PF18] a preview is turned as the raw file was held", async () => {
    const held = makeTiff({ ...camera, ...strip(large), 274: short(6), 330: directory(sensor) });
    expect(await decodePhotograph("a.cr2", held)).toMatchObject({ width: 480, height: 640 });
  });

  it("[PF18] one without a JPEG says so, with the cure", async () => {
    await expect(decodePhotograph("a.dng", makeTiff({ ...camera, ...sensor }))).rejects.toMatchObject({
      name: "WorkError",
      problem: "a.dng is a raw file without a JPEG inside that can be read",
      cure: "have the camera write JPEG beside raw, or export one",
    });
  });
});

describe("Exif", () => {
  const within = async (tags: Tags) => {
    const exif = Buffer.concat([Buffer.from("Exif\0\0", "latin1"), makeTiff(tags)]);
    const head = Buffer.from([0xff, 0xe1, (exif.length + 2) >> 8, (exif.length + 2) & 255]);
    return decodePhotograph("a.jpg", Buffer.concat([small.subarray(0, 2), head, exif, small.subarray(2)]));
  };

  it("[PF19] a camera's own words are taken", async () => {
    const photo = await within({ ...camera, 274: short(8) });
    expect(photo.exif).toEqual(EXIF);
    expect([photo.width, photo.height]).toEqual([120, 160]);
    expect(photo.colour.isAssumed).toBe(false);
  });

  it("[PF19] what cannot be true is not known: no infinity, no year 0, nothing endless", async () => {
    const { exif } = await within({
      271: text("M\u0007ak\ner".padEnd(500, "x")),
      34665: directory({
        33434: rational([1, 0]),
        33437: rational([0, 1]),
        34855: short(0),
        36867: text("0000:00:00 00:00:00"),
        37386: rational([4e9, 1]),
        41989: short(0),
      }),
    });
    expect(exif).toMatchObject({ shutter: null, fNumber: null, iso: null, takenAt: null, focalLength: null });
    expect(exif.focalLength35).toBe(null);
    expect(exif.make).toMatch(/^Makerx{58}…$/);
    expect(exif.flash).toBe(null);
  });

  it("[PF19] an entry that claims more than there is costs nothing and says nothing", async () => {
    const bytes = makeTiff({ 271: text("Maker of ours"), 34665: directory({ 33434: rational([1, 160]) }) });
    // the shutter's count: two thousand million numbers
    const at = bytes.indexOf(Buffer.from([0x9a, 0x82, 5, 0]));
    bytes.writeUInt32LE(0x7fffffff, at + 4);
    const exif = Buffer.concat([Buffer.from("Exif\0\0", "latin1"), bytes]);
    const head = Buffer.from([0xff, 0xe1, (exif.length + 2) >> 8, (exif.length + 2) & 255]);
    const before = process.memoryUsage().rss;
    const photo = await decodePhotograph(
      "a.jpg",
      Buffer.concat([small.subarray(0, 2), head, exif, small.subarray(2)]),
    );
    expect(photo.exif.shutter).toBe(null);
    expect(process.memoryUsage().rss - before).toBeLessThan(100e6);
  });

  it("[PF19] Adobe RGB by Exif alone is taken as that", async () => {
    const photo = await within({
      34665: directory({ 40961: short(0xffff), 40965: directory({ 1: text("R03") }) }),
    });
    expect(photo.colour).toMatchObject({ profile: "Adobe RGB (1998)", isAssumed: false });
  });
});
