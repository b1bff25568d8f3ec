import fs from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { APPLICATION_ID, MIGRATIONS } from "./migrations.ts";
import { openLibrary } from "./open.ts";
import { keepSafely, openFile } from "./sqlite.ts";
import { newFolder, plainAround } from "./testing/fresh-library.ts";
import { columnsOf, faultsOf, makeOldLibrary, OLD_FORMS, rowsOf } from "./testing/old-library.ts";

const newPath = () => join(newFolder(), "library.tapemark");

describe("[LB6] a library of every earlier form is brought to today's, and nothing of it is lost", () => {
  it("there is something to bring forward", () => expect(OLD_FORMS.length).toBeGreaterThanOrEqual(2));
  it.each(OLD_FORMS)("form %i", (form) => {
    const path = newPath();
    makeOldLibrary(path, form);
    const old = openFile(path, { readOnly: true });
    const columns = columnsOf(old);
    const before = rowsOf(old, columns);
    old.close();
    expect(Object.values(before).flat().length).toBeGreaterThan(4);
    const { db, close } = openLibrary(path, plainAround());
    expect(db.prepare("PRAGMA user_version").get()).toEqual({ user_version: MIGRATIONS.length });
    expect(faultsOf(db)).toEqual([]);
    const after = rowsOf(db, columns);
    for (const [table, rows] of Object.entries(before)) {
      // works without a shoot have been given one
      const isKept = (row: unknown) => !(table === "works" && (row as { shoot?: unknown }).shoot === null);
      expect(after[table], table).toEqual(expect.arrayContaining(rows.filter(isKept)));
    }
    expect(after.works).toHaveLength(before.works.length);
    close();
  });
  it.each(OLD_FORMS)(
    "[LB3] form %i: every work lies in a shoot, with its title and of the day it was saved",
    (form) => {
      const path = newPath();
      makeOldLibrary(path, form);
      const { db, close } = openLibrary(path, plainAround());
      expect(db.prepare("SELECT count(*) AS homeless FROM works WHERE shoot IS NULL").get()).toEqual({
        homeless: 0,
      });
      const own = db
        .prepare("SELECT s.title, s.date FROM works w JOIN shoots s ON s.id = w.shoot WHERE w.key = 'plan-1'")
        .get();
      expect(own).toEqual({ title: "Untitled", date: expect.stringMatching(/^2026-10-0[45]$/) });
      const shoots = db.prepare("SELECT count(*) AS n FROM shoots").get();
      close();
      const again = openLibrary(path, plainAround());
      expect(again.db.prepare("SELECT count(*) AS n FROM shoots").get()).toEqual(shoots);
      again.close();
    },
  );
  it("where a step fails the file stays of the form it had", () => {
    const path = newPath();
    // a table of that name is in the way of the second step
    makeOldLibrary(path, 1, (db) => db.exec("CREATE TABLE shoots (id TEXT)"));
    const bytes = fs.readFileSync(path);
    expect(() => openLibrary(path, plainAround())).toThrow(/already exists/);
    expect(fs.readFileSync(path).equals(bytes)).toBe(true);
  });
});

describe("[LB7] a library of a newer Tapemark is refused with the cure, untouched byte for byte", () => {
  const newer =
    /was made by a newer Tapemark \(form 99; this one knows up to \d+\); open it with that one, or name another/;
  function newerLibrary() {
    const path = newPath();
    openLibrary(path, plainAround()).close();
    const db = openFile(path);
    keepSafely(db);
    db.exec("PRAGMA user_version = 99");
    return { path, db };
  }
  it("one that was closed", () => {
    const { path, db } = newerLibrary();
    db.exec("PRAGMA wal_checkpoint(TRUNCATE)");
    db.close();
    const bytes = fs.readFileSync(path);
    expect(() => openLibrary(path, plainAround())).toThrow(newer);
    expect(fs.readFileSync(path).equals(bytes)).toBe(true);
  });
  it("one whose last steps are still in the journal, as after a kill", () => {
    const { path, db } = newerLibrary();
    const copy = newPath();
    for (const end of ["", "-wal"]) fs.copyFileSync(`${path}${end}`, `${copy}${end}`);
    db.close();
    const bytes = () => ["", "-wal"].map((end) => fs.readFileSync(`${copy}${end}`).toString("base64"));
    const before = bytes();
    expect(() => openLibrary(copy, plainAround())).toThrow(newer);
    expect(bytes()).toEqual(before);
  });
  it("one that became newer while it was open takes no more from this one", () => {
    const path = newPath();
    const library = openLibrary(path, plainAround());
    const other = openFile(path);
    other.exec("PRAGMA user_version = 99");
    expect(() => library.write(() => 1)).toThrow(newer);
    other.close();
    library.close();
  });
});

describe("[LB8] a file that is no library is refused in words and left as it is", () => {
  const refused = (path: string) => {
    const isFile = fs.statSync(path).isFile();
    const bytes = isFile ? fs.readFileSync(path) : null;
    let said = "";
    try {
      openLibrary(path, plainAround()).close();
    } catch (error) {
      said = (error as Error).message;
    }
    if (bytes !== null) expect(fs.readFileSync(path).equals(bytes)).toBe(true);
    return said.replace(path, "PATH");
  };
  const whole = () => {
    const path = newPath();
    openLibrary(path, plainAround()).close();
    return path;
  };
  it("a text, an empty file, a folder", () => {
    const [text, empty] = [newPath(), newPath()];
    fs.writeFileSync(text, "Dear cellist, ".repeat(50));
    fs.writeFileSync(empty, "");
    const cure = "name another library with --library";
    expect(refused(text)).toBe(`PATH is no library of Tapemark: it is another kind of file; ${cure}`);
    expect(refused(empty)).toBe(`PATH is no library of Tapemark: it is empty; ${cure}`);
    expect(refused(newFolder())).toBe(`PATH is no library of Tapemark: it is a folder; ${cure}`);
  });
  it("another program's SQLite file", () => {
    const path = newPath();
    const db = openFile(path);
    db.exec(`CREATE TABLE works (key TEXT); PRAGMA application_id = ${APPLICATION_ID + 1}`);
    db.close();
    expect(refused(path)).toMatch(/^PATH is no library of Tapemark: another program made it; name another/);
  });
  it.each([50, 5000, 20_000])("one of which only %i bytes are left", (length) => {
    const path = whole();
    fs.truncateSync(path, length);
    expect(refused(path)).toMatch(/^PATH is damaged; go back to the newest copy/);
  });
  it("a journal whose library is gone: nothing new begins over it", () => {
    const path = newPath();
    fs.writeFileSync(`${path}-wal`, "the last changes");
    expect(() => openLibrary(path, plainAround())).toThrow(
      /is not there, but its journal .*-wal is.*; put the library back/,
    );
    expect(fs.readFileSync(`${path}-wal`, "utf8")).toBe("the last changes");
    expect(fs.existsSync(path)).toBe(false);
  });
});
