import fs from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { exportShoots } from "./archive-export.ts";
import { importArchive } from "./archive-import.ts";
import { type Library, openLibrary } from "./open.ts";
import { cellistShoot, fill } from "./testing/filled-library.ts";
import { newFolder, plainAround } from "./testing/fresh-library.ts";
import { openZip } from "./zip-read.ts";

let folder: string;
let library: Library;
const around = plainAround();
const at = (...names: string[]) => join(folder, ...names);
const into = (name: string) => openLibrary(at(name, "library.tapemark"), around);
const bytes = (name: string) => fs.readFileSync(at(name));

beforeEach(() => {
  folder = newFolder();
  library = into("from");
  fill(library, cellistShoot(), at("card"));
});
afterEach(() => {
  library.close();
  fs.rmSync(folder, { recursive: true });
});

describe("an archive of a shoot", () => {
  it("[LB40] holds the plans, their history and versions, readings, frames and what was read, in open formats", async () => {
    const made = await exportShoots(library, { shoot: "cellist" }, at("a.zip"));
    expect(made).toMatchObject({ shoots: 1, plans: 2, frames: 3, photographs: 2 });
    expect(made.missing).toEqual([{ name: "IMG_0002.JPG", path: null }]);
    const zip = await openZip(at("a.zip"));
    expect([...zip.names].sort()).toEqual([
      "frames.json",
      "frames/IMG_0001 2.jpg",
      "frames/IMG_0001.jpg",
      "plans/Cellist 2.history.json",
      "plans/Cellist 2.json",
      "plans/Cellist.history.json",
      "plans/Cellist.json",
      "read/IMG_0001 2.json",
      "read/IMG_0001.json",
      "read/IMG_0002.json",
      "readings.csv",
      "shoot.json",
      "thumbnails/IMG_0001 2.jpg",
      "thumbnails/IMG_0001.jpg",
      "versions/Cellist 2/001 first light.json",
      "versions/Cellist 2/002 CON.json",
      "versions/Cellist/001 first light.json",
      "versions/Cellist/002 CON.json",
    ]);
    const plan = JSON.parse((await zip.bytes("plans/Cellist.json", 1e6)).toString());
    expect(plan.camera.position[1]).toBe(0.1 + 0.2);
    expect((await zip.bytes("frames.json", 1e6)).toString()).not.toContain(folder);
    zip.close();
  });
  it("[LB40] nothing is held up afterwards: the journal goes into the library's file at once", async () => {
    await exportShoots(library, { shoot: "cellist" }, at("a.zip"));
    library.write((db) => db.exec("UPDATE shoots SET title = 'later'"));
    expect(library.db.prepare("PRAGMA wal_checkpoint(TRUNCATE)").get()).toMatchObject({ busy: 0, log: 0 });
  });
  it("[LB41] comes back to the bit: exported, taken into an empty library and exported again it is the same bytes", async () => {
    await exportShoots(library, { shoot: "cellist" }, at("a.zip"));
    const other = into("other");
    const taken = await importArchive(other, at("a.zip"), around);
    expect(taken).toMatchObject({ shoots: [{ id: "cellist", how: "new" }], photographs: 2 });
    expect(fs.readdirSync(at("other", "photographs"))).toEqual(["cellist"]);
    await exportShoots(other, { shoot: "cellist" }, at("b.zip"));
    expect(bytes("b.zip").equals(bytes("a.zip"))).toBe(true);
    other.close();
  });
  it("[LB41] the whole library likewise, with the gear book", async () => {
    fill(library, { ...cellistShoot("poster"), isPutAway: true, date: null }, at("card"));
    const light = { stops: 0.5, uncertaintyStops: 0.1, measuredOn: "2026-11-20" };
    const book = { format: "tapemark/gear", version: 1, bodies: {}, lights: { key: light } };
    library.write((db) =>
      db.prepare("INSERT INTO gear VALUES (1, ?, 4)").run(`${JSON.stringify(book, null, 2)}\n`),
    );
    await exportShoots(library, "all", at("a.zip"));
    const other = into("other");
    expect(await importArchive(other, at("a.zip"), around)).toMatchObject({ photographs: 4, gear: 1 });
    await exportShoots(other, "all", at("b.zip"));
    expect(bytes("b.zip").equals(bytes("a.zip"))).toBe(true);
    expect((await importArchive(other, at("a.zip"), around)).shoots.map(({ how }) => how)).toEqual([
      "there",
      "there",
    ]);
    other.close();
  });
  it("[LB43] taken in twice it is there once; where the shoot has changed it becomes a second one, once", async () => {
    await exportShoots(library, { shoot: "cellist" }, at("a.zip"));
    const again = () => importArchive(library, at("a.zip"), around);
    expect((await again()).shoots).toMatchObject([{ id: "cellist", how: "there" }]);
    library.write((db) => db.exec("UPDATE shoots SET notes = 'worked on since', revision = revision + 1"));
    const [second] = (await again()).shoots;
    expect(second.how).toBe("second");
    expect((await again()).shoots).toMatchObject([{ id: second.id, how: "there" }]);
    const rows = library.read((db) => db.prepare("SELECT id, notes FROM shoots ORDER BY notes").all());
    expect(rows).toMatchObject([{ id: second.id }, { id: "cellist", notes: "worked on since" }]);
    const kept = library.read((db) => db.prepare("SELECT count(*) AS n FROM versions").get());
    expect(kept).toEqual({ n: 8 });
  });
  it("[LB40] takes a sheet of each plan where one can be made", async () => {
    const sheet = async () => Buffer.from("%PDF-");
    await exportShoots(library, { shoot: "cellist" }, at("a.zip"), { sheet });
    const zip = await openZip(at("a.zip"));
    expect(zip.names.filter((name) => name.startsWith("sheets/"))).toEqual([
      "sheets/Cellist.pdf",
      "sheets/Cellist 2.pdf",
    ]);
    zip.close();
    expect((await importArchive(library, at("a.zip"), around)).shoots[0].how).toBe("there");
  });
});
