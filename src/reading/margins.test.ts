/** A margin is a promise: made as it says, the change gives that pattern. Held by planning it anew. */
import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { checkPlan, type Plan, parsePlan } from "../plan/index.ts";
import { type FaceReading, type Margin, Memory, patternOf, readPlan } from "./index.ts";
import { nearestOf } from "./margins.ts";

function example(name: string): Plan {
  const parsed = parsePlan(readFileSync(`examples/${name}.json`, "utf8"));
  if (!parsed.ok) throw new Error(parsed.problems[0].what);
  return parsed.plan;
}

/** The plan with the change made in full, or a share of it; facing 180, own left is +x and forward is -y. */
function changed(plan: Plan, { change, amount, light }: Margin, share: number): Plan {
  const next = structuredClone(plan);
  const person = next.people[0];
  const by = share * amount;
  if (change === "turn") person.head.turn += by;
  else if (change === "raise") person.head.tip += by;
  else if (change === "driftAside") person.position[0] += by / 100;
  else if (change === "driftAhead") person.position[1] -= by / 100;
  else {
    const found = next.lights.find((l) => l.name === light);
    if (!found) throw new Error(`no light called ${light}`);
    found.position[2] += by / 100;
  }
  return next;
}

describe("[MG1] every margin, planned anew", () => {
  let plan: Plan;
  let face: FaceReading;
  beforeAll(() => {
    plan = example("manual-start");
    face = readPlan(plan, "fine", new Memory()).people[0].face;
  });

  it("[MG1] there are some, of the head, the light and the sitter's place", () => {
    const kinds = new Set(face.margins.map((m) => m.change));
    expect(kinds.size).toBeGreaterThanOrEqual(3);
    expect(nearestOf(face.margins)).toEqual(face.nearest);
  });

  it("[MG1] a third further it is the pattern said, or a quarter of a stop from it; half way it is still the old one", () => {
    for (const margin of face.margins) {
      const told = `${margin.change} ${margin.amount}`;
      const [past] = patternOf(changed(plan, margin, 1.33), 0, new Memory(), [0]);
      expect([past.pattern, past.between], told).toContain(margin.pattern);
      const [before] = patternOf(changed(plan, margin, 0.5), 0, new Memory(), [0]);
      expect([before.pattern, before.between], told).toContain(face.pattern);
    }
  });

  it("[MG1] a face without light has none", () => {
    const dark = { ...plan, lights: plan.lights.map((l) => ({ ...l, on: false })) };
    const read = readPlan(dark, "fine", new Memory()).people[0].face;
    expect(read.margins).toEqual([]);
    expect(read.nearest).toBeNull();
  });
});

describe("[GP1] a group", () => {
  const base = {
    format: "tapemark/plan",
    version: 1,
    lights: [
      {
        name: "key",
        position: [0, -3, 1.6],
        direction: { at: [0, 0, 1.55] },
        face: { shape: "disc", width: 0.3 },
        output: { lumenSeconds: 2000 },
      },
    ],
    camera: { position: [1, -3, 1.6], direction: { at: [0, 0, 1.5] } },
  };
  const read = (people: object[]) => {
    const checked = checkPlan({ ...base, people });
    if (!checked.ok) throw new Error(checked.problems[0].what);
    return readPlan(checked.plan, "fine", new Memory());
  };

  it("[GP1] one person is none", () => expect(read([{ name: "viola", position: [0, 0] }]).group).toBeNull());

  it("[GP1] side by side: the nearer is brighter by the cheeks, nobody shades", () => {
    const { group, people } = read([
      { name: "viola", position: [0, 0] },
      { name: "bass", position: [1.2, 0.4] },
    ]);
    expect(group).toMatchObject({ brightest: "viola", darkest: "bass", shading: [] });
    expect(group?.spreadStops).toBeCloseTo(Math.log2(people[0].face.litCheek / people[1].face.litCheek), 9);
    // 3 m against 3.6 m off: half a stop by the inverse square, a little more as the face is lit aslant
    expect(group?.spreadStops).toBeGreaterThan(0.4);
    expect(group?.spreadStops).toBeLessThan(1.1);
  });

  it("[GP1] somebody straight in front takes nearly all of the light, and is named", () => {
    const { group } = read([
      { name: "viola", position: [0, -0.8], stature: 1.8 },
      { name: "bass", position: [0, 0.4], stature: 1.7 },
    ]);
    expect(group?.shading).toHaveLength(1);
    expect(group?.shading[0]).toMatchObject({ light: "key", by: "viola", on: "bass" });
    expect(group?.shading[0].share).toBeGreaterThan(0.9);
  });
});
