import fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeEach, describe, expect, it } from "vitest";
import { type FileCalls, fileError, writeWholeFile } from "./index.ts";

let folder: string;
let target: string;
let temporary: string;
const NEW = new TextEncoder().encode("the new picture");

beforeEach(() => {
  folder = fs.mkdtempSync(join(tmpdir(), "tapemark-whole-"));
  target = join(folder, "a.png");
  temporary = join(folder, ".a.tmp");
  fs.writeFileSync(target, "old");
});

function failure(code: string): Error {
  return Object.assign(new Error(`${code}: as the system says it`), { code });
}

/** Every place where writing can break off: the real calls, one of which fails. */
const BREAKS: [string, Partial<FileCalls>][] = [
  [
    "the disk fills up half way",
    {
      writeSync: (file, bytes, offset, length) => {
        if (offset > 0) throw failure("ENOSPC");
        return fs.writeSync(file, bytes, offset, Math.min(4, length));
      },
    },
  ],
  [
    "the disk reports an error when it is waited for",
    {
      fsyncSync: () => {
        throw failure("EIO");
      },
    },
  ],
  [
    "the new name is refused",
    {
      renameSync: () => {
        throw failure("EPERM");
      },
    },
  ],
];

describe("[WB8] a file is written whole or not at all", () => {
  it("replaces the old one and leaves nothing beside it", () => {
    writeWholeFile(fs, target, temporary, NEW);
    expect(fs.readFileSync(target, "utf8")).toBe("the new picture");
    expect(fs.readdirSync(folder)).toEqual(["a.png"]);
  });
  it("goes on where the system takes only a part at a time", () => {
    const slow: FileCalls = { ...fs, writeSync: (f, b, o, l) => fs.writeSync(f, b, o, Math.min(4, l)) };
    writeWholeFile(slow, target, temporary, NEW);
    expect(fs.readFileSync(target, "utf8")).toBe("the new picture");
  });
  it.each(BREAKS)("%s: the old file stays, nothing lies beside it", (_, broken) => {
    expect(() => writeWholeFile({ ...fs, ...broken }, target, temporary, NEW)).toThrow(/as the system/);
    expect(fs.readFileSync(target, "utf8")).toBe("old");
    expect(fs.readdirSync(folder)).toEqual(["a.png"]);
  });
  it("never writes into another's temporary file", () => {
    fs.writeFileSync(temporary, "somebody's");
    expect(() => writeWholeFile(fs, target, temporary, NEW)).toThrow(/EEXIST/);
    expect(fs.readFileSync(temporary, "utf8")).toBe("somebody's");
  });
});

describe("[WB9] a file system's error is said with reason and cure", () => {
  it.each([
    ["ENOSPC", "could not write a.png: the disk is full; free some space and try again"],
    ["EROFS", "could not write a.png: the disk is read-only; choose a folder on another disk"],
    ["EODD", "could not write a.png: EODD: as the system says it; try again"],
  ])("%s", (code, message) =>
    expect(fileError("could not write a.png", failure(code)).message).toBe(message),
  );
});
