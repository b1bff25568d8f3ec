import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  applyEdit,
  axesOf,
  begin,
  checkPlan,
  current,
  directionOf,
  faceOutline,
  newPlan,
  type Plan,
  parsePlan,
  record,
  redo,
  serialisePlan,
  setField,
  undo,
} from "./index.ts";

const demoText = readFileSync("examples/cellist.json", "utf8");

function demo(): Plan {
  const parsed = parsePlan(demoText);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.plan;
}

function problems(change: (plan: Record<string, never> & { [k: string]: never }) => void): string[] {
  const raw = JSON.parse(demoText);
  change(raw);
  const result = checkPlan(raw);
  return result.ok ? [] : result.problems.map((p) => `${p.path}: ${p.what}`);
}

describe("[PL1] a plan is checked strictly, every problem at once with its path", () => {
  it("defaults are filled in", () => {
    expect(demo().camera.headroom).toBe(2.96);
    expect(checkPlan({ format: "tapemark/plan", version: 1 }).ok).toBe(true);
  });
  // biome-ignore lint/suspicious/noExplicitAny: the point is to break the document in ways its type forbids
  const cases: [string, (p: any) => void, RegExp][] = [
    [
      "unknown field",
      (p) => {
        p.lights[0].beem = 1;
      },
      /^lights\[0\]\.beem: unknown field/,
    ],
    [
      "wrong type",
      (p) => {
        p.title = 3;
      },
      /^title: must be text in quotes; it is 3/,
    ],
    [
      "NaN as text",
      (p) => {
        p.lights[0].kelvin = "NaN";
      },
      /^lights\[0\]\.kelvin: must be a number from 1500 to 20000 K; it is "NaN"/,
    ],
    [
      "two lights of one name",
      (p) => {
        p.lights.push(structuredClone(p.lights[0]));
      },
      /^lights\[1\]\.name: "key" is also the name of lights\[0\]/,
    ],
    [
      "light under the floor",
      (p) => {
        p.lights[0].position[2] = -0.2;
      },
      /^lights\[0\]\.position\[2\]: z = -0\.2 m is under the floor/,
    ],
    [
      "zero size",
      (p) => {
        p.lights[0].face.width = 0;
      },
      /^lights\[0\]\.face\.width: must be a number from 0\.001/,
    ],
    [
      "10,000 lights",
      (p) => {
        p.lights = Array(10000).fill(p.lights[0]);
      },
      /^lights: has too many entries; at most 64/,
    ],
    [
      "output misspelt inside",
      (p) => {
        p.lights[0].output = { wattSeconds: -5 };
      },
      /^lights\[0\]\.output\.wattSeconds: must be a number from 0/,
    ],
    [
      "aim at itself",
      (p) => {
        p.lights[0].direction = { at: p.lights[0].position };
      },
      /^lights\[0\]\.direction\.at: is the same point/,
    ],
    [
      "reflects more than it gets",
      (p) => {
        p.panels[0].transmittance = 0.97;
      },
      /reflectance \+ transmittance must be at most 1/,
    ],
    [
      "a newer version",
      (p) => {
        p.version = 2;
      },
      /^version: was made by a newer Tapemark/,
    ],
    [
      "an infinite number",
      (p) => {
        p.camera.iso = Number.POSITIVE_INFINITY;
      },
      /^camera\.iso: must be a number/,
    ],
  ];
  it.each(cases)("%s", (_, change, message) =>
    expect(problems(change).join("\n")).toMatch(new RegExp(message.source, "m")),
  );
  it("several problems come together", () =>
    expect(problems((p) => Object.assign(p, { titel: "", camera: { fNumber: 0 } })).length).toBe(2));
  it("faces with a size need a lobe of 1 or more, points may have 0", () => {
    const raw = JSON.parse(demoText);
    raw.lights[0].beam.exponent = 0;
    expect(checkPlan(raw).ok).toBe(false);
    raw.lights[0].face = { shape: "point" };
    expect(checkPlan(raw).ok).toBe(true);
  });
});

describe("[PL2] bad text of every kind gets its message", () => {
  it.each([
    ["", /empty/],
    ["{", /not JSON.*line 1/],
    ['{"format": "tapemark/plan",\n "version": 1,}', /not JSON.*line 2/],
    ["[]", /must be a JSON object/],
    ["null", /must be a JSON object/],
    ["[".repeat(200000), /nested/],
    [`"${"x".repeat(50 * 1024 * 1024)}"`, /million characters/],
    ['{"format":"tapemark/plan","version":1,"ambient":{"lux":1e999}}', /ambient\.lux/],
  ])("case %#", (text, message) => {
    const result = parsePlan(text);
    expect(result.ok).toBe(false);
    if (!result.ok) expect(result.problems.map((p) => `${p.path}: ${p.what}`).join("\n")).toMatch(message);
  });
  it("a byte-order mark is not a problem", () => expect(parsePlan(`\ufeff${demoText}`).ok).toBe(true));
});

it("[PL3] an older version is brought forward step by step", () => {
  const old = { format: "tapemark/plan", version: 0, name: "old" };
  const steps = [
    { from: 0, change: ({ name, ...rest }: Record<string, unknown>) => ({ ...rest, title: name }) },
  ];
  const result = checkPlan(old, steps);
  expect(result.ok && result.plan.title).toBe("old");
});

describe("[PL4] directions", () => {
  it("bearing 90 is to the right, 180 faces the camera side", () => {
    expect(axesOf(90, 0, 0).forward[0]).toBeCloseTo(1, 12);
    expect(axesOf(180, 0, 0).forward[1]).toBeCloseTo(-1, 12);
    const { right, up } = axesOf(0, 0, 0);
    expect(right[0]).toBe(1);
    expect(up[2]).toBe(1);
  });
  it("the width axis stays level when it looks straight down", () =>
    expect(axesOf(0, -90, 0).right[0]).toBe(1));
  it("a quarter roll, seen from behind, brings the top to the right", () => {
    const { up } = axesOf(0, 0, 90);
    expect(up[0]).toBeCloseTo(1, 12);
  });
  it("at a point right above: bearing 0, straight up", () =>
    expect(directionOf({ at: [1, 1, 3] }, [1, 1, 1])).toEqual({ bearing_deg: 0, tilt_deg: 90 }));
  it("an octagon 1.5 across the flats has a flat top at 0.75", () => {
    const top = Math.max(...faceOutline({ shape: "polygon", width: 1.5, sides: 8 }).map((p) => p[1]));
    expect(top).toBeCloseTo(0.75, 12);
  });
});

describe("[PL5] edits and undo", () => {
  it("an edit makes a new plan and leaves the old", () => {
    const before = demo();
    const after = applyEdit(before, setField("key up", ["lights", 0, "position", 2], 2.6));
    expect(after.ok && after.plan.lights[0].position[2]).toBe(2.6);
    expect(before.lights[0].position[2]).toBe(2.45);
  });
  it("an edit that would make a wrong plan is refused with its problem", () => {
    const after = applyEdit(demo(), setField("key down", ["lights", 0, "position", 2], -1));
    expect(after.ok).toBe(false);
  });
  it("a drag is one step; undo and redo walk the steps", () => {
    const plan = demo();
    let h = begin(plan);
    for (const z of [2.5, 2.6, 2.7]) {
      const e = applyEdit(plan, setField("key", ["lights", 0, "position", 2], z));
      if (e.ok) h = record(h, "key moved", e.plan, "drag");
    }
    expect(h.steps.length).toBe(2);
    expect(current(undo(h))).toBe(plan);
    expect(current(redo(undo(h))).lights[0].position[2]).toBe(2.7);
  });
});

it("[PL6] writing and reading back changes nothing", () => {
  for (const plan of [demo(), newPlan()]) {
    const back = parsePlan(serialisePlan(plan));
    expect(back.ok && back.plan).toEqual(plan);
  }
});

it("[PL7] the examples are valid", () => {
  for (const file of ["cellist", "manual-start", "group"])
    expect(parsePlan(readFileSync(`examples/${file}.json`, "utf8"))).toMatchObject({ ok: true });
});
