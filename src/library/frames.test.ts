import fs from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { createDesk, type Desk } from "../files/index.ts";
import { NO_GEAR, plainReader } from "../files/testing/plain-reader.ts";
import { createFrameShelf } from "./index.ts";
import { smallLibrary } from "./testing/small-library.ts";

let small: ReturnType<typeof smallLibrary>;
let desk: Desk;
const startDesk = () =>
  createDesk({
    reader: plainReader(),
    gear: NO_GEAR,
    now: small.parts.now,
    shelf: createFrameShelf(small.library, small.parts),
  });
beforeEach(async () => {
  small = smallLibrary();
  desk = startDesk();
  await small.save("a", { title: "Cellist", lights: [] });
  await small.save("b", { title: "Board" });
  small.hand.set("a");
});
afterEach(async () => {
  await desk.stop();
  small.end();
});

const bytes = (text: string) => new TextEncoder().encode(text);
const news = () => new Promise((resolve) => setImmediate(resolve));
const shootOf = async (key: string) => (await small.shoots.shootOf(key)) as string;
const framesOf = async (key: string) => (await small.shoots.frames(await shootOf(key), 0, 100)).rows;
const onDesk = async (of = desk) => (await of.state(0)).frames.map(({ name }) => name);
const at = (...names: string[]) => join(small.folder, ...names);
const JPEG_END = Buffer.from([0xff, 0xd9]);
const jpeg = (text: string) =>
  Buffer.concat([
    Buffer.from([0xff, 0xd8, 0xff, 0xe1, 0, text.length + 2]),
    bytes(text),
    Buffer.from([0xff, 0xda, 0, 2, 1]),
    JPEG_END,
  ]);
async function until(check: () => Promise<boolean>) {
  for (const end = performance.now() + 4000; !(await check()); await new Promise((r) => setTimeout(r, 20)))
    if (performance.now() > end)
      throw new Error(`never came: ${JSON.stringify((await desk.state(0)).pending)}`);
}

describe("[LB24] a test frame lies in the shoot of the work in hand", () => {
  it("with what was read, its thumbnail, and the plan's version, one for each change of the plan", async () => {
    await desk.read("1.jpg", bytes("one at 2026-11-27T09:00:00"));
    await desk.read("2.jpg", bytes("two at 2026-11-27T09:00:10"));
    await small.save("a", { title: "Cellist", lights: [{ name: "key" }] });
    const third = await desk.read("3.jpg", bytes("three"));
    const rows = await framesOf("a");
    expect(rows.map(({ name }) => name)).toEqual(["3.jpg", "1.jpg", "2.jpg"]);
    const [{ versions }] = (await small.shoots.whole(await shootOf("a"))).plans;
    expect(versions).toMatchObject([
      { number: 1, name: "for 1.jpg", isAutomatic: true },
      { number: 2, name: "for 3.jpg", isAutomatic: true },
    ]);
    expect(rows.map(({ version }) => version)).toEqual([1, 0, 0].map((i) => versions[i].id));
    expect(rows[1]).toMatchObject({
      ...{ key: "a", path: null, takenAt: "2026-11-27T09:00:00", width: 60, height: 40 },
      ...{ pattern: null, stars: 0, isSelect: false, hasThumbnail: true },
    });
    // the evening's plan is shot the next day
    expect((await small.shoots.whole(await shootOf("a"))).shoot.date).toBe("2026-11-27");
    // read again it is the same frame, under the version it came under
    await small.save("a", { title: "Cellist", lights: [] });
    await desk.read("3.jpg", bytes("three"));
    expect((await framesOf("a")).map(({ id }) => id)).toContain(third.id);
    expect((await small.shoots.whole(await shootOf("a"))).plans[0].versions).toHaveLength(2);
  });
  it("the desk shows those of the shoot in hand; the same file in two shoots is two frames", async () => {
    const first = await desk.read("1.jpg", bytes("one"));
    small.hand.set("b");
    await news();
    expect(await onDesk()).toEqual([]);
    const second = await desk.read("1.jpg", bytes("one"));
    expect(second.id).not.toBe(first.id);
    await small.shoots.pick(first.id, { stars: 4 });
    expect([...(await framesOf("a")), ...(await framesOf("b"))].map(({ stars }) => stars)).toEqual([4, 0]);
    small.hand.set("a");
    await news();
    expect((await desk.state(0)).frames).toEqual([first]);
  });
  it("on no plan that is kept it lies in one of that day, until the plan is kept", async () => {
    await desk.read("0.jpg", bytes("zero"));
    small.hand.set(null);
    await desk.read("1.jpg", bytes("one"));
    const { rows } = await small.shoots.find({ text: "frames of", offset: 0, limit: 9 });
    expect(rows).toMatchObject([{ title: "Frames of 2026-11-26", frames: 1, plans: 0 }]);
    expect(await onDesk()).toEqual(["1.jpg"]);
    // an older plan takes nothing of it
    small.hand.set("b");
    expect(await framesOf("b")).toEqual([]);
    small.hand.set(null);
    await desk.read("2.jpg", bytes("two"));
    await small.save("new", { title: "New" });
    small.hand.set("new");
    expect(await framesOf("new")).toMatchObject([{ name: "2.jpg", key: "new", version: null }]);
    await news();
    expect(await onDesk()).toEqual(["2.jpg"]);
    expect((await small.shoots.frames(rows[0].id, 0, 9)).rows.map(({ name }) => name)).toEqual(["1.jpg"]);
  });
});

describe("[LB25] frames are there after a restart", () => {
  it("with their reading; those taken off the desk are out of the library, their files stay", async () => {
    fs.mkdirSync(at("card"));
    fs.writeFileSync(at("card", "kept.jpg"), jpeg("k"));
    await desk.watch(at("card"));
    for (const name of ["1.jpg", "2.jpg"]) fs.writeFileSync(at("card", name), jpeg(name));
    await until(async () => (await onDesk()).length === 2);
    const [first, second] = (await desk.state(0)).frames;
    await desk.forget(first.id);
    await expect(desk.forget(first.id)).rejects.toThrow(/no such frame/);
    const picked = await small.shoots.pick(second.id, { stars: 5, isSelect: true });
    expect(await small.shoots.frame(second.id)).toEqual(picked);
    await desk.stop();
    desk = startDesk();
    expect((await desk.state(0)).frames).toEqual([second]);
    expect(await desk.picture(second.id)).toEqual({ jpeg: expect.anything(), isThumbnail: false });
    expect(fs.readdirSync(at("card"))).toEqual(["1.jpg", "2.jpg", "kept.jpg"]);
    // dropped elsewhere it leaves the desk too
    createFrameShelf(small.library, small.parts).drop(second.id);
    await news();
    expect(await onDesk()).toEqual([]);
    expect(await desk.picture(second.id)).toBeNull();
    expect(await small.shoots.frame(second.id)).toBeNull();
    await expect(small.shoots.pick(second.id, { stars: 1 })).rejects.toThrow(/there is no frame/);
  });
});

describe("[LB26] a photograph that was moved away", () => {
  it("is told with its place; its thumbnail stands in; found in a watched folder it takes its place", async () => {
    fs.mkdirSync(at("card"));
    await desk.watch(at("card"));
    fs.writeFileSync(at("card", "1.jpg"), jpeg("first"));
    await until(async () => (await onDesk()).length === 1);
    const [{ id }] = (await desk.state(0)).frames;
    await small.shoots.pick(id, { stars: 3 });
    await desk.stop();
    fs.mkdirSync(at("archive", "day"), { recursive: true });
    fs.renameSync(at("card", "1.jpg"), at("archive", "day", "1.jpg"));
    fs.writeFileSync(at("archive", "1.jpg"), jpeg("another of that name"));
    desk = startDesk();
    const [lost] = (await desk.state(0)).frames;
    expect(lost.away).toBe(
      `the file is not at ${at("card", "1.jpg")} any more; put it back, or watch the folder that it is in now`,
    );
    expect(await desk.picture(id)).toMatchObject({ isThumbnail: true });
    await desk.watch(at("archive"));
    await until(async () => (await desk.state(0)).frames[0]?.away === undefined);
    expect(await framesOf("a")).toMatchObject([{ id, path: at("archive", "day", "1.jpg"), stars: 3 }]);
    expect(await desk.picture(id)).toMatchObject({ isThumbnail: false });
  });
  it("renamed or replaced in place, a frame keeps its stars and its shoot", async () => {
    fs.mkdirSync(at("card"));
    await desk.watch(at("card"));
    fs.writeFileSync(at("card", "1.jpg"), jpeg("first"));
    await until(async () => (await onDesk()).length === 1);
    await small.shoots.pick((await framesOf("a"))[0].id, { stars: 2, isSelect: true });
    small.hand.set("b");
    fs.renameSync(at("card", "1.jpg"), at("card", "poster.jpg"));
    await until(async () => (await framesOf("a"))[0].name === "poster.jpg");
    expect(await framesOf("b")).toEqual([]);
    expect(await framesOf("a")).toMatchObject([{ stars: 2, isSelect: true }]);
    small.hand.set("a");
    const [{ id }] = await framesOf("a");
    fs.writeFileSync(at("card", "poster.jpg"), jpeg("worked over"));
    await until(async () => (await framesOf("a"))[0].id !== id);
    expect(await framesOf("a")).toMatchObject([{ stars: 2, isSelect: true }]);
  });
});
