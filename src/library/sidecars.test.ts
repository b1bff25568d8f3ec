import * as fs from "node:fs";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { Stars } from "../shoots/index.ts";
import { writeSidecars } from "./sidecars.ts";
import { decodeSidecar } from "./sidecars-text.ts";

const THEIRS = `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmp:Label="Blau"/></rdf:RDF></x:xmpmeta>`;
const PICTURE = new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3]);

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "tapemark-sidecars-"));
});
afterEach(() => {
  chmodSync(folder, 0o755);
  rmSync(folder, { recursive: true });
});

function photograph(name: string): string {
  const path = join(folder, name);
  writeFileSync(path, PICTURE);
  return path;
}
const rated = (path: string, stars: Stars = 3, isSelect = false) => ({ path, stars, isSelect });
const textIn = (name: string) => readFileSync(join(folder, name), "utf8");

describe("[SO24] a sidecar lies beside its photograph", () => {
  it("under its name, and the photograph is not touched", async () => {
    const path = photograph("IMG_1.jpg");
    expect(await writeSidecars([rated(path, 4, true)])).toEqual({ written: 1, unchanged: 0, problems: [] });
    expect(readdirSync(folder)).toEqual(["IMG_1.jpg", "IMG_1.xmp"]);
    expect(textIn("IMG_1.xmp")).toContain("<xmp:Rating>4</xmp:Rating>");
    expect(readFileSync(path)).toEqual(Buffer.from(PICTURE));
  });

  it("where the long name is there already, under that", async () => {
    const path = photograph("IMG_1.jpg");
    writeFileSync(join(folder, "IMG_1.jpg.xmp"), THEIRS);
    await writeSidecars([rated(path)]);
    expect(readdirSync(folder)).toEqual(["IMG_1.jpg", "IMG_1.jpg.xmp"]);
    expect(textIn("IMG_1.jpg.xmp")).toContain('xmp:Rating="3"');
    expect(textIn("IMG_1.jpg.xmp")).toContain('xmp:Label="Blau"');
  });

  it("two photographs of one name have one each", async () => {
    await writeSidecars([rated(photograph("IMG_1.jpg"), 1), rated(photograph("IMG_1.dng"), 5)]);
    expect(textIn("IMG_1.jpg.xmp")).toContain("Rating>1<");
    expect(textIn("IMG_1.dng.xmp")).toContain("Rating>5<");
  });

  it("without stars and select none is made", async () => {
    expect(await writeSidecars([rated(photograph("IMG_1.jpg"), 0)])).toEqual({
      written: 0,
      unchanged: 1,
      problems: [],
    });
    expect(readdirSync(folder)).toEqual(["IMG_1.jpg"]);
  });

  it("one that says the same is not written again", async () => {
    const path = photograph("IMG_1.jpg");
    await writeSidecars([rated(path)]);
    const long = new Date(1e12);
    utimesSync(join(folder, "IMG_1.xmp"), long, long);
    expect(await writeSidecars([rated(path)])).toEqual({ written: 0, unchanged: 1, problems: [] });
    expect(statSync(join(folder, "IMG_1.xmp")).mtime).toEqual(long);
  });
});

describe("[SO25] the encoding stays", () => {
  const encodings = {
    "UTF-8": Buffer.from(THEIRS, "utf8"),
    "UTF-8 with a mark": Buffer.from(`\uFEFF${THEIRS}`, "utf8"),
    "UTF-16 little endian with a mark": Buffer.from(`\uFEFF${THEIRS}`, "utf16le"),
    "UTF-16 little endian": Buffer.from(THEIRS, "utf16le"),
    "UTF-16 big endian with a mark": Buffer.from(`\uFEFF${THEIRS}`, "utf16le").swap16(),
  };
  it.each(Object.entries(encodings))("%s", async (_, bytes) => {
    const path = photograph("IMG_1.jpg");
    const sidecar = join(folder, "IMG_1.xmp");
    writeFileSync(sidecar, bytes);
    expect((await writeSidecars([rated(path)])).written).toBe(1);
    const [before, after] = [decodeSidecar(bytes), decodeSidecar(readFileSync(sidecar))];
    expect(after).toEqual({ ...before, text: after.text });
    expect(after.text).toContain('Rating="3"');
    expect(after.text).toContain("Blau");
  });
});

describe("[SO26] what hinders one photograph is told with its cure, and the others are written", () => {
  it("a photograph that is gone", async () => {
    const gone = join(folder, "IMG_0.jpg");
    const done = await writeSidecars([rated(gone), rated(photograph("IMG_1.jpg"))]);
    expect(done.written).toBe(1);
    expect(done.problems).toEqual([
      {
        name: "IMG_0.jpg",
        problem: `${gone} is no longer there`,
        cure: expect.stringContaining("bring the photograph back"),
      },
    ]);
    expect(existsSync(join(folder, "IMG_0.xmp"))).toBe(false);
  });

  it.each([
    ["damaged", THEIRS.slice(0, 120), "damaged"],
    ["no XMP", "<html/>", "no XMP"],
    ["in an encoding of its own", `<?xml version="1.0" encoding="ISO-8859-1"?>${THEIRS}`, "ISO-8859-1"],
  ])("a sidecar that is %s stays byte for byte", async (_, text, word) => {
    const path = photograph("IMG_1.jpg");
    writeFileSync(join(folder, "IMG_1.xmp"), text);
    const { problems, written } = await writeSidecars([rated(path)]);
    expect(written).toBe(0);
    expect(problems[0]?.problem).toContain(word);
    expect(problems[0]?.cure).toContain("mend it");
    expect(textIn("IMG_1.xmp")).toBe(text);
    expect(readdirSync(folder)).toHaveLength(2);
  });

  it("bytes that are no text", async () => {
    const path = photograph("IMG_1.jpg");
    const bytes = Buffer.concat([Buffer.from("<a>"), Buffer.from([0xc3, 0x28])]);
    writeFileSync(join(folder, "IMG_1.xmp"), bytes);
    const { problems } = await writeSidecars([rated(path)]);
    expect(problems[0]?.problem).toContain("not UTF-8");
    expect(readFileSync(join(folder, "IMG_1.xmp"))).toEqual(bytes);
  });

  it.each([
    ["openSync", "EROFS", "the disk is read-only"],
    ["openSync", "EACCES", "permission is denied"],
    ["writeSync", "ENOSPC", "the disk is full"],
    ["fsyncSync", "EIO", "the disk reported an error"],
    ["renameSync", "EACCES", "permission is denied"],
  ] as const)(
    "a disk that fails at %s with %s leaves the sidecar that was there",
    async (call, code, words) => {
      const path = photograph("IMG_1.jpg");
      writeFileSync(join(folder, "IMG_1.xmp"), THEIRS);
      const fail = () => {
        throw Object.assign(new Error(code), { code });
      };
      const { problems } = await writeSidecars([rated(path)], { ...fs, [call]: fail });
      expect(problems).toEqual([
        {
          name: "IMG_1.jpg",
          problem: `could not write ${join(folder, "IMG_1.xmp")}: ${words}`,
          cure: expect.any(String),
        },
      ]);
      expect(textIn("IMG_1.xmp")).toBe(THEIRS);
      expect(readdirSync(folder)).toHaveLength(2);
    },
  );

  // root writes everywhere
  it.skipIf(process.getuid?.() === 0)("a folder that is read-only", async () => {
    const path = photograph("IMG_1.jpg");
    chmodSync(folder, 0o555);
    const { problems } = await writeSidecars([rated(path)]);
    expect(problems[0]?.problem).toContain("permission is denied");
    expect(readdirSync(folder)).toEqual(["IMG_1.jpg"]);
  });

  it("a folder in the sidecar's place", async () => {
    const path = photograph("IMG_1.jpg");
    mkdirSync(join(folder, "IMG_1.xmp"));
    const { problems } = await writeSidecars([rated(path)]);
    expect(problems[0]).toEqual({
      name: "IMG_1.jpg",
      problem: `could not read ${join(folder, "IMG_1.xmp")}: it is a folder`,
      cure: "name a file",
    });
  });
});
