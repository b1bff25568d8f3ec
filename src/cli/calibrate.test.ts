/** `tapemark calibrate` as people and scripts call it. */
import { spawnSync } from "node:child_process";
import fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openPlan } from "../workbench/index.ts";

/** It takes three seconds where the machine has nothing else to do. */
const LONGEST_MS = 60_000;

const folder = fs.mkdtempSync(join(tmpdir(), "tapemark-calibrate-"));
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

/** With a gear book of its own. */
const env = { ...process.env, TAPEMARK_DATA: join(folder, "data") };

function tapemark(...words: string[]) {
  const done = spawnSync(process.execPath, ["bin/tapemark.js", ...words], { encoding: "utf8", env });
  return { code: done.status, out: done.stdout, error: done.stderr };
}

const out = join(folder, "calibrated.json");
let done: ReturnType<typeof tapemark>;
beforeAll(() => {
  done = tapemark(
    "calibrate",
    "examples/cellist-measured.json",
    "--gear",
    "--out",
    out,
    "--date",
    "2026-11-26",
  );
}, LONGEST_MS);

describe("[CA25] tapemark calibrate", () => {
  it("tells what was found, what is wrong and by how much", () => {
    expect([done.code, done.error]).toEqual([0, ""]);
    // the readings were made up with the key half a stop stronger, the hair light 0.6 and the room 0.6 stop less, a tenth of
    // noise, and the meter at ISO 200 for one of them
    expect(done.out.split("\n")).toEqual([
      "Cellist, season poster, measured on set",
      "",
      "key gives 0.5 stop more than its output says, good to 0.1 stop; it was a guess within about one stop",
      "hair gives 0.6 stop less than its output says, good to 0.1 stop; it was a guess within about one stop",
      expect.stringMatching(
        /^the room sends back 0\.[5-7] stop less than its reflectances say, good to 0\.\d stop$/,
      ),
      expect.stringMatching(
        /^hands cannot be right: f\/11 \+ 0\.3, 1\.[01] stops? over what all the others say, /,
      ),
      expect.stringMatching(/^9 readings used; what is left between them and the plan is 0\.1\d stop$/),
      "",
    ]);
  });
  it("writes a plan that has it", () => {
    const opened = openPlan(fs.readFileSync(out, "utf8"));
    if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
    const [key, hair] = opened.plan.lights;
    expect(key.calibration).toMatchObject({ measuredOn: "2026-11-26", from: "readings" });
    expect(Math.abs((key.calibration?.stops ?? 9) - 0.5)).toBeLessThan(0.1);
    expect(Math.abs((hair.calibration?.stops ?? 9) + 0.6)).toBeLessThan(0.1);
    expect(opened.plan.room?.calibration?.bounceStops).toBeLessThan(-0.4);
  });
  it("a plan without readings: 0, and what to measure first", () => {
    const { code, out: text } = tapemark("calibrate", "examples/manual-start.json");
    expect(code).toBe(0);
    expect(text).toMatch(
      /\n[^\n]+: no readings of it, good to 0\.3 stop\nmeasure [^\n]+: it takes the doubt of/,
    );
  });
  it.each([
    [["--out", "x.pdf"], /--out: x\.pdf must end in \.json/],
    [["--keep"], /--keep: "calibrate" has no such option/],
  ])("%j: 2", (words, message) => {
    const { code, error } = tapemark("calibrate", "examples/cellist-measured.json", ...words);
    expect(code).toBe(2);
    expect(error).toMatch(message);
  });
});

describe("[CA26] test frames and the gear book", () => {
  it("what was found is kept, and the next plan with that head starts from it", () => {
    expect(tapemark("calibrate", "examples/cellist.json", "--gear").out).toMatch(
      /\nkey: no readings of it, good to 0\.1 stop\n/,
    );
  });
  // four seconds of a processor, most of them spent on finding the face
  it.runIf(process.env.TAPEMARK_LONG === "1")(
    "a photograph of the plan makes its light a little surer",
    () => {
      const { code, out } = tapemark("calibrate", "examples/cellist.json", "examples/test-frame.jpg");
      expect(code).toBe(0);
      expect(out).toMatch(/\nkey gives .*, good to 0\.[4-7] stop; it was a guess within about one stop\n/);
    },
  );
});
