/** `tapemark use` as people and scripts call it. */
import fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import type { FinalUse } from "../deliver/index.ts";
import type { Surroundings } from "./around.ts";
import { run } from "./run.ts";

const folder = fs.mkdtempSync(join(tmpdir(), "tapemark-use-"));
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

async function use(...words: string[]) {
  let [out, error] = ["", ""];
  const around = {
    out: (text: string) => {
      out += text;
    },
    error: (text: string) => {
      error += text;
    },
  } as unknown as Surroundings;
  const code = await run(["use", ...words], around);
  return { code, out, error };
}

function changed(name: string, parts: object): string {
  const plan = JSON.parse(fs.readFileSync("examples/cellist.json", "utf8"));
  fs.writeFileSync(join(folder, name), JSON.stringify({ ...plan, ...parts }));
  return join(folder, name);
}

const PLAN = "examples/cellist.json";

describe("[CL50] the picture at its final size", () => {
  it("in words: what it is for, pixels, the eye, what is asked, and each smear with its state", async () => {
    const { code, out, error } = await use(PLAN);
    expect([code, error]).toEqual([0, ""]);
    expect(out).toMatch(/^season poster, 1\.20 × 1\.75 m, seen from 1\.50 m$/m);
    // 5504 pixels on 47.24 inches
    expect(out).toMatch(/^pixels +117 an inch: 5504 × 8027 pixels of the file/m);
    expect(out).toMatch(/^a pixel of the file: 0\.22 mm\n {2}not seen from 1\.50 m/m);
    expect(out).toMatch(/^focus at the nose: /m);
    expect(out).toMatch(/^motion in the flash of “key”: /m);
    expect(out).not.toMatch(/NaN|Infinity|undefined/);
  });
  it("in feet, lengths are in feet and millimetres stay", async () => {
    const { out } = await use(PLAN, "--units", "feet");
    expect(out).toMatch(/3′ 11¼″ × 5′ 9″, seen from 4′ 11″/);
    expect(out).toMatch(/0\.22 mm/);
  });
});

describe("[CL51] --json", () => {
  it("prints one object and nothing else, the same each time", async () => {
    const [one, two] = [await use(PLAN, "--json"), await use(PLAN, "--json")];
    expect(one.out).toBe(two.out);
    const found: FinalUse = JSON.parse(one.out);
    expect(found.print).toEqual({ width_m: 1.2, height_m: 1.75 });
    expect(found.smears.every(({ mm, unseenFrom_m }) => mm >= 0 && unseenFrom_m >= 0)).toBe(true);
  });
});

describe("[CL52] --for tries a named use", () => {
  it("in place of the plan's own, where the plan has none too", async () => {
    const named = await use(PLAN, "--for", "hall banner");
    expect(named.out).toMatch(/hall banner, 6\.00 × 3\.00 m/);
    const none = await use(changed("none.json", { print: null }), "--for", "Hall banner");
    expect(none.out).toBe(named.out);
  });
  it("one that is not known: 2, with those there are", async () => {
    const { code, error } = await use(PLAN, "--for", "postage stamp");
    expect(code).toBe(2);
    expect(error).toMatch(/no named use; there are page, spread, tram-shelter poster, hall banner/);
    expect((await use(PLAN, "--for", "bilboard")).error).toMatch(/did you mean "billboard"/);
  });
});

describe("[CL53] --focus names who is focused on", () => {
  it("somebody of the plan; else 2, with who is there", async () => {
    expect((await use(PLAN, "--focus", "cellist")).out).toBe((await use(PLAN)).out);
    const { code, error } = await use(PLAN, "--focus", "Nobody");
    expect(code).toBe(2);
    expect(error).toMatch(/nobody in the plan is called "Nobody"; it has "cellist"/);
  });
});

describe("[CL54] a plan that does not say what its picture is for", () => {
  it("3, with the cure; a wrong plan is 1", async () => {
    const { code, out, error } = await use(changed("unsettled.json", { print: null }), "--json");
    expect([code, out]).toEqual([3, ""]);
    expect(error).toMatch(/does not say what its picture is for; give it a finished size, "print"/);
    const wrong = await use(changed("wrong.json", { print: { width: 0, height: 1 } }));
    expect(wrong.code).toBe(1);
    expect(wrong.error).toMatch(/^print\.width: /);
  });
});
