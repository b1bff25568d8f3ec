import fs from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openLibrary } from "../library/open.ts";
import { cellistShoot, fill } from "../library/testing/filled-library.ts";
import { newFolder, plainAround } from "../library/testing/fresh-library.ts";
import type { Surroundings } from "./around.ts";
import { run } from "./run.ts";

const folder = newFolder();
const at = (name: string) => join(folder, name);
const around = plainAround();
const LIBRARY = ["--library", at("library.tapemark")];

beforeAll(() => {
  const library = openLibrary(at("library.tapemark"), around);
  fill(library, cellistShoot(), at("card"));
  fill(library, { ...cellistShoot("poster-7"), title: "Season poster", date: null }, at("card"));
  library.close();
});
afterAll(() => fs.rmSync(folder, { recursive: true }));

/** Whether Ctrl-C is pressed as soon as it is listened for. */
let interrupts = false;

async function tapemark(...words: string[]) {
  let [out, error] = ["", ""];
  const path = (named: string | null) => named ?? at("none/library.tapemark");
  const opened: { close(): void }[] = [];
  const surroundings = {
    ...around,
    out: (text: string) => {
      out += text;
    },
    error: (text: string) => {
      error += text;
    },
    errorStream: process.stderr,
    libraryPath: async (named: string | null) => path(named),
    openLibrary: async (named: string | null) => {
      const library = openLibrary(path(named), around);
      opened.push(library);
      return library;
    },
    onInterrupt: (interrupt: () => void) => {
      if (interrupts) interrupt();
      return { off: () => {} };
    },
  } as unknown as Surroundings;
  const code = await run(words, surroundings);
  for (const library of opened) library.close();
  return { code, out, error };
}

describe("[CL30] shoots are listed and searched", () => {
  it("newest day first, each with what is in it and its mark", async () => {
    const { code, out } = await tapemark("shoots", ...LIBRARY);
    expect(code).toBe(0);
    expect(out.split("\n")[0]).toBe(
      "2026-11-26  Cellist / season poster  Studio two  Halden Quartet  2 plans, 3 frames, 1 select  loop  [cellist]",
    );
    expect(out).toContain("no day yet  Season poster");
  });
  it("by words and by what is asked for; --json for programs", async () => {
    const { out } = await tapemark(
      "shoots",
      "halden",
      "--from",
      "2026-11-26",
      "--stars",
      "4",
      "--json",
      ...LIBRARY,
    );
    const { total, shoots } = JSON.parse(out);
    expect(total).toBe(2);
    expect(shoots[0].patterns).toEqual(["loop"]);
    expect((await tapemark("shoots", "--stars", "5", ...LIBRARY)).out).toBe("no shoot has all of that\n");
  });
  it("where nothing is kept yet that is said, and nothing is made", async () => {
    expect(await tapemark("shoots")).toEqual({ code: 0, out: "nothing is kept yet\n", error: "" });
    expect((await tapemark("library")).out).toContain("nothing is kept yet; it will be in ");
    expect((await tapemark("library", "check")).out).toBe("nothing is kept yet\n");
    expect(fs.existsSync(at("none"))).toBe(false);
  });
  it.each([
    [["shoots", "--from", "tomorrow"], /--from: tomorrow is no day/],
    [["shoots", "--stars", "9"], /--stars: 9 is not a whole number from 1 to 5/],
    [["shoots", "export", "cellist"], /say where to write with --out FILE.zip/],
    [["shoots", "import"], /name one archive/],
    [["library", "chek"], /did you mean check/],
    [["library", "restore"], /name a copy/],
    [["library", "copy", "--out", "x.zip"], /must end in .tapemark/],
  ])("a wrong call %j: 2 with the cure", async (words, message) => {
    const { code, error } = await tapemark(...words);
    expect(code).toBe(2);
    expect(error).toMatch(message);
  });
});

describe("[CL31] archives from the shell", () => {
  it("a shoot goes out by its mark or its words and comes in again, once", async () => {
    const made = await tapemark("shoots", "export", "cell", "--out", at("a.zip"), "--no-sheets", ...LIBRARY);
    expect(made).toMatchObject({
      code: 0,
      out: `${at("a.zip")}: Cellist / season poster, 2 plans, 2 photographs\n`,
    });
    expect(made.error).toBe("tapemark: IMG_0002.JPG is not in it: it came by a browser\n");
    const other = ["--library", at("other/library.tapemark")];
    expect((await tapemark("shoots", "import", at("a.zip"), ...other)).out).toBe(
      "Cellist / season poster: taken in\n2 photographs put beside the library\n",
    );
    expect((await tapemark("library", "import", at("a.zip"), ...other)).out).toContain("there already");
  });
  it("words that name several shoots, or none: 3, with the marks", async () => {
    const words = (shoot: string) => ["shoots", "export", shoot, "--out", at("b.zip"), ...LIBRARY];
    expect((await tapemark(...words("Halden"))).error).toMatch(/is 2 shoots: .*\[cellist\].*; name the one/);
    expect(await tapemark(...words("nobody"))).toMatchObject({ code: 3 });
    expect(fs.existsSync(at("b.zip"))).toBe(false);
  });
  it("the library goes out whole; what is no archive does not come in", async () => {
    const { code, out } = await tapemark("library", "export", "--out", at("all.zip"), ...LIBRARY);
    expect([code, out]).toEqual([0, `${at("all.zip")}: 2 shoots, 4 plans, 4 photographs\n`]);
    fs.writeFileSync(at("no.zip"), "PK");
    const refused = await tapemark("library", "import", at("no.zip"), ...LIBRARY);
    expect(refused.code).toBe(3);
    expect(refused.error).toMatch(/is no ZIP archive, or is cut off; check the name/);
  });
});

describe("[CL32] the library from the shell", () => {
  it("says where it is, what is in it and when it was copied last", async () => {
    expect((await tapemark("library", ...LIBRARY)).out).toMatch(
      /2 shoots, 4 plans, 6 test frames\nno copy yet\n$/,
    );
    const copied = await tapemark("library", "copy", ...LIBRARY);
    expect(copied.out).toMatch(
      /copies\/library 2026-11-26 \d{4}\.tapemark: 2 shoots, .* opened and found whole\n$/,
    );
    const { lastCopy, shoots } = JSON.parse((await tapemark("library", "--json", ...LIBRARY)).out);
    expect(shoots).toBe(2);
    expect(lastCopy).toMatchObject({ isVerified: true });
  });
  it("check lists photographs that were moved away; a damaged library ends with 3", async () => {
    fs.renameSync(at("card/cellist-IMG_0001.JPG-false"), at("card/elsewhere"));
    const { code, out } = await tapemark("library", "check", ...LIBRARY);
    expect(code).toBe(0);
    expect(out).toBe(
      `moved away: ${at("card/cellist-IMG_0001.JPG-false/IMG_0001.JPG")}\nsound: 2 shoots, 4 plans, 6 test frames\n`,
    );
  });
  it("goes back to a copy, and says where the present library lies", async () => {
    const copy = at("copy.tapemark");
    await tapemark("library", "copy", "--out", copy, ...LIBRARY);
    // one that nobody in this process has had open
    fs.copyFileSync(copy, at("closed.tapemark"));
    const { code, out } = await tapemark("library", "restore", copy, "--library", at("closed.tapemark"));
    expect(code).toBe(0);
    expect(out).toMatch(
      /is that copy now: 2 shoots, 4 plans\nwhat was there until now lies in .* set aside .*\.tapemark\n$/,
    );
  });
  it("Ctrl-C leaves nothing half done: 3", async () => {
    interrupts = true;
    const { code, error } = await tapemark("library", "copy", "--out", at("stopped.tapemark"), ...LIBRARY);
    interrupts = false;
    expect([code, error]).toEqual([3, "tapemark: stopped; no copy was made\n"]);
    expect(fs.readdirSync(folder).filter((name) => name.includes("stopped"))).toEqual([]);
  });
});
