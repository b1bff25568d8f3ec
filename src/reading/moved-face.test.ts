import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { checkPlan, type Plan, parsePlan } from "../plan/index.ts";
import { Memory, type Moved, MovedFace, readPlan, STAYED } from "./index.ts";

const parsed = parsePlan(readFileSync("examples/cellist.json", "utf8"));
if (!parsed.ok) throw new Error("the demo does not parse");
const DEMO: Plan = parsed.plan;

/** Facing 180: own left is +x, ahead is -y. */
function planned(plan: Plan, { aside, ahead, turn, tip }: Moved): Plan {
  const [person, ...others] = plan.people;
  const [x, y] = person.position;
  const head = { ...person.head, turn: person.head.turn + turn, tip: person.head.tip + tip };
  return { ...plan, people: [{ ...person, position: [x + aside, y - ahead], head }, ...others] };
}

/** Stops by which lit cheek and ratio have changed, here and by the whole coarse reading. */
function bothWays(plan: Plan, change: Partial<Moved>) {
  const moved = { ...STAYED, ...change };
  const quick = new MovedFace(plan, 0, new Memory());
  const [a, b] = [quick.read(STAYED), quick.read(moved)];
  const [c, d] = [plan, planned(plan, moved)].map((p) => readPlan(p, "coarse").people[0].face);
  const exposure = [Math.log2(b.litCheek / a.litCheek), Math.log2(d.litCheek / c.litCheek)] as const;
  const ratio = [b, a, d, c].map((r) => r.ratioStops as number);
  return {
    exposure,
    ratio: [ratio[0] - ratio[1], ratio[2] - ratio[3]] as const,
    pattern: [b.pattern, d.pattern],
  };
}

/** A coarse shadow cheek is good to a twentieth of a stop. */
const STOPS = 0.05;

describe("a face that has moved", () => {
  it.each([
    ["aside", { aside: 0.25 }],
    ["ahead", { ahead: 0.35 }],
    ["turned", { turn: 15 }],
    ["with the chin up", { tip: 10 }],
  ])("[HZ12] %s: as the whole reading has it there, within a twentieth of a stop", (_, change) => {
    const { exposure, ratio, pattern } = bothWays(DEMO, change);
    expect(Math.abs(exposure[0] - exposure[1])).toBeLessThan(STOPS);
    expect(Math.abs(ratio[0] - ratio[1])).toBeLessThan(STOPS);
    expect(pattern[0]).toBe(pattern[1]);
  });

  it("[HZ12] a head that follows the camera goes on following it", () => {
    const [person] = DEMO.people;
    const follows = {
      ...DEMO,
      people: [{ ...person, head: { ...person.head, follows: "camera" as const } }],
      camera: { ...DEMO.camera, position: [4.4, 3.2, 1.5] as [number, number, number] },
    };
    const { exposure, ratio } = bothWays(follows, { aside: 0.3 });
    expect(Math.abs(exposure[0] - exposure[1])).toBeLessThan(STOPS);
    expect(Math.abs(ratio[0] - ratio[1])).toBeLessThan(STOPS);
  });

  it("[HZ12] white walls", () => {
    const walls = { floor: 0.5, ceiling: 0.8, near: 0.8, far: 0.8, left: 0.8, right: 0.8 };
    const room = { width: 7, depth: 9, height: 3.4, reflectance: walls };
    const { exposure, ratio } = bothWays(planOf({ room }), { aside: -0.2, ahead: 0.1 });
    expect(Math.abs(exposure[0] - exposure[1])).toBeLessThan(STOPS);
    expect(Math.abs(ratio[0] - ratio[1])).toBeLessThan(STOPS);
  });

  it("[HZ12] a cloth that the light shines through: as well as a coarse reading knows it, within 0.35 stop", () => {
    const cloth = {
      name: "cloth",
      position: [4.0, 4.0, 1.9],
      direction: { at: [3.5, 4.5, 1.55] },
      width: 1,
      height: 1,
      reflectance: 0.3,
      transmittance: 0.5,
    };
    // coarse and fine readings themselves lie that far apart there
    const { exposure, ratio } = bothWays(planOf({ panels: [cloth] }), { aside: -0.2, ahead: 0.1 });
    expect(Math.abs(exposure[0] - exposure[1])).toBeLessThan(0.35);
    expect(Math.abs(ratio[0] - ratio[1])).toBeLessThan(0.35);
  });
});

function planOf(change: object): Plan {
  const checked = checkPlan({ ...DEMO, ...change });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}
