/** Real files in a real folder, written as cameras' programs and copying people write them. */
import fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { createDesk, type Desk } from "./index.ts";
import { NO_GEAR, plainReader } from "./testing/plain-reader.ts";
import { endingOf } from "./watch-whole.ts";

let folder: string;
let desk: Desk;
let reader: ReturnType<typeof plainReader>;
let clock_ms: number;
const at = (...names: string[]) => join(folder, ...names);
const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

beforeEach(() => {
  folder = fs.mkdtempSync(join(tmpdir(), "tapemark-watch-"));
  reader = plainReader();
  clock_ms = 0;
  desk = createDesk({ reader, gear: NO_GEAR, now: () => new Date(Date.now() + clock_ms) });
});
afterEach(async () => {
  await desk.stop();
  fs.rmSync(folder, { recursive: true, force: true });
});

/** As far as its form goes: one segment with a small picture's end in it, a scan, an end. */
function jpeg(text = ""): Buffer {
  const inside = Buffer.concat([Buffer.from(text), Buffer.from([0xff, 0xd9])]);
  const length = Buffer.alloc(2);
  length.writeUInt16BE(inside.length + 2);
  const scan = [0xff, 0xda, 0, 2, 1, 2, 0xff, 0, 3, 0xff, 0xd0, 4];
  return Buffer.concat([
    Buffer.from([0xff, 0xd8, 0xff, 0xe1]),
    length,
    inside,
    Buffer.from([...scan, 0xff, 0xd9]),
  ]);
}
const RAW = Buffer.from("II*\0 a raw file of some camera");

/** The desk once it looks so; the names that were read by then. */
async function until(
  check: (state: Awaited<ReturnType<Desk["state"]>>) => boolean,
  limit_ms = 4000,
): Promise<Awaited<ReturnType<Desk["state"]>>> {
  const end = performance.now() + limit_ms;
  for (let state = await desk.state(0); ; state = await desk.state(0)) {
    if (check(state)) return state;
    if (performance.now() > end)
      throw new Error(`never came: ${JSON.stringify([state.pending, reader.names])}`);
    await pause(10);
  }
}
const names = (state: Awaited<ReturnType<Desk["state"]>>) => state.frames.map(({ name }) => name);

describe("[DK5] what comes into a watched folder", () => {
  it("is read within a second, two folders deep; what lay there and what is no photograph is not", async () => {
    fs.writeFileSync(at("old.jpg"), jpeg());
    fs.mkdirSync(at("roll"));
    await desk.watch(folder);
    fs.writeFileSync(at("notes.txt"), "set-up 2");
    fs.writeFileSync(at(".new2.jpg"), jpeg());
    fs.writeFileSync(at("roll", "deep.JPG"), jpeg());
    let state = await until(({ frames }) => frames.length === 1);
    // a machine busy with the tests beside this one may be late, but not each time
    let took_ms = Number.POSITIVE_INFINITY;
    for (let tries = 1; tries <= 3 && took_ms >= 1000; tries++) {
      const began = performance.now();
      fs.writeFileSync(at(`new${tries}.jpg`), jpeg(`${tries}`));
      state = await until(({ frames }) => frames.length === 1 + tries);
      took_ms = performance.now() - began;
    }
    expect(took_ms).toBeLessThan(1000);
    const known = state.frames.length;
    expect(names(state).sort().slice(0, 2)).toEqual(["deep.JPG", "new1.jpg"]);
    fs.mkdirSync(at("roll", "day"));
    fs.writeFileSync(at("roll", "day", "deeper.jpg"), jpeg());
    await until(({ frames }) => frames.length === known + 1);
    // an old file under another name is still an old one; one that is replaced is new
    fs.renameSync(at("old.jpg"), at("older.jpg"));
    await pause(500);
    expect(reader.names).not.toContain("older.jpg");
    fs.writeFileSync(at("older.jpg"), jpeg("retaken"));
    await until((s) => names(s).includes("older.jpg"));
  });
  it("nothing is changed or deleted, and nothing is read once it is left", async () => {
    await desk.watch(`${folder}/`);
    fs.writeFileSync(at("a.jpg"), jpeg());
    await until(({ frames }) => frames.length === 1);
    await desk.watch(null);
    fs.writeFileSync(at("b.jpg"), jpeg());
    await pause(400);
    expect(reader.names).toEqual(["a.jpg"]);
    expect(fs.readdirSync(folder)).toEqual(["a.jpg", "b.jpg"]);
    expect(fs.readFileSync(at("a.jpg"))).toEqual(jpeg());
  });
});

describe("[DK6] a file that is being written is waited for", () => {
  it("one that grows slowly is read once, whole", async () => {
    await desk.watch(folder);
    const whole = jpeg("at 2026-11-26T10:00:00 ");
    for (let k = 0; k < 6; k++) {
      fs.appendFileSync(at("slow.jpg"), whole.subarray(k * 10, k === 5 ? undefined : (k + 1) * 10));
      await pause(250);
      if (k === 3)
        expect((await desk.state(0)).pending).toMatchObject([{ name: "slow.jpg", state: "being written" }]);
    }
    const state = await until(({ frames }) => frames.length === 1);
    expect(state.pending).toEqual([]);
    expect(reader.names).toEqual(["slow.jpg"]);
    expect(state.frames[0].reading.image.exif.takenAt).toBe("2026-11-26T10:00:00");
  });
  it("one whose room was set aside, one under a temporary name, one renamed afterwards, one replaced", async () => {
    await desk.watch(folder);
    fs.writeFileSync(at("aside.jpg"), Buffer.alloc(jpeg().length));
    fs.writeFileSync(at("shot.jpg.part"), jpeg().subarray(0, 9));
    await pause(400);
    expect(reader.names).toEqual([]);
    fs.writeFileSync(at("aside.jpg"), jpeg());
    fs.appendFileSync(at("shot.jpg.part"), jpeg().subarray(9));
    fs.renameSync(at("shot.jpg.part"), at("shot.jpg"));
    await until(({ frames }) => frames.length === 2);
    expect([...reader.names].sort()).toEqual(["aside.jpg", "shot.jpg"]);
    fs.renameSync(at("shot.jpg"), at("poster-1.jpg"));
    await until((s) => names(s).includes("poster-1.jpg"));
    fs.writeFileSync(at("aside.jpg"), jpeg("again"));
    const before = (await desk.state(0)).frames.find(({ name }) => name === "aside.jpg");
    const state = await until(
      ({ frames }) => frames.find(({ name }) => name === "aside.jpg")?.id !== before?.id,
    );
    expect(names(state).sort()).toEqual(["aside.jpg", "poster-1.jpg"]);
  });
});

describe("[DK3] what could not be read is told, until it can", () => {
  it("with the reason and the cure", async () => {
    await desk.watch(folder);
    fs.writeFileSync(at("x.jpg"), jpeg("bad"));
    const failed = await until(({ pending }) => pending[0]?.state === "failed");
    expect(failed.pending).toEqual([
      { name: "x.jpg", state: "failed", problem: "x.jpg is no photograph; hand over a JPEG" },
    ]);
    fs.writeFileSync(at("x.jpg"), jpeg("good"));
    const state = await until(({ frames }) => frames.length === 1);
    expect(state.pending).toEqual([]);
  });
});

describe("[DK8] a raw file and the picture beside it are one frame", () => {
  it.each([
    ["raw first", ["1.CR2", "1.JPG"]],
    ["picture first", ["1.JPG", "1.CR2"]],
  ])("%s", async (_, order) => {
    await desk.watch(folder);
    for (const name of order) {
      fs.writeFileSync(at(name), name.endsWith("JPG") ? jpeg() : RAW);
      await pause(200);
    }
    await until(({ frames }) => frames.length === 1);
    await pause(1200);
    expect(reader.names).toEqual(["1.JPG"]);
    expect((await desk.state(0)).pending).toEqual([]);
  });
  it("a raw file alone is read; the picture takes its place, unless it comes long after", async () => {
    await desk.watch(folder);
    for (const name of ["1.nef", "2.nef"]) fs.writeFileSync(at(name), RAW);
    await until(({ frames }) => frames.length === 2);
    fs.writeFileSync(at("1.jpg"), jpeg());
    await until((s) => names(s).sort().join() === "1.jpg,2.nef");
    clock_ms = 60_000;
    fs.writeFileSync(at("2.jpg"), jpeg());
    await until((s) => names(s).sort().join() === "1.jpg,2.jpg,2.nef");
  });
});

describe("[DK9] a folder that is not there", () => {
  it("goes away: told; comes back: watched again, with what came meanwhile", async () => {
    const inside = at("card");
    fs.mkdirSync(inside);
    fs.writeFileSync(join(inside, "old.jpg"), jpeg());
    await desk.watch(inside);
    fs.renameSync(inside, at("away"));
    const gone = await until(({ folderProblem }) => folderProblem !== null);
    expect(gone.folderProblem).toMatch(/card is not there any more; put it or its drive back/);
    fs.writeFileSync(at("away", "meanwhile.jpg"), jpeg());
    fs.renameSync(at("away"), inside);
    const back = await until(({ frames }) => frames.length === 1);
    expect(back).toMatchObject({ folder: inside, folderProblem: null });
    expect(names(back)).toEqual(["meanwhile.jpg"]);
    fs.writeFileSync(join(inside, "after.jpg"), jpeg());
    await until(({ frames }) => frames.length === 2);
  });
  it.skipIf(process.getuid?.() === 0)("one that may not be read is refused with the cure", async () => {
    // root may read anything, so this runs for other users only
    fs.chmodSync(folder, 0);
    await expect(desk.watch(folder)).rejects.toThrow(/permission is denied/);
    fs.chmodSync(folder, 0o700);
  });
});

describe("[DK7] a file's own end says whether it is whole", () => {
  const png = Buffer.concat([
    Buffer.from("89504e470d0a1a0a", "hex"),
    Buffer.alloc(20),
    Buffer.from("IEND1234"),
  ]);
  const webp = Buffer.concat([Buffer.from("RIFF\x14\0\0\0WEBP"), Buffer.alloc(16)]);
  const boxes = Buffer.concat([
    Buffer.from("\0\0\0\x10ftypheic1234"),
    Buffer.from("\0\0\0\x01mdat\0\0\0\0\0\0\0\x18"),
    Buffer.alloc(8),
  ]);
  const behind = Buffer.concat([jpeg(), Buffer.from("what a telephone adds")]);
  it.each([
    ["jpeg", jpeg(), jpeg().length - 1],
    ["jpeg with something behind", behind, jpeg().length - 1],
    ["png", png, png.length - 1],
    ["webp", webp, webp.length - 1],
    ["heic", boxes, boxes.length - 1],
  ])("%s", async (_, bytes, cut) => {
    fs.writeFileSync(at("f"), bytes);
    expect(await endingOf(at("f"))).toBe("whole");
    for (const length of [0, 5, 20, cut]) {
      fs.writeFileSync(at("f"), bytes.subarray(0, length));
      expect(await endingOf(at("f")), `${length} bytes`).toBe("unfinished");
    }
  });
  it("a TIFF has none", async () => {
    fs.writeFileSync(at("f"), RAW);
    expect(await endingOf(at("f"))).toBe("cannot tell");
  });
});
