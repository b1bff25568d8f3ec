/** What can go wrong around a library, each with the real thing: what is said, and that the old state survives. */
import fs from "node:fs";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { amount } from "../../properties/amount.ts";
import { type Library, openLibrary } from "./open.ts";
import { createShoots } from "./shoots.ts";
import { runJob, startJob } from "./testing/children.ts";
import { newFolder, plainAround } from "./testing/fresh-library.ts";
import { faultsOf } from "./testing/old-library.ts";
import { savedWork } from "./testing/saved-work.ts";
import { createWorks } from "./works.ts";

const AROUND = plainAround();
const isPosix = process.platform !== "win32";
const isRoot = process.getuid?.() === 0;

function libraryIn(folder: string): {
  library: Library;
  works: ReturnType<typeof createWorks>;
  path: string;
} {
  const path = join(folder, "library.tapemark");
  const library = openLibrary(path, AROUND);
  return { library, works: createWorks(library, AROUND), path };
}

/** With one work of one revision in it, closed. */
async function keptIn(folder: string): Promise<string> {
  const { library, works, path } = libraryIn(folder);
  await works.save("w-0", savedWork("w-0", 1));
  library.close();
  return path;
}

async function demandKept(folder: string, revisions: readonly number[]): Promise<void> {
  const { library, works } = libraryIn(folder);
  const kept = await works.load("w-0");
  expect(revisions).toContain(kept?.revision);
  expect(kept).toEqual(savedWork("w-0", kept?.revision ?? 0));
  expect(library.read(faultsOf)).toEqual([]);
  library.close();
}

describe("[LB10] a disk that is full: the old state survives and it is said with the cure", {
  timeout: 300_000,
}, () => {
  const FULL =
    /^refused: .*library\.tapemark could not be written: the disk is full(, or fails)?; free some space/;
  // every write of opening, saving and bringing the journal into the file ends past some limit of these
  const limits = Array.from({ length: amount(60) }, (_, i) => Math.round((i * 240) / amount(60)));
  it.runIf(isPosix)(`no file may grow past a limit, ${limits.length} of them from 0 to 240 KiB`, async () => {
    const outcomes = { saved: 0, refused: 0 };
    for (const limit of limits) {
      const folder = newFolder();
      await keptIn(folder);
      const { lines } = await runJob("save", folder, limit);
      expect(lines).toHaveLength(1);
      const isSaved = lines[0] === "w-0 2";
      if (!isSaved) expect(lines[0]).toMatch(FULL);
      outcomes[isSaved ? "saved" : "refused"]++;
      await demandKept(folder, isSaved ? [2] : [1]);
      fs.rmSync(folder, { recursive: true });
    }
    // the limits begin under what a save takes and end over it
    expect(Math.min(outcomes.saved, outcomes.refused)).toBeGreaterThan(0);
  });
  it("a file that may have no more pages", async () => {
    const folder = newFolder();
    await keptIn(folder);
    const { library, works } = libraryIn(folder);
    const { page_count } = library.db.prepare("PRAGMA page_count").get() as { page_count: number };
    library.db.exec(`PRAGMA max_page_count = ${page_count}`);
    const large = { ...savedWork("w-0", 2), history: "long ".repeat(10_000) };
    await expect(works.save("w-0", large)).rejects.toThrow(
      /could not be written: the disk is full; free some space on it/,
    );
    expect(await works.load("w-0")).toEqual(savedWork("w-0", 1));
    library.db.exec("PRAGMA max_page_count = 100000");
    await works.save("w-0", savedWork("w-0", 2));
    library.close();
    await demandKept(folder, [2]);
  });
});

describe("[LB11] a place that may only be read is said with the cure, and nothing there is changed", () => {
  // another user than the one who runs the tests: root may write anywhere
  const readOnly = it.runIf(isPosix && isRoot);
  readOnly.each([
    ["the file and its folder", 0o444, 0o555],
    ["the file", 0o444, 0o777],
    ["the folder", 0o666, 0o555],
  ])("%s", async (_, fileMode, folderMode) => {
    const folder = newFolder();
    const path = await keptIn(folder);
    const bytes = fs.readFileSync(path);
    fs.chmodSync(path, fileMode);
    fs.chmodSync(folder, folderMode);
    const { lines } = await runJob("save as nobody", folder);
    expect(lines).toEqual([
      expect.stringMatching(
        /^refused: .*library\.tapemark .*(may only be read|may not be written); .*permissions/,
      ),
    ]);
    expect(fs.readFileSync(path).equals(bytes)).toBe(true);
  });
  readOnly("a folder in which no library can be made", async () => {
    const folder = newFolder();
    fs.chmodSync(folder, 0o555);
    const { lines } = await runJob("save as nobody", folder);
    expect(lines).toEqual([expect.stringMatching(/^refused: .*library\.tapemark.*permission/)]);
    expect(fs.readdirSync(folder)).toEqual([]);
  });
  it.runIf(isPosix && !isRoot)("for whoever is not root", async () => {
    const folder = newFolder();
    const path = await keptIn(folder);
    fs.chmodSync(path, 0o444);
    fs.chmodSync(folder, 0o555);
    const { lines } = await runJob("save", folder);
    fs.chmodSync(folder, 0o755);
    expect(lines).toEqual([expect.stringMatching(/^refused: .*permissions/)]);
  });
});

describe("[LB12] a library that another copy is writing is said with the cure, and the save is tried again", () => {
  it("while it writes: refused; when it has ended, killed even: saved", async () => {
    const folder = newFolder();
    await keptIn(folder);
    const other = await startJob("hold", folder);
    onTestFinished(async () => void (await other.end()));
    const { library, works } = libraryIn(folder);
    await expect(works.save("w-0", savedWork("w-0", 2))).rejects.toThrow(
      /is being written by another Tapemark; wait a moment and try again; if it stays, close the other one/,
    );
    // reading goes on beside it
    expect(await works.load("w-0")).toEqual(savedWork("w-0", 1));
    await other.end();
    await works.save("w-0", savedWork("w-0", 2));
    library.close();
    await demandKept(folder, [2]);
  });
});

describe("[LB13] a damaged library is said with the cure", () => {
  it("pages that were overwritten: whoever reads or saves is told, and the file stays for whoever can mend it", async () => {
    const folder = newFolder();
    const path = await keptIn(folder);
    const bytes = fs.readFileSync(path);
    // everything but the first page, which has the form
    const hurt = Buffer.concat([bytes.subarray(0, 4096), Buffer.alloc(bytes.length - 4096, 0xa5)]);
    fs.writeFileSync(path, hurt);
    const says =
      /is damaged; go back to the newest copy in the folder "copies" beside it: tapemark library restore COPY; or name/;
    const tried = (async () => {
      const { works } = libraryIn(folder);
      await works.load("w-0");
    })();
    await expect(tried).rejects.toThrow(says);
    expect(fs.readFileSync(path).equals(hurt)).toBe(true);
  });
});

describe("[LB13] the same words come whichever way it is read", () => {
  const PAGE = 4096;
  it.each(["shoots", "words_content", "facts"])(
    "%s overwritten: who lists or searches is told",
    async (table) => {
      const folder = newFolder();
      const path = join(folder, "library.tapemark");
      const library = openLibrary(path, AROUND);
      const page = library.db.prepare("SELECT rootpage FROM sqlite_master WHERE name = ?").get(table);
      const damage = () => {
        const bytes = fs.readFileSync(path);
        const from = ((page as { rootpage: number }).rootpage - 1) * PAGE;
        bytes.fill(0xa5, from, from + PAGE);
        fs.writeFileSync(path, bytes);
      };
      const parts = { ...AROUND, news: { tell: () => {} }, writeSidecars: () => Promise.reject(new Error()) };
      await createShoots(library, parts).create({ title: "Season poster" });
      library.close();
      damage();
      const asked = async () => {
        const shoots = createShoots(openLibrary(path, AROUND), parts);
        await shoots.find({ text: "season", offset: 0, limit: 50 });
        await shoots.find({ offset: 0, limit: 50 });
        await shoots.choices();
      };
      await expect(asked()).rejects.toThrow(/is damaged; go back to the newest copy/);
    },
  );
});

describe("[LB14] a library that is moved away while it is open takes no more saves, and nothing is lost", () => {
  it("the file has all that was saved, wherever it is now; put back, it goes on", async () => {
    const folder = newFolder();
    const { library, works, path } = libraryIn(folder);
    await works.save("w-0", savedWork("w-0", 1));
    const away = newFolder();
    fs.renameSync(path, join(away, "library.tapemark"));
    const says = /was moved away or replaced while it was open; put it back, or start Tapemark again/;
    await expect(works.save("w-0", savedWork("w-0", 2))).rejects.toThrow(says);
    const copy = newFolder();
    fs.copyFileSync(join(away, "library.tapemark"), join(copy, "library.tapemark"));
    await demandKept(copy, [1]);
    fs.renameSync(join(away, "library.tapemark"), path);
    await works.save("w-0", savedWork("w-0", 2));
    library.close();
    await demandKept(folder, [2]);
  });
  it("another one in its place is not written over", async () => {
    const folder = newFolder();
    const { works, path } = libraryIn(folder);
    await works.save("w-0", savedWork("w-0", 1));
    const other = await keptIn(newFolder());
    const bytes = fs.readFileSync(other);
    fs.renameSync(other, path);
    await expect(works.save("w-0", savedWork("w-0", 2))).rejects.toThrow(/was moved away or replaced/);
    expect(fs.readFileSync(path).equals(bytes)).toBe(true);
  });
});
