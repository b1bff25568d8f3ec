import fs from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { copyLibrary } from "./copies.ts";
import { copiesToKeep, copyName } from "./copies-keep.ts";
import { restoreCopy } from "./copies-restore.ts";
import { newestCopy, startDailyCopies } from "./daily.ts";
import { type Library, openLibrary } from "./open.ts";
import { cellistShoot, fill } from "./testing/filled-library.ts";
import { newFolder, plainAround } from "./testing/fresh-library.ts";

let folder: string;
let library: Library;
const around = plainAround();
const at = (...names: string[]) => join(folder, ...names);
const titles = (path: string) => {
  const { db, close } = openLibrary(path, around);
  const rows = db.prepare("SELECT title FROM shoots ORDER BY id").all();
  close();
  return (rows as { title: string }[]).map(({ title }) => title);
};

beforeEach(() => {
  folder = newFolder();
  library = openLibrary(at("library.tapemark"), around);
  fill(library, cellistShoot(), at("card"));
});
afterEach(() => {
  library.close();
  fs.rmSync(folder, { recursive: true });
});

describe("[LB50] a copy is one file with all that is kept, and counts once it has been opened and found whole", () => {
  it("as it was when it began, while others write", async () => {
    const copying = copyLibrary(library.path, at("copy.tapemark"));
    library.write((db) => db.exec("UPDATE shoots SET title = 'later'"));
    const made = await copying;
    expect(made).toMatchObject({ shoots: 1, plans: 2, versions: 4, frames: 3, thumbnails: 3 });
    expect(fs.readdirSync(folder).filter((name) => name.startsWith("copy") || name.startsWith("."))).toEqual([
      "copy.tapemark",
    ]);
    expect(titles(at("copy.tapemark"))).toEqual(["Cellist / season poster"]);
  });
  it("never over the library itself, nor where it may not be written; what was there stays", async () => {
    await expect(copyLibrary(library.path, library.path)).rejects.toThrow(
      "is the library itself; name another",
    );
    fs.symlinkSync(library.path, at("link.tapemark"));
    await expect(copyLibrary(library.path, at("link.tapemark"))).rejects.toThrow("is the library itself");
    await expect(copyLibrary(library.path, at("no/such/copy.tapemark"))).rejects.toThrow(
      /could not be opened|could not write/,
    );
    await expect(copyLibrary(at("none.tapemark"), at("x"))).rejects.toThrow("there is no library at");
    expect(fs.existsSync(at("x"))).toBe(false);
  });
  it("a library that is damaged gives no copy, and the last one stays", async () => {
    await copyLibrary(library.path, at("copy.tapemark"));
    const good = fs.readFileSync(at("copy.tapemark"));
    const bad = Buffer.from(good);
    bad.fill(7, 4096 * 3, 4096 * 6);
    fs.writeFileSync(at("bad.tapemark"), bad);
    await expect(copyLibrary(at("bad.tapemark"), at("copy.tapemark"))).rejects.toThrow(/damaged/);
    expect(fs.readFileSync(at("copy.tapemark")).equals(good)).toBe(true);
    expect(fs.readdirSync(folder).filter((name) => name.endsWith(".tmp"))).toEqual([]);
  });
});

describe("[LB51] of the daily copies the last seven days, four weeks and twelve months stay, whatever the clock says", () => {
  const days = (first: string, count: number) =>
    Array.from({ length: count }, (_, i) =>
      new Date(Date.parse(first) + i * 86_400_000).toISOString().slice(0, 10),
    );
  it("after two years of days: those", () => {
    const { keep, drop, ahead } = copiesToKeep(days("2025-01-01", 730).map(copyName), "2026-12-31");
    expect(keep.map((name) => name.slice(8, 18))).toEqual([
      ...["2026-12-31", ...days("2026-12-25", 6).reverse()],
      ...["2026-12-20", "2026-12-13", "2026-11-30", "2026-10-31", "2026-09-30", "2026-08-31", "2026-07-31"],
      ...["2026-06-30", "2026-05-31", "2026-04-30", "2026-03-31", "2026-02-28", "2026-01-31"],
    ]);
    expect(keep.length + drop.length).toBe(730);
    expect(ahead).toEqual([]);
  });
  it("a clock set back drops nothing that is ahead of it; what is none of ours is left alone", () => {
    const names = [
      ...days("2026-11-20", 7).map(copyName),
      "library.tapemark",
      "library 2026-13-01.tapemark",
      "notes.txt",
    ];
    const { keep, drop, ahead } = copiesToKeep([...names, copyName("2020-01-01")], "2020-01-01");
    expect(keep).toEqual([copyName("2020-01-01")]);
    expect(drop).toEqual([]);
    expect(ahead).toHaveLength(7);
  });
  it("whatever days there are: the newest stays, and no more than those 23 days", () => {
    const day = fc.integer({ min: 0, max: 3000 }).map((n) => days("2024-01-01", n + 1)[n]);
    fc.assert(
      fc.property(fc.uniqueArray(day, { maxLength: 60 }), day, (made, today) => {
        const { keep, drop, ahead } = copiesToKeep(made.map(copyName), today);
        expect([...keep, ...drop, ...ahead].sort()).toEqual(made.map(copyName).sort());
        expect(new Set(keep).size).toBeLessThanOrEqual(7 + 4 + 12);
        const past = made.filter((one) => one <= today).sort();
        if (past.length > 0) expect(keep).toContain(copyName(past[past.length - 1]));
        expect(ahead.every((name) => name > copyName(today))).toBe(true);
        // a second look finds nothing more to drop
        expect(copiesToKeep([...keep, ...ahead], today).drop).toEqual([]);
      }),
      { seed: 51, numRuns: 100 },
    );
  });
});

describe("[LB52] a copy a day, made by itself", () => {
  it("one by hand beside it; what failed is told with its cure and disturbs nothing", async () => {
    const said: string[] = [];
    const daily = startDailyCopies(library, {
      make: (path, target) => copyLibrary(path, target, { never: "over" }),
      now: around.now,
      tell: (line) => said.push(line),
    });
    fs.mkdirSync(at("copies"));
    for (const day of ["2026-11-25", "2031-01-01"]) fs.writeFileSync(at("copies", copyName(day)), "");
    const made = await daily.now();
    expect(newestCopy(library.path)).toMatchObject({ path: made.path, isVerified: true });
    expect(daily.trouble()).toBe(null);
    expect(said.join()).toMatch(/1 copies in .* are dated later than today: they are kept; check the clock/);
    fs.rmSync(at("copies"), { recursive: true });
    fs.writeFileSync(at("copies"), "in the way");
    await expect(daily.now()).rejects.toThrow();
    expect(said[1]).toMatch(/^no copy was made: /);
    library.write((db) => db.exec("UPDATE shoots SET title = 'goes on'"));
    daily.stop();
  });
});

describe("[LB53] going back to a copy", () => {
  it("the present library is set aside, and nothing of it is lost", async () => {
    await copyLibrary(library.path, at("then.tapemark"));
    library.write((db) => db.exec("UPDATE shoots SET title = 'worked on since'"));
    await copyLibrary(library.path, at("now.tapemark"));
    const { aside, shoots } = await restoreCopy(at("now.tapemark"), at("then.tapemark"), around);
    expect(shoots).toBe(1);
    expect(titles(at("now.tapemark"))).toEqual(["Cellist / season poster"]);
    expect(titles(aside ?? "")).toEqual(["worked on since"]);
  });
  it("refused while anybody has the library open", async () => {
    await copyLibrary(library.path, at("copy.tapemark"));
    await expect(restoreCopy(library.path, at("copy.tapemark"), around)).rejects.toThrow(
      /is open in another Tapemark; end that one/,
    );
    expect(titles(library.path)).toEqual(["Cellist / season poster"]);
  });
  it("a library that is damaged or gone is replaced too; what is no sound copy is refused", async () => {
    await copyLibrary(library.path, at("copy.tapemark"));
    fs.writeFileSync(at("broken.tapemark"), "not a library any more".repeat(500));
    const { aside } = await restoreCopy(at("broken.tapemark"), at("copy.tapemark"), around);
    expect(fs.readFileSync(aside ?? "", "utf8")).toMatch(/^not a library/);
    expect(titles(at("broken.tapemark"))).toEqual(["Cellist / season poster"]);
    expect((await restoreCopy(at("gone/library.tapemark"), at("copy.tapemark"), around)).aside).toBe(null);
    for (const [name, text] of [
      ["text.tapemark", "no"],
      ["empty.tapemark", ""],
    ]) {
      fs.writeFileSync(at(name), text);
      await expect(restoreCopy(at("broken.tapemark"), at(name), around)).rejects.toThrow(/;/);
    }
    expect(titles(at("broken.tapemark"))).toEqual(["Cellist / season poster"]);
    expect(fs.readdirSync(folder).filter((name) => name.endsWith(".tmp"))).toEqual([]);
  });
});
