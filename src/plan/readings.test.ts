import { describe, expect, it } from "vitest";
import {
  applyEdit,
  checkPlan,
  type Plan,
  parsePlan,
  placeOf,
  readingOf,
  serialisePlan,
  setField,
} from "./index.ts";

const BASE = {
  format: "tapemark/plan",
  version: 1,
  room: { width: 5, depth: 6, height: 3 },
  lights: [
    {
      name: "key",
      position: [3, 2, 2],
      direction: { at: [2, 4, 1.5] },
      face: { shape: "disc", width: 1 },
      output: { wattSeconds: 400, stopsDown: 2 },
    },
  ],
  meters: [{ name: "chin", position: [2, 4, 1.5], direction: { at: [3, 2, 2] }, receptor: "dome" }],
};

function planWith(...readings: object[]): Plan {
  const checked = checkPlan({ ...BASE, readings });
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}

function problemsOf(document: object): string[] {
  const checked = checkPlan(document);
  return checked.ok ? [] : checked.problems.map(({ path, what }) => `${path}: ${what}`);
}

describe("[CA1] readings in a plan", () => {
  it("are filled in, written and read again the same", () => {
    const plan = planWith(
      { light: "key", meter: "chin", fNumber: 9.19 },
      { position: [1, 1, 1], fNumber: 4 },
    );
    expect(plan.readings).toMatchObject([
      { name: "reading 1", light: "key", meter: "chin", iso: 100, note: "" },
      { name: "reading 2", light: "all", position: [1, 1, 1] },
    ]);
    const again = parsePlan(serialisePlan(plan));
    expect(again).toEqual({ ok: true, plan });
  });
  it("take place, direction and receptor from the meter that they name unless they say better", () => {
    const plan = planWith(
      { meter: "chin", fNumber: 8 },
      { meter: "chin", receptor: "flat", direction: { bearing: 90 }, fNumber: 8 },
      { position: [1, 1, 1], fNumber: 8 },
    );
    const [as, own, alone] = plan.readings.map((reading) => placeOf(plan, reading));
    const { position, direction, receptor } = plan.meters[0];
    expect(as).toEqual({ position, direction, receptor });
    expect(own).toEqual({ position, direction: { bearing: 90, tilt: 0 }, receptor: "flat" });
    expect(alone).toEqual({ position: [1, 1, 1], direction: { bearing: 180, tilt: 0 }, receptor: "flat" });
  });
});

describe("[CA2] what is wrong with a reading is told", () => {
  it.each([
    [
      { light: "kee", meter: "chin", fNumber: 8 },
      'readings[0].light: must be "all" or the name of a light; there is "key"',
    ],
    [
      { meter: "nose", fNumber: 8 },
      'readings[0].meter: must be the name of a meter of the plan; there is "chin"',
    ],
    [
      { fNumber: 8 },
      "readings[0].position: must be there, or the name of a meter of the plan: where was it held?",
    ],
    [
      { meter: "chin", position: [1, 1, 1], fNumber: 8 },
      "readings[0].position: must be left out where a meter is named: one of the two",
    ],
    [
      { position: [9, 1, 1], fNumber: 8 },
      "readings[0].position[0]: must be a number from 0 to 5 m; x = 9 m is outside the room",
    ],
  ])("%j", (reading, told) => {
    expect(problemsOf({ ...BASE, readings: [reading] }).map((p) => p.replace(/; it is .*/, ""))).toEqual([
      told,
    ]);
  });
  it("a light called all leaves nothing to tell all lights by", () => {
    const lights = [{ ...BASE.lights[0], name: "all" }];
    expect(problemsOf({ ...BASE, lights })).toEqual([]);
    const readings = [{ meter: "chin", fNumber: 8 }];
    expect(problemsOf({ ...BASE, lights, readings })).toEqual([
      'readings[0].light: must say which: a light is called "all"; give it another name',
    ]);
  });
});

it("[CA3] a reading that is written here outlives its meter and the light as it stood", () => {
  const plan = planWith();
  const item = readingOf(plan, { light: "key", meter: "chin", fNumber: 8, iso: 100 });
  const edits = [
    { kind: "add", label: "", list: "readings", item } as const,
    { kind: "remove", label: "", list: "meters", index: 0 } as const,
    setField("", ["lights", 0, "name"], "main"),
    setField("", ["lights", 0, "output", "stopsDown"], 4),
  ];
  const after = edits.reduce((now, edit) => {
    const edited = applyEdit(now, edit);
    if (!edited.ok) throw new Error(JSON.stringify(edited.problems));
    return edited.plan;
  }, plan);
  expect(after.readings[0]).toMatchObject({ light: "key", position: [2, 4, 1.5], receptor: "dome" });
  expect(after.readings[0].stood?.[0]).toMatchObject({ name: "key", output: { stopsDown: 2 } });
  expect(after.readings[0].stood?.[0]).not.toHaveProperty("pinned");
});
