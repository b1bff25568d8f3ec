import { describe, expect, it } from "vitest";
import { EMPTY_BOOK, type GearBook, type KeptLight } from "../workbench/index.ts";
import { createGearShelf } from "./gear-shelf.ts";
import { freshLibrary, plainAround } from "./testing/fresh-library.ts";

const light = (stops: number, measuredOn = "2026-11-26"): KeptLight => ({
  stops,
  uncertaintyStops: 0.1,
  measuredOn,
});
const book = (lights: Record<string, KeptLight>, from?: GearBook): GearBook => ({
  bodies: {},
  ...from,
  lights,
});

function started() {
  const library = freshLibrary();
  return {
    library,
    one: createGearShelf(library, plainAround()),
    two: createGearShelf(library, plainAround()),
  };
}

describe("[CA22] the gear book in the library", () => {
  it("none is an empty one; what is kept is there again", async () => {
    const { one, two } = started();
    expect(await one.load()).toEqual({ ...EMPTY_BOOK, revision: 0 });
    await one.save(book({ key: light(0.6) }, await one.load()));
    expect(await two.load()).toEqual({ ...book({ key: light(0.6) }), revision: 1 });
  });
  it("one that is damaged is set aside and said, and nothing of it is lost", async () => {
    const { library, one } = started();
    await one.save(book({ key: light(0.6) }));
    library.db.exec("UPDATE gear SET book = substr(book, 1, 60)");
    const loaded = await one.load();
    expect(loaded).toMatchObject(EMPTY_BOOK);
    expect(loaded.notice).toMatch(/could not be read: it was set aside in .* as "gear book set aside 2026-/);
    expect(library.db.prepare("SELECT value FROM about").all()).toEqual([
      { value: expect.stringMatching(/^\{\n {2}"format": "tapemark\/gear"/) },
    ]);
    expect(await one.load()).toEqual({ ...EMPTY_BOOK, revision: 2 });
  });
});

describe("[LB5] two who learn at once both keep what they learnt", () => {
  it("what one did not change stays as the other left it; what one took away is gone", async () => {
    const { one, two } = started();
    await one.save(book({ a: light(1), b: light(2), c: light(3) }));
    const [mine, theirs] = [await one.load(), await two.load()];
    await two.save(book({ ...theirs.lights, b: light(2.5), d: light(4) }, theirs));
    const merged = await one.save(book({ a: light(1.5), b: light(2) }, mine));
    expect(merged).toEqual({ ...book({ a: light(1.5), b: light(2.5), d: light(4) }), revision: 3 });
    expect(await two.load()).toEqual(merged);
  });
  it("where the program was started anew meanwhile the later measurement stays and nothing is taken away", async () => {
    const { library, one, two } = started();
    await one.save(book({ a: light(1), b: light(2, "2026-11-20") }));
    const old = await two.load();
    await one.save(book({ a: light(1, "2026-11-27"), b: light(2, "2026-11-20") }, await one.load()));
    const anew = createGearShelf(library, plainAround());
    const merged = await anew.save(book({ a: light(9), b: light(9), c: light(9) }, old));
    expect(merged.lights).toEqual({ a: light(1, "2026-11-27"), b: light(9), c: light(9) });
    expect(merged.over).toEqual(book({ b: light(2, "2026-11-20") }));
  });
  it("the same learnt in both is as the later left it, who hears what the other had", async () => {
    const { one, two } = started();
    await one.save(book({ a: light(1) }));
    const [mine, theirs] = [await one.load(), await two.load()];
    expect(await two.save(book({ a: light(2) }, theirs))).not.toHaveProperty("over");
    const merged = await one.save(book({ a: light(3) }, mine));
    expect(merged).toEqual({ ...book({ a: light(3) }), revision: 3, over: book({ a: light(2) }) });
    expect(await two.load()).toEqual({ ...book({ a: light(3) }), revision: 3 });
  });
});
