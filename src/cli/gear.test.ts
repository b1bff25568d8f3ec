/** `tapemark gear` as people and scripts call it. */
import fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { STARTER_SHELF, shelfText } from "../gear/index.ts";
import { openLibrary } from "../library/index.ts";
import type { Surroundings } from "./around.ts";
import type { GearAnswers } from "./gear.ts";
import { run } from "./run.ts";

const folder = fs.mkdtempSync(join(tmpdir(), "tapemark-gear-"));
const libraryAt = join(folder, "library.tapemark");
const opened: { close(): void }[] = [];
afterAll(() => {
  for (const library of opened) library.close();
  fs.rmSync(folder, { recursive: true, force: true });
});

async function gear(...words: string[]) {
  let [out, error] = ["", ""];
  const clock = { now: () => new Date(0), newId: () => "never" };
  const around = {
    ...clock,
    out: (text: string) => {
      out += text;
    },
    error: (text: string) => {
      error += text;
    },
    libraryPath: async () => libraryAt,
    openLibrary: async () => {
      const library = openLibrary(libraryAt, clock);
      opened.push(library);
      return library;
    },
  } as unknown as Surroundings;
  const code = await run(["gear", ...words], around);
  return { code, out, error };
}

const PLAN = "examples/cellist.json";
const at = (name: string) => join(folder, name);

describe("[CL45] what a plan asks of the gear, in words or as one JSON object", () => {
  it("each light that is on, the packing list with its weight, and the sums of weights and watts", async () => {
    const { code, out, error } = await gear(PLAN);
    expect([code, error]).toEqual([0, ""]);
    expect(out).toMatch(
      /^Cellist, season poster\n\nCan it do that\?\n {2}key\n {4}power: within its dial: −2\.2 is wanted; the dial has 2\.2 stops more and 3\.8 stops less$/m,
    );
    expect(out).toMatch(
      /^ {4}recycle: charged in time: charged again in about 0\.26 s \(1\.2 s at full\), a frame every 2 s$/m,
    );
    expect(out).toMatch(/^Packing list, \d+\.\d kg \(the shelf to begin with, all of it typical\)$/m);
    expect(out).toMatch(/^ {2}1 × boom stand: 7.5 kg, typical; for key$/m);
    expect(out).toMatch(/N·m against \d+\.\d N·m/);
    expect(out).toMatch(/\n\nEstimates only; local codes and licensed people decide\.\n$/);
  });
  it("as JSON it says the same and nothing else", async () => {
    const { out } = await gear(PLAN, "--json");
    const told = JSON.parse(out) as GearAnswers & { shelf: string };
    expect(told.canItDo.map(({ name, outside }) => [name, outside])).toEqual([["key", 0]]);
    expect(told.packing.lines.map(({ name }) => name)).toContain("boom stand");
    expect(told.safety.map(({ owner }) => owner)).toContain("lights[0]");
  });
});

describe("[CL46] another aperture than the plan's, and what the meter really reads", () => {
  it("what it takes is told in stops at the dial's end", async () => {
    const power = async (...words: string[]) =>
      (JSON.parse((await gear(PLAN, "--json", ...words)).out) as GearAnswers).canItDo[0]?.rows[0];
    // f/8 to f/2 is 4 stops, the dial has 3.8 under -2.2
    expect(await power("--wants", "f/2")).toMatchObject({
      word: "too bright at its least",
      sentence: expect.stringMatching(/^at −6\.0, its least, it gives 0\.2 stops more/),
    });
    // f/8 wanted where f/2.8 is read: 3 stops, 0.8 over full
    expect(await power("--reads", "f/2.8")).toMatchObject({
      word: "too weak at full",
      sentence: expect.stringMatching(/0\.8 stops less/),
    });
  });
  it("lengths are in feet on request", async () => {
    const { out } = await gear(PLAN, "--wants", "f/2", "--units", "feet");
    expect(out).toMatch(/from 5′ 3½″ back to \d′ \d+/);
  });
});

describe("[CL47] a wrong call ends with 2, a wrong plan with 1, each with the cure", () => {
  it.each([
    [["--wants", "8.4"], /^tapemark: --wants: "8\.4" is no aperture; write it as a meter shows it: f\/8 or/],
    [["--units", "yards"], /--units: yards is not one of metric, feet/],
    [["--shelve", "x"], /--shelve: "gear" has no such option; did you mean --shelf\?/],
  ])("%j", async (words, told) => {
    const { code, out, error } = await gear(PLAN, ...words);
    expect([code, out]).toEqual([2, ""]);
    expect(error).toMatch(told);
  });
  it("--wants without a plan, --keep without a file", async () => {
    expect((await gear("--wants", "f/8")).code).toBe(2);
    expect((await gear("--keep")).error).toMatch(/--keep goes with --shelf FILE\.json alone/);
  });
  it("a plan that is none", async () => {
    fs.writeFileSync(at("wrong.json"), "{}");
    const { code, error } = await gear(at("wrong.json"));
    expect(code).toBe(1);
    expect(error).toMatch(/^format: must be "tapemark\/plan"/m);
  });
});

describe("[CL48] the shelf: listed, written, taken from a file, kept", () => {
  it("without a library it is the one to begin with, and none is made", async () => {
    const { code, out } = await gear();
    expect(code).toBe(0);
    expect(out).toMatch(
      /^The shelf to begin with, all of it typical\n\nHeads\n {2}2 × studio head 400 Ws: 2\.6 kg each, typical$/m,
    );
    expect((await gear("--json")).out).toBe(shelfText(STARTER_SHELF));
    expect(fs.existsSync(libraryAt)).toBe(false);
  });
  it("a file is used in its place, and kept on request", async () => {
    const others = [{ name: "ladder", mass: 8 }];
    fs.writeFileSync(at("mine.json"), JSON.stringify({ format: "tapemark/shelf", version: 1, others }));
    expect((await gear(PLAN, "--shelf", at("mine.json"))).out).toMatch(/^ {2}1 × ladder: 8 kg$/m);
    expect((await gear()).out).not.toMatch(/ladder/);
    expect((await gear("--shelf", at("mine.json"), "--keep")).out).toMatch(
      /mine\.json: kept as your shelf in .*library\.tapemark\n$/,
    );
    expect((await gear()).out).toMatch(/^Your shelf\n\nHeads: none\n[\s\S]*^ {2}1 × ladder: 8 kg each$/m);
  });
});

describe("[CL49] a shelf that is wrong is told with its place and the cure, and ends with 3", () => {
  it.each([
    [
      "no JSON",
      /no\.json is not JSON: line 1, column 1: .*; name a shelf as `tapemark gear --json` writes it/,
    ],
    [
      '{"format":"tapemark/shelf","version":1,"heads":[{"name":"a"}]}',
      /no\.json: heads\[0\]\.full: must be .*; correct that/,
    ],
  ])("%s", async (text, told) => {
    fs.writeFileSync(at("no.json"), text);
    const { code, error } = await gear(PLAN, "--shelf", at("no.json"));
    expect(code).toBe(3);
    expect(error).toMatch(told);
  });
});
