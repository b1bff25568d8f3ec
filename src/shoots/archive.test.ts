import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkPlan } from "../plan/index.ts";
import { checkShoot, createNames, folded, isSafeName, readingsCsv } from "./index.ts";

describe("[LB47] names in an archive are good on every system", () => {
  it.each([
    ["Cellist", "Cellist"],
    ["f/5.6 test", "f-5.6 test"],
    ["con", "con-"],
    ["nul.tar", "nul-.tar"],
    ["..", "plan"],
    [" a. ", "a"],
    ["a\u202eb\u0000c", "a-b-c"],
    ["Ärger 🎻", "Ärger -"],
    ["x".repeat(300), "x".repeat(60)],
  ])("%j -> %j", (called, name) => {
    expect(createNames().take(called, [".json"], "plan")).toBe(name);
  });
  it("whatever things are called: safe, and each its own, ignoring case", () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: "binary" }), { maxLength: 20 }), (titles) => {
        const names = createNames();
        const files = titles.flatMap((title) => {
          const stem = names.take(title, [".json", ".history.json"], "plan");
          return [`${stem}.json`, `${stem}.history.json`];
        });
        for (const file of files) expect(isSafeName(file)).toBe(true);
        expect(new Set(files.map(folded)).size).toBe(files.length);
      }),
      { seed: 47, numRuns: 100 },
    );
  });
});

describe("[LB48] a document of an archive is checked, and what is wrong has its path", () => {
  const shoot = {
    ...{ id: "a", title: "A", date: null, place: "", client: "", notes: "", isPutAway: false, revision: 1 },
    ...{ createdAt: "2026-11-26T10:00:00.000Z", changedAt: "2026-11-26T10:00:00.000Z" },
  };
  const good = { format: "tapemark/shoot", version: 1, shoot, plans: [] };
  it.each([
    [good, []],
    [{ ...good, version: 2 }, ["version: was made by a newer Tapemark (2); update Tapemark"]],
    [{ ...good, shoot: { ...shoot, date: "soon" } }, ["shoot.date: must be a day as 2026-11-26"]],
    [{ ...good, plans: [{ key: "../x" }] }, ["plans[0].key: must be 1 to 64 small letters, digits or -"]],
  ])("%#", (value, problems) => {
    const checked = checkShoot(value);
    expect(checked.ok ? [] : checked.problems).toEqual(expect.arrayContaining(problems));
    expect(checked.ok).toBe(problems.length === 0);
  });
  it.each([null, 7, [], "x", {}])("%j is none", (value) => expect(checkShoot(value).ok).toBe(false));
});

it("[LB49] readings are a table by RFC 4180: units in the header, texts quoted where needed, numbers exact", () => {
  const made = checkPlan({
    format: "tapemark/plan",
    version: 1,
    title: "x",
    room: { width: 5, depth: 6, height: 3 },
    meters: [{ name: "nose", position: [2.5, 3, 1.2], direction: { bearing: 180, tilt: 0 } }],
    readings: [
      { meter: "nose", fNumber: 8 * 2 ** 0.2, note: 'a "dome", held low' },
      { position: [0.1, 0.2, 0.30000001], direction: { at: [1, 2, 3] }, fNumber: 5.6, iso: 400 },
    ],
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const lines = readingsCsv([{ title: "Cellist, late", plan: made.plan }]).split("\r\n");
  expect(lines[0]).toBe(
    "plan,reading,light,meter,x (m),y (m),z (m),bearing (deg),tilt (deg),aimed at x (m),aimed at y (m),aimed at z (m)," +
      "receptor,f-number,ISO,note",
  );
  expect(lines[1]).toBe(
    `"Cellist, late",reading 1,all,nose,2.5,3,1.2,180,0,,,,${made.plan.meters[0].receptor},9.18958683997628,100,"a ""dome"", held low"`,
  );
  expect(lines[2]).toMatch(/^"Cellist, late",reading 2,all,,0\.1,0\.2,0\.30000001,,,1,2,3,flat,5\.6,400,$/);
  expect(lines.slice(3)).toEqual([""]);
});
