import { spawnSync } from "node:child_process";
import fs from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { exportShoots } from "./archive-export.ts";
import type { ArchiveCalls } from "./archive-file.ts";
import { type Library, openLibrary } from "./open.ts";
import { cellistShoot, fill } from "./testing/filled-library.ts";
import { newFolder, plainAround } from "./testing/fresh-library.ts";

let folder: string;
let library: Library;
const at = (...names: string[]) => join(folder, ...names);

beforeAll(() => {
  folder = newFolder();
  library = openLibrary(at("library.tapemark"), plainAround());
  const shoot = cellistShoot();
  const [first, ...frames] = shoot.frames;
  fill(
    library,
    { ...shoot, frames: [{ ...first, photograph: Buffer.alloc(900_000, 7) }, ...frames] },
    at("card"),
  );
  fs.mkdirSync(at("out"));
});
afterAll(() => {
  library.close();
  fs.rmSync(folder, { recursive: true });
});

/** The real calls, of which the one with that number fails; how many there were. */
function failing(number: number, code: string): { files: ArchiveCalls; count: () => number } {
  let count = 0;
  const turn = () => {
    if (count++ === number) throw Object.assign(new Error(code), { code });
  };
  const files: ArchiveCalls = {
    openSync: (path, flags) => {
      turn();
      return fs.openSync(path, flags);
    },
    writeSync: (file, bytes, offset, length, position) => {
      turn();
      // as a system may: a part of it
      return fs.writeSync(file, bytes, offset, Math.min(length, 500_000), position);
    },
    fsync: async (file) => {
      turn();
      fs.fsyncSync(file);
    },
    renameSync: (from, to) => {
      turn();
      fs.renameSync(from, to);
    },
    closeSync: fs.closeSync,
    rmSync: fs.rmSync,
  };
  return { files, count: () => count };
}

describe("[LB42] an archive is there whole or not at all", () => {
  it("wherever writing fails, what lay there stays and nothing lies beside it", async () => {
    const out = at("out", "a.zip");
    const whole = failing(-1, "");
    await exportShoots(library, { shoot: "cellist" }, out, { files: whole.files });
    const calls = whole.count();
    expect(calls).toBeGreaterThan(30);
    fs.writeFileSync(out, "the old one");
    for (let number = 0; number < calls; number++) {
      const { files } = failing(number, ["ENOSPC", "EIO", "EROFS"][number % 3]);
      await expect(
        exportShoots(library, { shoot: "cellist" }, out, { files }),
        String(number),
      ).rejects.toThrow(
        /^could not write the archive .*(the disk is full; free|reported an error; try|is read-only; choose)/,
      );
      expect(fs.readFileSync(out, "utf8")).toBe("the old one");
      expect(fs.readdirSync(at("out"))).toEqual(["a.zip"]);
    }
  });
  it("over a folder or the library itself it is refused; a shoot that is not there makes none", async () => {
    const to = (path: string, shoot = "cellist") => exportShoots(library, { shoot }, path);
    await expect(to(at("card"))).rejects.toThrow(/it is a folder; name a file/);
    await expect(to(library.path)).rejects.toThrow(/is the library itself; name another file/);
    await expect(to(at("out/b.zip"), "nobody")).rejects.toThrow(/there is no shoot "nobody"/);
    expect(fs.existsSync(at("out/b.zip"))).toBe(false);
  });
  it("a photograph that grows while it is copied breaks it off", async () => {
    const path = at("card", "cellist-IMG_0001.JPG-false", "IMG_0001.JPG");
    const before = fs.readFileSync(path);
    const onProgress = () => fs.appendFileSync(path, "more");
    await expect(
      exportShoots(library, { shoot: "cellist" }, at("out/c.zip"), { onProgress }),
    ).rejects.toThrow(/changed while it was read/);
    fs.writeFileSync(path, before);
    expect(fs.existsSync(at("out/c.zip"))).toBe(false);
  });
});

/** The command where no file may grow larger than so many KiB. */
function within(kib: number, words: readonly string[]) {
  const command = ["bin/tapemark.js", ...words].map((word) => `'${word}'`).join(" ");
  // without the trap the system ends whoever writes past it
  const line = `trap '' XFSZ; ulimit -f ${kib}; exec '${process.execPath}' ${command}`;
  const done = spawnSync("bash", ["-c", line], { encoding: "utf8" });
  return { code: done.status, error: done.stderr };
}

describe.runIf(process.platform !== "win32")("[LB54] a disk that is full", () => {
  it("gives no half copy: what lay there stays", () => {
    fs.writeFileSync(at("out/copy.tapemark"), "the old one");
    const { code, error } = within(64, [
      "library",
      "copy",
      "--out",
      at("out/copy.tapemark"),
      "--library",
      library.path,
    ]);
    expect(error).toMatch(/^tapemark: .*(full|fails|reported an error).*; .*untouched/);
    expect(code).toBe(3);
    expect(fs.readFileSync(at("out/copy.tapemark"), "utf8")).toBe("the old one");
    expect(fs.readdirSync(at("out")).filter((name) => name.includes(".tmp"))).toEqual([]);
  });
  it("takes nothing in by half", async () => {
    await exportShoots(library, { shoot: "cellist" }, at("whole.zip"));
    openLibrary(at("other/library.tapemark"), plainAround()).close();
    const { code, error } = within(600, [
      "shoots",
      "import",
      at("whole.zip"),
      "--library",
      at("other/library.tapemark"),
    ]);
    expect(error).toMatch(/^tapemark: .*; /);
    expect(code).toBe(3);
    expect(fs.readdirSync(at("other/photographs"))).toEqual([]);
    const other = openLibrary(at("other/library.tapemark"), plainAround());
    expect(other.read((db) => db.prepare("SELECT count(*) AS n FROM shoots").get())).toEqual({ n: 0 });
    other.close();
  });
});
