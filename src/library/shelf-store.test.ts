import fs from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readShelf, type Shelf, STARTER_SHELF, shelfText, withoutPiece } from "../gear/index.ts";
import { exportShoots, importArchive } from "./index.ts";
import { openLibrary } from "./open.ts";
import { createShelfStore } from "./shelf-store.ts";
import { freshLibrary, newFolder, plainAround } from "./testing/fresh-library.ts";
import { openZip } from "./zip-read.ts";
import { writeZip } from "./zip-write.ts";

function shelfOf(masses: Readonly<Record<string, number>>): Shelf {
  const others = Object.entries(masses).map(([name, mass]) => ({ name, mass }));
  const read = readShelf({ format: "tapemark/shelf", version: 1, others });
  if (!read.ok) throw new Error("a sound shelf");
  return read.shelf;
}
const masses = (shelf: Shelf) => Object.fromEntries(shelf.others.map(({ mass, name }) => [name, mass]));

function started() {
  const library = freshLibrary();
  const store = () => createShelfStore(library, plainAround());
  return { library, one: store(), two: store(), store };
}

describe("[LB57] the gear shelf in the library", () => {
  it("none is the one to begin with, and is said to be; what is kept is there again, an empty one too", async () => {
    const { one, two, library } = started();
    expect(await one.load()).toEqual({ shelf: STARTER_SHELF, isStarter: true, revision: 0 });
    expect(library.db.prepare("SELECT count(*) AS n FROM shelf").get()).toEqual({ n: 0 });
    const kept = await one.save(shelfOf({}), 0);
    expect(kept).toEqual({ shelf: shelfOf({}), isStarter: false, revision: 1 });
    expect(await two.load()).toEqual(kept);
  });
  it("one that is damaged is set aside and said, and nothing of it is lost", async () => {
    const { library, one } = started();
    await one.save(shelfOf({ bag: 3 }), 0);
    library.db.exec("UPDATE shelf SET shelf = substr(shelf, 1, 60)");
    const loaded = await one.load();
    expect(loaded).toMatchObject({ shelf: STARTER_SHELF, isStarter: true });
    expect(loaded.notice).toMatch(
      /^the gear shelf could not be read: it was set aside in .* as "gear shelf set aside 2026-/,
    );
    expect(library.db.prepare("SELECT value FROM about").all()).toEqual([
      { value: expect.stringMatching(/^\{\n {2}"format": "tapemark\/shelf"/) },
    ]);
    expect(await one.load()).toMatchObject({ revision: 2 });
  });
  it("one that is not sound is refused with its place and changes nothing", async () => {
    const { one } = started();
    const wrong = { ...shelfOf({}), others: [{ name: "bag", mass: -3 }] } as unknown as Shelf;
    await expect(one.save(wrong, 0)).rejects.toThrow(
      /^the shelf cannot be kept: others\[0\]\.mass: must be .*; correct that/,
    );
    expect((await one.load()).isStarter).toBe(true);
  });
});

describe("[LB58] two who change the shelf at once both keep what they changed", () => {
  it("what one did not change stays as the other left it; what one took away is gone", async () => {
    const { one, two } = started();
    await one.save(shelfOf({ a: 1, b: 2, c: 3 }), 0);
    const [mine, theirs] = [await one.load(), await two.load()];
    await two.save(shelfOf({ a: 1, b: 2.5, c: 3, d: 4 }), theirs.revision);
    const merged = await one.save(shelfOf({ a: 1.5, b: 2 }), mine.revision);
    expect(masses(merged.shelf)).toEqual({ a: 1.5, b: 2.5, d: 4 });
    expect(await two.load()).toEqual(merged);
  });
  it("the same changed in both is as the later left it, who hears what the other had", async () => {
    const { one, two } = started();
    await one.save(shelfOf({ a: 1, b: 2 }), 0);
    const [mine, theirs] = [await one.load(), await two.load()];
    expect(await two.save(shelfOf({ a: 4, b: 2 }), theirs.revision)).not.toHaveProperty("over");
    const merged = await one.save(shelfOf({ a: 5, b: 2 }), mine.revision);
    expect([masses(merged.shelf), merged.over && masses(merged.over)]).toEqual([
      { a: 5, b: 2 },
      { a: 4, b: 2 },
    ]);
    expect(await two.load()).not.toHaveProperty("over");
  });
  it("where the program was started anew meanwhile nothing is taken away", async () => {
    const { one, two, store } = started();
    await one.save(shelfOf({ a: 1, b: 2 }), 0);
    const old = await two.load();
    await one.save(shelfOf({ a: 1, b: 2, c: 3 }), old.revision);
    const merged = await store().save(shelfOf({ a: 9 }), old.revision);
    expect(masses(merged.shelf)).toEqual({ a: 9, b: 2, c: 3 });
  });
});

describe("[LB59] the shelf in an archive of the whole library", () => {
  const at = (folder: string, name: string) => join(folder, name);
  const around = { ...plainAround(), newId: () => "never" };
  it("comes back to the bit; one that was never changed is in none", async () => {
    const folder = newFolder();
    const library = openLibrary(at(folder, "a.tapemark"), plainAround());
    await exportShoots(library, "all", at(folder, "none.zip"));
    expect((await openZip(at(folder, "none.zip"))).names).toEqual(["library.json"]);
    await createShelfStore(library, around).save(withoutPiece(STARTER_SHELF, "heads", 2), 0);
    await exportShoots(library, "all", at(folder, "a.zip"));
    const other = openLibrary(at(folder, "b.tapemark"), plainAround());
    expect(await importArchive(other, at(folder, "a.zip"), around)).toMatchObject({ gear: 0, shelf: 25 - 1 });
    expect((await createShelfStore(other, around).load()).shelf).toEqual(
      withoutPiece(STARTER_SHELF, "heads", 2),
    );
    await exportShoots(other, "all", at(folder, "b.zip"));
    expect(fs.readFileSync(at(folder, "b.zip")).equals(fs.readFileSync(at(folder, "a.zip")))).toBe(true);
  });
  it("what is here stays as it is, and what only the archive has is added", async () => {
    const folder = newFolder();
    const [from, to] = ["a", "b"].map((name) => openLibrary(at(folder, `${name}.tapemark`), plainAround()));
    await createShelfStore(from, around).save(shelfOf({ a: 1, b: 2 }), 0);
    await createShelfStore(to, around).save(shelfOf({ b: 9, c: 3 }), 0);
    await exportShoots(from, "all", at(folder, "a.zip"));
    expect((await importArchive(to, at(folder, "a.zip"), around)).shelf).toBe(1);
    expect(masses((await createShelfStore(to, around).load()).shelf)).toEqual({ b: 9, c: 3, a: 1 });
    expect((await importArchive(to, at(folder, "a.zip"), around)).shelf).toBe(0);
  });
});

describe("[LB60] a shelf in an archive that is none is refused by its name, and nothing of the archive stays", () => {
  it.each([
    ["is no gear shelf", '{"format":"tapemark/gear"}'],
    ["is no gear shelf", shelfText(STARTER_SHELF).replace('"version": 1', '"version": 2')],
  ])("%s: %#", async (told, text) => {
    const folder = newFolder();
    const path = join(folder, "a.zip");
    const parts = {
      "library.json": '{"format":"tapemark/library","version":1,"shoots":[]}',
      "shelf.json": text,
    };
    const out = fs.openSync(path, "w");
    await writeZip(
      Object.entries(parts).map(([name, of]) => ({ name, bytes: () => Buffer.from(of) })),
      (bytes, position) => void fs.writeSync(out, bytes, 0, bytes.length, position),
    );
    fs.closeSync(out);
    const library = freshLibrary();
    await expect(importArchive(library, path, { ...plainAround(), newId: () => "never" })).rejects.toThrow(
      told,
    );
    expect(library.db.prepare("SELECT count(*) AS n FROM shelf").get()).toEqual({ n: 0 });
  });
});
