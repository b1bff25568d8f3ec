import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readingOf } from "../files/testing/plain-reader.ts";
import { createFrameShelf, recordFrames, recordOf } from "./index.ts";
import { smallLibrary } from "./testing/small-library.ts";

const small = smallLibrary();
const shelf = createFrameShelf(small.library, small.parts);
const plan = (title: string, more: object = {}) => ({ format: "tapemark/plan", version: 1, title, ...more });
let shoot: string;

async function take(name: string, minute: number, pick: object = {}): Promise<string> {
  const reading = readingOf(name, `2026-11-26T10:${String(minute).padStart(2, "0")}:00`);
  const photo = { id: name, reading, preview: null, thumbnail: new Uint8Array([255, 216]) };
  const { id } = shelf.put(photo, { path: `/card/${name}`, bytes: 1, before: [] });
  await small.shoots.pick(id, pick);
  return id;
}

const light = (stopsDown: number) => ({
  lights: [
    {
      name: "key",
      position: [1, -1, 2],
      direction: { at: [0, 0, 1.6] },
      face: { shape: "point" },
      output: { wattSeconds: 400, stopsDown },
    },
  ],
});
const READING = { readings: [{ name: "late", fNumber: 8, position: [0, 0, 1.5] }] };

beforeAll(async () => {
  await small.save("evening", plan("Cellist", light(2)));
  small.hand.set("evening");
  shoot = (await small.shoots.shootOf("evening")) as string;
  await small.shoots.change(shoot, 1, { title: "Season poster", place: "Halden Hall", date: "2026-11-26" });
});
afterAll(() => small.end());

describe("[RC9] which photographs are on a record", () => {
  it("none yet; then the last one taken, for want of a pick", async () => {
    expect(recordFrames(small.library, shoot, null)).toEqual([]);
    await take("a.jpg", 1);
    await take("c.jpg", 3);
    await take("b.jpg", 2);
    expect(recordFrames(small.library, shoot, null).map(({ name }) => name)).toEqual(["c.jpg"]);
  });
  it("a select before stars, more stars before fewer, the earlier before the later; at most nine", async () => {
    await small.shoots.pick("b.jpg", { stars: 5 });
    await small.shoots.pick("a.jpg", { stars: 2, isSelect: true });
    await small.shoots.pick("c.jpg", { stars: 5 });
    expect(recordFrames(small.library, shoot, "evening").map(({ name }) => name)).toEqual([
      "a.jpg",
      "b.jpg",
      "c.jpg",
    ]);
    for (let n = 10; n < 20; n++) await take(`${n}.jpg`, n, { stars: 1 });
    expect(recordFrames(small.library, shoot, null)).toHaveLength(9);
    const { photos } = recordOf(small.library, shoot, null);
    expect(photos).toHaveLength(9);
    expect(photos[0]).toMatchObject({
      name: "a.jpg",
      stars: 2,
      isSelect: true,
      thumbnail: expect.anything(),
    });
  });
});

describe("[RC10] which plan is on a record", () => {
  it("shot on the first version: nothing to tell changes from", () => {
    const { plan: set, planned, shoot: fields } = recordOf(small.library, shoot, null);
    expect(set.lights[0].output).toMatchObject({ stopsDown: 2 });
    expect(planned).toBeNull();
    expect(fields).toMatchObject({ title: "Season poster", place: "Halden Hall", date: "2026-11-26" });
  });
  it("the version that the pick was shot on, readings made since, changes from the first", async () => {
    await small.save("evening", plan("Cellist", light(2.7)));
    await take("best.jpg", 30, { stars: 5, isSelect: true });
    await small.save("evening", plan("Cellist", { ...light(3.5), ...READING }));
    const { plan: set, planned } = recordOf(small.library, shoot, null);
    expect(set.lights[0].output).toMatchObject({ stopsDown: 2.7 });
    expect(set.readings.map(({ name }) => name)).toEqual(["late"]);
    expect(planned?.plan.lights[0].output).toMatchObject({ stopsDown: 2 });
    expect(planned?.name).toMatch(/^version 1, /);
  });
  it("of another plan of the shoot, without photographs of its own: as it is saved now", async () => {
    await small.save("second", plan("Board"));
    await small.shoots.move("second", shoot);
    const { plan: set, photos, planned } = recordOf(small.library, shoot, "second");
    expect([set.title, photos.length, planned]).toEqual(["Board", 0, null]);
  });
});

describe("[RC11] what cannot be recorded", () => {
  it("is refused with the cure", async () => {
    expect(() => recordOf(small.library, "nowhere", null)).toThrow(/shoot/);
    expect(() => recordOf(small.library, shoot, "elsewhere")).toThrow(/no plan "elsewhere"/);
    const empty = await small.shoots.create({ title: "Only planned in the head" });
    expect(() => recordOf(small.library, empty.id, null)).toThrow(/in the head has no plan yet; move a plan/);
    await small.save("damaged", { title: "Damaged" });
    const lies = (await small.shoots.shootOf("damaged")) as string;
    expect(() => recordOf(small.library, lies, null)).toThrow(
      /cannot be read: .*; open it in the workbench/s,
    );
  });
});
