import { spawnSync } from "node:child_process";
import fs from "node:fs";
import { join } from "node:path";
import { deflateRawSync } from "node:zlib";
import { afterAll, describe, expect, it } from "vitest";
import { newFolder } from "./testing/fresh-library.ts";
import { openZip } from "./zip-read.ts";
import { writeZip, type ZipPart } from "./zip-write.ts";

const folder = newFolder();
const path = join(folder, "a.zip");
afterAll(() => fs.rmSync(folder, { recursive: true }));

async function zipped(parts: readonly ZipPart[]): Promise<Buffer> {
  const pieces: [number, Buffer][] = [];
  const length = await writeZip(parts, (bytes, at) => void pieces.push([at, Buffer.from(bytes)]));
  const out = Buffer.alloc(length);
  for (const [at, bytes] of pieces) out.set(bytes, at);
  fs.writeFileSync(path, out);
  return out;
}

const text = (name: string, content: string | Uint8Array = name): ZipPart => ({
  name,
  bytes: () => Buffer.from(content),
});
const hasPython = spawnSync("python3", ["--version"]).status === 0;

describe("[LB46] archives are plain ZIP files", () => {
  it.runIf(hasPython)("another reader finds them sound, with names in any script", async () => {
    await zipped([
      text("a.txt"),
      text("ä/Ω 🎻.txt", ""),
      { name: "frames/b.jpg", path: import.meta.filename, size: fs.statSync(import.meta.filename).size },
    ]);
    const script = `import zipfile;z=zipfile.ZipFile(${JSON.stringify(path)});print(z.testzip(),z.namelist(),z.infolist()[0].date_time[:3])`;
    const { stdout } = spawnSync("python3", ["-c", script], { encoding: "utf8" });
    expect(stdout).toBe("None ['a.txt', 'ä/Ω 🎻.txt', 'frames/b.jpg'] (1980, 1, 1)\n");
  });
  it("with more files than the old form can count", async () => {
    const many = 65_600;
    await zipped(Array.from({ length: many }, (_, i) => text(String(i), "")));
    const zip = await openZip(path);
    expect(zip.names).toHaveLength(many);
    expect((await zip.bytes("65599", 10)).length).toBe(0);
    zip.close();
  });
  it("what was packed by others with deflate is read", async () => {
    const bytes = await zipped([text("shoot.json", "x".repeat(1000))]);
    const packed = deflateRawSync(Buffer.alloc(1000, "x"));
    const head = Buffer.from(bytes.subarray(0, 40));
    const directory = Buffer.from(bytes.subarray(1040, -22));
    const end = Buffer.from(bytes.subarray(-22));
    head.writeUInt16LE(8, 8);
    head.writeUInt32LE(packed.length, 18);
    directory.writeUInt16LE(8, 10);
    directory.writeUInt32LE(packed.length, 20);
    end.writeUInt32LE(40 + packed.length, 16);
    fs.writeFileSync(path, Buffer.concat([head, packed, directory, end]));
    const zip = await openZip(path);
    expect((await zip.bytes("shoot.json", 1000)).toString()).toBe("x".repeat(1000));
    zip.close();
  });
});

describe("[LB44] what an archive claims is not believed", () => {
  const refused = async (bytes: Uint8Array) => {
    fs.writeFileSync(path, bytes);
    const zip = await openZip(path);
    try {
      for (const name of zip.names) await zip.bytes(name, 1000);
    } finally {
      zip.close();
    }
  };
  it.each([
    "../up",
    "/etc/x",
    "C:/x",
    "a/../../x",
    "a\\..\\x",
    "con.txt",
    "a.",
    "nul",
    "a\u0000b",
    "x\u202egpj",
    "a//b",
  ])("a file named %j", async (name) => {
    await expect(refused(await zipped([text(name)]))).rejects.toThrow(/not taken anywhere|is damaged/);
  });
  it.each([
    ["two of one name, ignoring case", [text("Ä.json"), text("a\u0308.JSON")], /two files of one name/],
    ["more than is read", [text("big", "x".repeat(1001))], /has big of 1 MB; at most 1 MB are read/],
  ])("%s", async (_, parts, message) => {
    await expect(refused(await zipped(parts))).rejects.toThrow(message);
  });
  it("a link", async () => {
    const bytes = await zipped([text("a")]);
    bytes.writeUInt32LE(0o120777 * 0x10000, bytes.indexOf("PK\u0001\u0002") + 38);
    await expect(refused(bytes)).rejects.toThrow(/has a link in it/);
  });
  it("bytes that are not those that were put in, and a file that is cut off", async () => {
    const bytes = await zipped([text("a", "hello")]);
    const changed = Buffer.from(bytes);
    changed.set(Buffer.from("hallo"), 31);
    await expect(refused(changed)).rejects.toThrow(/has not the bytes that were put in/);
    await expect(refused(bytes.subarray(0, -5))).rejects.toThrow(/no ZIP archive, or is cut off/);
  });
  it("far more inside than outside, in one file or in many that lie on each other", async () => {
    const packed = deflateRawSync(Buffer.alloc(20_000_000));
    const bytes = await zipped([text("bomb", packed)]);
    const at = bytes.indexOf("PK\u0001\u0002");
    bytes.writeUInt16LE(8, at + 10);
    bytes.writeUInt32LE(20_000_000, at + 24);
    await expect(refused(bytes)).rejects.toThrow(/unpacks to far more than it is/);
    const parts = [text("a", Buffer.alloc(900)), text("b", Buffer.alloc(900))];
    const twice = await zipped(parts);
    const [first, second] = [twice.indexOf("PK\u0001\u0002"), twice.lastIndexOf("PK\u0001\u0002")];
    // both at the place of the first, and each as long as the whole
    for (const record of [first, second]) {
      twice.writeUInt32LE(twice.length, record + 20);
      twice.writeUInt32LE(twice.length, record + 24);
      twice.writeUInt32LE(0, record + 42);
    }
    await expect(refused(twice)).rejects.toThrow(/unpacks to far more than it is/);
  });
});
