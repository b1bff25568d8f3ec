import fs from "node:fs";
import { join } from "node:path";
import { decode } from "fast-png";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readingOf } from "../files/testing/plain-reader.ts";
import { createFrameShelf } from "../library/index.ts";
import { smallLibrary } from "../library/testing/small-library.ts";
import { contactPage } from "../sheet/index.ts";
import { textsOf } from "../sheet/testing/read-page.ts";
import { createComputer, type Looker } from "../workbench/index.ts";
import type { Surroundings } from "./around.ts";
import { outlineTexts, pageToPng } from "./page-png.ts";
import { run } from "./run.ts";

const small = smallLibrary();
const at = (name: string) => join(small.folder, name);
const PLAN = {
  format: "tapemark/plan",
  version: 1,
  title: "Nobody yet",
  camera: { position: [0, -3, 1.6], direction: { at: [0, 0, 1.6] } },
  lights: [
    {
      name: "key",
      position: [1, -1, 2],
      direction: { at: [0, 0, 1.6] },
      face: { shape: "point" },
      output: { wattSeconds: 400, stopsDown: 2 },
    },
  ],
};

const SITTER = { ...PLAN, title: "Cellist", people: [{ name: "cellist", position: [0, 0.1] }] };

/** One coarse look serves for all: what is tried here is the command, not the light. */
function oneLook(): Looker {
  const computer = createComputer();
  let [reading, frame]: [ReturnType<Looker["read"]> | null, ReturnType<Looker["frame"]> | null] = [
    null,
    null,
  ];
  return {
    read: (plan) => (reading ??= computer.read(plan, "coarse")),
    frame: (plan, request) => (frame ??= computer.frame(plan, { ...request, quality: "coarse", width: 24 })),
  };
}
const looker = oneLook();
const terminal = { isTTY: true, shown: [] as string[], write: (text: string) => terminal.shown.push(text) };

async function tapemark(...words: string[]) {
  let [out, error] = ["", ""];
  terminal.shown = [];
  const surroundings = {
    ...small.parts,
    out: (text: string) => {
      out += text;
    },
    error: (text: string) => {
      error += text;
    },
    errorStream: terminal,
    startFinders: () => ({ finders: [looker], stop: async () => {} }),
    libraryPath: async (named: string | null) => named ?? small.library.path,
    openLibrary: async () => small.library,
    onInterrupt: () => ({ off: () => {} }),
  } as unknown as Surroundings;
  const code = await run(words, surroundings);
  return { code, out, error };
}

beforeAll(async () => {
  fs.writeFileSync(at("plan.json"), JSON.stringify(PLAN));
  fs.writeFileSync(at("sitter.json"), JSON.stringify(SITTER));
  const [key] = PLAN.lights;
  const set = { ...PLAN, lights: [{ ...key, output: { ...key.output, stopsDown: 2.7 } }] };
  fs.writeFileSync(at("set.json"), JSON.stringify(set));
  await small.save("evening", PLAN);
  small.hand.set("evening");
  const shelf = createFrameShelf(small.library, small.parts);
  const take = (name: string) =>
    shelf.put(
      { id: name, reading: readingOf(name, "2026-11-26T10:12:30"), preview: null, thumbnail: null },
      { path: `/card/${name}`, bytes: 1, before: [] },
    );
  take("first.jpg");
  await small.save("evening", set);
  take("pick.jpg");
  await small.shoots.pick("pick.jpg", { stars: 5, isSelect: true });
  const shoot = (await small.shoots.shootOf("evening")) as string;
  await small.shoots.change(shoot, 1, { title: "Season poster", place: "Halden Hall", date: "2026-11-26" });
});
afterAll(() => small.end());

const words = (name: string) =>
  fs
    .readdirSync(small.folder)
    .filter((file) => file.startsWith(name) && file.endsWith(".svg"))
    .sort()
    .flatMap((file) => textsOf(fs.readFileSync(at(file), "utf8")).map(({ text }) => text))
    .join(" ");

describe("[CL40] contact", () => {
  it("writes PDF, PNG and SVG; the same plan gives the same bytes", async () => {
    for (const name of ["moves.pdf", "again.pdf", "moves.png", "moves.svg"])
      expect(await tapemark("contact", at("sitter.json"), "--out", at(name)), name).toMatchObject({
        code: 0,
      });
    expect(fs.readFileSync(at("moves.pdf")).subarray(0, 5).toString()).toBe("%PDF-");
    expect(fs.readFileSync(at("moves.pdf"))).toEqual(fs.readFileSync(at("again.pdf")));
    expect(words("moves")).toMatch(/Cellist Contact sheet of moves · cellist, .*as the plan stands/);
    // A4 at 200 pixels an inch: 210 and 297 mm of 25.4 an inch
    const { height, width } = decode(fs.readFileSync(at("moves.png")));
    expect([width, height]).toEqual([1654, 2339]);
  });
  it("[CL43] says on a terminal how many frames are finished, on one line that is gone at the end", async () => {
    await tapemark("contact", at("sitter.json"), "--out", at("moves.svg"));
    expect(terminal.shown.slice(0, 2)).toEqual([
      "\r0 of 9 frames finished 0 %\u001b[K",
      "\r1 of 9 frames finished 11 %\u001b[K",
    ]);
    expect(terminal.shown.slice(-2)).toEqual(["\r9 of 9 frames finished 100 %\u001b[K", "\r\u001b[K"]);
    terminal.isTTY = false;
    await tapemark("contact", at("sitter.json"), "--out", at("moves.svg"));
    terminal.isTTY = true;
    expect(terminal.shown).toEqual([]);
  });
  it("a plan with nobody in it is refused by its title, and nothing is written", async () => {
    const nobody = await tapemark("contact", at("plan.json"), "--out", at("x.pdf"));
    expect(nobody).toMatchObject({
      code: 3,
      error: expect.stringMatching(/"Nobody yet".*; put a person into/),
    });
    expect(fs.existsSync(at("x.pdf"))).toBe(false);
  });
  it("a name that is nobody's is refused with those there are; a wrong call with the cure", async () => {
    const group = await tapemark(
      "contact",
      "examples/group.json",
      "--out",
      at("x.pdf"),
      "--person",
      "flautist",
    );
    expect(group).toMatchObject({ code: 3, error: expect.stringMatching(/"flautist"; name one of: \S/) });
    const gif = await tapemark("contact", at("plan.json"), "--out", at("x.gif"));
    expect(gif).toMatchObject({ code: 2, error: expect.stringMatching(/\.pdf or \.png or \.svg/) });
    expect(fs.existsSync(at("x.pdf"))).toBe(false);
  });
});

describe("[CL41] record of a plan", () => {
  it("tells changes from an earlier plan, by power and not by place", async () => {
    const call = ["record", at("set.json"), "--planned", at("plan.json"), "--date", "26 November 2026"];
    expect(await tapemark(...call, "--out", at("record.svg"))).toMatchObject({ code: 0, error: "" });
    const told = words("record");
    expect(told).toContain("Record sheet · 26 November 2026");
    expect(told).toMatch(/changes from the plan \S*plan\.json/);
    expect(told).toMatch(/power key power −2\.0 of 400 Ws −2\.7 of 400 Ws 0\.7 stop down/);
    expect(told).toContain("No photograph is with this record.");
  });
  it("as a PDF; a wrong earlier plan ends with 1", async () => {
    expect(await tapemark("record", at("plan.json"), "--out", at("r.pdf"))).toMatchObject({ code: 0 });
    expect(fs.readFileSync(at("r.pdf")).subarray(0, 5).toString()).toBe("%PDF-");
    fs.writeFileSync(at("wrong.json"), "{");
    const wrong = await tapemark(
      "record",
      at("plan.json"),
      "--planned",
      at("wrong.json"),
      "--out",
      at("w.pdf"),
    );
    expect(wrong).toMatchObject({
      code: 1,
      error: expect.stringMatching(/^plan: \S*wrong\.json: is not JSON: line 1/),
    });
  });
});

describe("[CL42] record of a shoot", () => {
  it("takes plan, day, place, pick and changes from the library", async () => {
    const done = await tapemark("record", "--shoot", "season", "--out", at("shoot.svg"), "--paper", "letter");
    expect(done).toMatchObject({ code: 0, error: "" });
    const told = words("shoot");
    expect(told).toContain("Season poster: Nobody yet");
    expect(told).toContain("2026-11-26 · Halden Hall");
    expect(told).toContain("taken: pick.jpg, 2026-11-26 10:12:30, 5 stars, select");
    expect(told).toMatch(/changes from version 1, for first\.jpg/);
    expect(told).toContain("0.7 stop down");
  });
  it.each([
    [["record", "--shoot", "elsewhere"], 3, /no shoot "elsewhere"; `tapemark shoots` lists/],
    [["record", "--shoot", " "], 2, /--shoot names a shoot/],
    [["record", "plan.json", "--shoot", "season"], 2, /come from the library; name no others/],
    [["record"], 2, /name a plan/],
  ])("%j ends with %i and the cure", async (call, code, message) => {
    const done = await tapemark(...call, "--out", at("no.pdf"));
    expect(done).toMatchObject({ code, error: expect.stringMatching(message) });
  });
});

describe("[RC16] a page as a picture", () => {
  const cell = { does: "key up 15 cm & more <b>", why: "no light is on", picture: null, notes: [] };
  const sheet = { title: "Cellist", about: "f/8 + 0.4", cells: [{ ...cell, direction: "", power: "" }] };
  const page = contactPage(sheet, { paper: "a4" });
  it("has outlines for letters, as wide as the page takes them to be, and no text", () => {
    const outlined = outlineTexts(page);
    expect(outlined).not.toMatch(/<text|font-family/);
    const boxes = textsOf(page);
    const groups = [...outlined.matchAll(/<g fill="[^"]*">(.*?)<\/g>/g)].map(([, inner]) => inner);
    expect(groups).toHaveLength(boxes.length);
    for (const [i, { box, size, text }] of boxes.entries()) {
      const starts = [...groups[i].matchAll(/translate\(([\d.]+) ([\d.]+)\)/g)].map(([, x]) => Number(x));
      const letters = [...text].filter((letter) => letter.trim() !== "").length;
      expect(starts, text).toHaveLength(letters);
      expect(Math.min(...starts), text).toBeGreaterThan(box.x0 - 0.5);
      expect(Math.max(...starts), text).toBeLessThan(box.x1);
      // pairs that are closed up take some hundredths of the width, the last letter its own
      const least = box.x0 + 0.94 * (box.x1 - box.x0) - size;
      expect(Math.max(...starts), text).toBeGreaterThan(least);
    }
  });
  it("has ink where the title stands, and none in the margin", async () => {
    const { channels, data, width } = decode(await pageToPng(page));
    const darkest = (x0: number, y0: number, x1: number, y1: number) => {
      let least = 255;
      const at = (mm: number) => Math.round((mm / 25.4) * 200);
      for (let y = at(y0); y < at(y1); y++)
        for (let x = at(x0); x < at(x1); x++) least = Math.min(least, data[(y * width + x) * channels]);
      return least;
    };
    expect(darkest(12, 12, 30, 18)).toBeLessThan(60);
    expect(darkest(0, 0, 11, 297)).toBe(255);
  });
});
