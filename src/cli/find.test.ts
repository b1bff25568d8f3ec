/** `tapemark find` as people and scripts call it. */
import { spawn, spawnSync } from "node:child_process";
import fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import type { FindAnswer, SetUp } from "../finder/index.ts";
import { newPlan } from "../plan/index.ts";
import { createComputer, findSetUps, openPlan } from "../workbench/index.ts";
import { asWritten, writeTaken } from "./find.ts";

/** Threads are up and at work by then, where the machine has nothing else to do; else later. */
const STARTED_MS = 1000;
const LONGEST_MS = 20_000;
/** A search of four faces takes many times as long. */
const AT_ONCE_MS = 3000;
/** A search on a machine that has other things to do. */
const SEARCH_MS = 180_000;

const folder = fs.mkdtempSync(join(tmpdir(), "tapemark-find-"));
const at = (name: string) => join(folder, name);
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

function find(...words: string[]) {
  const done = spawnSync(process.execPath, ["bin/tapemark.js", "find", ...words], { encoding: "utf8" });
  return { code: done.status, out: done.stdout, error: done.stderr };
}

// biome-ignore lint/suspicious/noExplicitAny: the point is to change the document
function changed(name: string, change: (plan: any) => void): string {
  const plan = JSON.parse(fs.readFileSync("examples/brief-poster.json", "utf8"));
  change(plan);
  fs.writeFileSync(at(name), JSON.stringify(plan));
  return at(name);
}

describe("[CL10] what find needs, and how it is called", () => {
  it.each([
    ["no brief", { brief: null }, /^brief: must say what is wanted; .*: add "brief"/],
    ["nobody", { people: [] }, /^people: must have somebody to light; .*: add a person/],
    ["no gear", { brief: { gear: {} } }, /^brief\.gear\.lights: must have a light .*: list what is on hand/],
    ["no light", { brief: {} }, /^lights: must have a light .*: add one, or list .* in brief\.gear/],
  ])("%s: 1, with the cure", (name, parts, message) => {
    const file = changed(`${name}.json`, (plan) => Object.assign(plan, parts));
    const { code, out, error } = find(file, "--json");
    expect([code, out]).toEqual([1, ""]);
    expect(error).toMatch(message);
    expect(error.trim().split("\n")).toHaveLength(1);
  });
  it("a wrong brief: 1, with its path", () => {
    const file = changed("wrong.json", (plan) => {
      plan.brief.want.ratioStops = { from: 3, to: 2 };
    });
    const { code, error } = find(file);
    expect(code).toBe(1);
    expect(error).toMatch(/^brief\.want\.ratioStops\.from: must be at most 2 stops/);
  });
  it.each([
    [["--take", "2"], /--take says which set-up --out writes; add --out PLAN\.json/],
    [["--out", "x.json", "--take", "0"], /--take: 0 is not a whole number from 1 to 5/],
    [["--out", "x.pdf"], /--out: x\.pdf must end in \.json/],
    [["--jsn"], /did you mean --json/],
  ])("a wrong call %j: 2 with the cure", (words, message) => {
    const { code, error } = find("examples/brief-poster.json", ...words);
    expect(code).toBe(2);
    expect(error).toMatch(message);
  });
});

/** In open space with one front there is little to trace: the same road, sooner. */
// biome-ignore lint/suspicious/noExplicitAny: the point is to change the document
const quick = (name: string, change: (plan: any) => void = () => {}) =>
  changed(name, (plan) => {
    plan.room = null;
    plan.brief.gear.lights[0].fronts.pop();
    change(plan);
  });

describe("[CL10] [CL11] [CL12] a search from the shell", () => {
  const file = quick("quick.json");
  const first = find(file, "--json", "--out", at("taken.json"));

  it("prints one object that says what is met, and --out writes the plan that it has", () => {
    expect([first.code, first.error]).toEqual([0, ""]);
    const answer = JSON.parse(first.out);
    expect(answer).toMatchObject({ format: "tapemark/found", version: 1, isMet: true, relax: null });
    expect(answer.setUps[0]).toMatchObject({
      isMet: true,
      reading: { pattern: "rembrandt", litSide: "left" },
    });
    const taken = openPlan(fs.readFileSync(at("taken.json"), "utf8"));
    expect(taken).toEqual({ ok: true, plan: answer.setUps[0].plan });
  });
  it(
    "the same answer to the byte without threads",
    async () => {
      const opened = openPlan(fs.readFileSync(file, "utf8"));
      if (!opened.ok) throw new Error("is wrong");
      const answer = asWritten(await findSetUps(opened.plan, [createComputer()]));
      expect(`${JSON.stringify(answer, null, 2)}\n`).toBe(first.out);
    },
    SEARCH_MS,
  );
  it(
    "nothing fits: 0, said in words; --out writes the nearest miss and says so",
    () => {
      const file = quick("impossible.json", (plan) => {
        plan.brief.want = { pattern: "rembrandt", ratioStops: { to: 0.1 } };
      });
      const { code, out, error } = find(file, "--out", at("miss.json"));
      expect(code).toBe(0);
      expect(out).toMatch(/^Nothing meets the brief; nearest first\. What would help most: if /m);
      expect(error).toMatch(
        /^tapemark: set-up 1 does not meet the brief; none does; written to .*miss\.json/,
      );
      expect(openPlan(fs.readFileSync(at("miss.json"), "utf8")).ok).toBe(true);
    },
    SEARCH_MS,
  );
  it.runIf(process.platform !== "win32")(
    "Ctrl-C: 3 at once with a word, and nothing is written",
    async () => {
      let stopped = await stoppedAfter(STARTED_MS);
      // pressed before the search has begun it ends this command as it ends any
      for (let wait = 2 * STARTED_MS; stopped.code === null && wait < LONGEST_MS; wait *= 2)
        stopped = await stoppedAfter(wait);
      expect(stopped).toMatchObject({
        code: 3,
        said: "tapemark: stopped before the search was over; nothing was written\n",
      });
      expect(stopped.took_ms).toBeLessThan(AT_ONCE_MS);
      expect(fs.existsSync(at("stopped.json"))).toBe(false);
    },
    SEARCH_MS,
  );
});

async function stoppedAfter(wait_ms: number) {
  const words = ["find", "examples/brief-quartet.json", "--out", at("stopped.json")];
  const child = spawn(process.execPath, ["bin/tapemark.js", ...words]);
  let said = "";
  child.stderr.on("data", (chunk) => {
    said += chunk;
  });
  const ended = new Promise<number | null>((resolve) => child.on("close", resolve));
  await new Promise((resolve) => setTimeout(resolve, wait_ms));
  const pressed = performance.now();
  child.kill("SIGINT");
  const code = await ended;
  return { code, said, took_ms: performance.now() - pressed };
}

describe("[CL11] which set-up is written", () => {
  // what a search gives is not of interest here: only which of it is taken
  const plan = newPlan();
  const setUp = (isMet: boolean, title: string) => ({ isMet, plan: { ...plan, title } }) as SetUp;
  const answer = (...setUps: SetUp[]) =>
    ({ isMet: setUps.some((s) => s.isMet), setUps }) as unknown as FindAnswer;
  const written = (found: FindAnswer, take: number) => {
    const said: string[] = [];
    writeTaken(found, take, at("which.json"), { error: (text) => said.push(text) });
    return { title: JSON.parse(fs.readFileSync(at("which.json"), "utf8")).title, said: said.join("") };
  };

  it("the first, or the one that is named", () => {
    const two = answer(setUp(true, "a"), setUp(false, "b"));
    expect(written(two, 1)).toEqual({ title: "a", said: "" });
    expect(written(two, 2)).toMatchObject({
      title: "b",
      said: expect.stringMatching(/set-up 2 does not meet the brief; written to/),
    });
  });
  it("one too many is a wrong call; where nothing can be built there is nothing to write", () => {
    fs.rmSync(at("which.json"));
    expect(() => written(answer(setUp(true, "a")), 2)).toThrow(/--take: 2 is not there; the search found 1/);
    expect(() => written(answer(), 1)).toThrow(/nothing could be built/);
    expect(fs.existsSync(at("which.json"))).toBe(false);
  });
});
