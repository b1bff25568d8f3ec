import { describe, expect, it } from "vitest";
import { amount } from "../../properties/amount.ts";
import { armLength, reachOf, soleLength } from "../figure/index.ts";
import { Pcg32 } from "../math/index.ts";
import { checkPlan, type Plan } from "../plan/index.ts";
import { Memory, Stopped } from "../reading/index.ts";
import { spreadWords } from "../sheet/index.ts";
import { stagePerson } from "../staging/index.ts";
import { bodyReaches, effectWords, reachEffects, reachesTold, reachLine } from "./index.ts";

const STATURE = 1.72;
const SITTER = { name: "cellist", position: [3.5, 4.6], stature: STATURE, facing: 180 };
const CAMERA = { position: [3.5, 0.5, 1.5], direction: { at: [3.5, 4.6, 1.5] } };

function planOf(parts: Readonly<Record<string, unknown>>): Plan {
  const made = checkPlan({
    format: "tapemark/plan",
    version: 1,
    people: [SITTER],
    camera: CAMERA,
    ...parts,
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.plan;
}

const ears = (() => {
  const { people, ...plan } = planOf({});
  return stagePerson(people[0], { ...plan, people }).shape.earHeight;
})();
const { shoulderUnderEars, shoulderAside, finger, shoulderSpread } = reachOf(STATURE);
/** The left shoulder of somebody who looks to the camera side: to the right in the plan, a little behind the ears. */
const SHOULDER = [3.5 + shoulderAside, 4.6 + (0.022 / 1.7) * STATURE, ears - shoulderUnderEars];

/** A narrow strip, upright, whose near edge lies so far before the left shoulder, straight ahead and `up_deg` over it. */
function stripAt(far_m: number, up_deg = 0, width = 0.02): Plan {
  const up = (up_deg * Math.PI) / 180;
  const [x, y, z] = SHOULDER;
  const at = [x, y - far_m * Math.cos(up), z + far_m * Math.sin(up)];
  return planOf({
    lights: [
      {
        name: "key",
        position: [at[0] + width / 2, at[1], at[2]],
        direction: { bearing: 0 },
        face: { shape: "rectangle", width, height: 0.02 },
        output: { wattSeconds: 200 },
      },
    ],
  });
}

const first = (plan: Plan) => bodyReaches(plan, "metric")[0];
const arm = armLength(STATURE, "fingertips", 0).length;

describe("[BY4] what of the arm lies at the rim is told, and where nothing does, so is that", () => {
  it.each([
    [arm, "left arm level: fingertips just touch the near rim"],
    [arm + finger, "left arm level: fingertips stop 1 finger short of the near rim"],
    [arm + 5 * finger, "left arm level: fingertips stop 5 fingers short of the near rim"],
    [
      armLength(STATURE, "fist", 0).length + 2 * finger,
      "left arm level: the near rim lies 2 fingers past the fist",
    ],
    [armLength(STATURE, "fist", 0).length, "left arm level: the near rim lies in the closed fist"],
    [armLength(STATURE, "wrist", 0).length, "left arm level: the near rim meets the wrist"],
  ])("%f m before the shoulder: %s", (far, words) => {
    expect(first(stripAt(far)).text).toBe(words);
  });
  it("an arm that is raised reaches farther, and says that it is", () => {
    const { length } = armLength(STATURE, "fingertips", 40);
    expect(length).toBeGreaterThan(arm);
    expect(first(stripAt(length + 0.004, 40)).text).toBe(
      "left arm raised: fingertips just touch the near rim",
    );
  });
  it("the other arm, side-on where it stands behind, and the lower rim of what is high", () => {
    const strip = (position: number[], height = 0.02) =>
      planOf({
        lights: [
          {
            name: "key",
            position,
            direction: { bearing: 0 },
            face: { shape: "rectangle", width: 0.02, height },
            output: { wattSeconds: 200 },
          },
        ],
      });
    expect(first(strip([3.5 - shoulderAside, 4.6 - arm, SHOULDER[2]])).text).toMatch(/^right arm level/);
    const behind = 4.6 + arm + reachOf(STATURE).shoulderAsideHeldOut;
    expect(first(strip([3.5, behind, SHOULDER[2]])).text).toBe(
      "side-on to it, near arm level: fingertips just touch the near rim",
    );
    // its lower edge is 0.3 m over the shoulder: 0.808 m off, where the raised arm is 0.796 m long
    expect(first(strip([SHOULDER[0], 4.6 - arm + 0.05, SHOULDER[2] + 0.8], 1)).text).toBe(
      "left arm raised: fingertips stop 1 finger short of the lower rim",
    );
  });
  it("beyond the arm it is walked off in soles from under it, and beyond those only the tape is left", () => {
    const { length } = soleLength(STATURE);
    const at = (far: number) => {
      const { lights, ...plan } = stripAt(arm);
      const [key] = lights;
      return first({ ...plan, lights: [{ ...key, position: [3.51, 4.6 - far, 2.2] }] }).text;
    };
    expect(at(5 * length)).toBe("5 soles heel to toe from under the near rim to the mark");
    expect(at(5 * length + 2 * finger)).toBe(
      "5 soles heel to toe and 2 fingers from under the near rim to the mark",
    );
    expect(at(6 * length - finger)).toBe(
      "6 soles heel to toe less 1 finger from under the near rim to the mark",
    );
    expect(at(9 * length)).toMatch(/^no reach: 2\.5\d m from the shoulder to the near rim$/);
  });
  it("a bare lamp is not touched; its stand is, and a chair is not walked to", () => {
    const lamp = {
      name: "lamp",
      position: [SHOULDER[0], 4.6 - arm + 0.02, 2.1],
      direction: { bearing: 0 },
      face: { shape: "point" },
      output: { wattSeconds: 100 },
    };
    const sitter = { ...SITTER, pose: "seated" };
    expect(first(planOf({ lights: [lamp], people: [sitter] })).text).toBe(
      "no reach: a bare lamp is not touched",
    );
    const stood = { ...lamp, support: { load: 2 } };
    expect(first(planOf({ lights: [stood] })).text).toBe("left arm level: fingertips just touch the stand");
    const held = { ...lamp, support: { load: 2, arm: { reach: 1 } } };
    expect(first(planOf({ lights: [held], people: [sitter] })).text).toBe(
      "no reach: a bare lamp is not touched",
    );
    expect(first(planOf({ lights: [{ ...lamp, position: [3.5, 3, 2.1] }] })).text).toMatch(
      /from under the lamp to the mark$/,
    );
  });
  it("each thing is told from whoever stands nearest, and nothing where nobody stands", () => {
    const { lights } = stripAt(arm);
    const other = { ...SITTER, name: "viola", position: [1.2, 4.6] };
    const plan = planOf({ people: [other, SITTER], lights });
    expect(bodyReaches(plan, "metric").map(({ owner, person }) => [owner, person])).toEqual([
      ["lights[0]", 1],
      ["camera", 1],
    ]);
    expect(first(plan).text).toBe("cellist, left arm level: fingertips just touch the near rim");
    expect(bodyReaches(planOf({ people: [], lights }), "metric")).toEqual([]);
    expect(first(planOf({ people: [{ ...SITTER, pose: "seated" }] })).text).toMatch(/^no reach: \d/);
  });
});

/** Twelve of a uniform number less six: near enough a normal one, mean 0, deviation 1. */
function normal(chance: Pcg32): number {
  let sum = -6;
  for (let i = 0; i < 12; i++) sum += chance.next();
  return sum;
}

describe("[BY5] the spread is that of many sitters of the same stature who do as they are told", () => {
  it.each([0, 25, 50])("arm raised by %d°", (up_deg) => {
    const { length, spread } = armLength(STATURE, "fingertips", up_deg);
    const plan = stripAt(length, up_deg);
    const up = (up_deg * Math.PI) / 180;
    const [level, rise] = [length * Math.cos(up), length * Math.sin(up)];
    const chance = new Pcg32(9, 5);
    const n = amount(40_000);
    let squares = 0;
    for (let i = 0; i < n; i++) {
      const own = length + spread * normal(chance) + finger * (chance.next() - 0.5);
      const higher = shoulderSpread * normal(chance);
      // where the fingertips of that arm are at the rim's height they stand so far from it along the floor
      const stands = Math.sqrt(own ** 2 - (rise - higher) ** 2);
      squares += (stands - level) ** 2;
    }
    const found = Math.sqrt(squares / n);
    expect(first(plan).text).toContain("fingertips just touch");
    expect(Math.abs(first(plan).spread_m / found - 1)).toBeLessThan(0.06);
  });
  it("soles add up, the same one every time", () => {
    const { length, spread } = soleLength(STATURE);
    const { lights, ...plan } = stripAt(arm);
    const [key] = lights;
    const { spread_m, toward } = first({
      ...plan,
      lights: [{ ...key, position: [3.51, 4.6 - 5 * length, 2.2] }],
    });
    expect(spread_m).toBeCloseTo(Math.hypot(5 * spread, 0.03, finger / Math.sqrt(12)), 10);
    expect(toward[0]).toBeCloseTo(0, 6);
    expect(toward[1]).toBeCloseTo(-1, 6);
  });
});

describe("[BY6] what the spread does to the light is read, not guessed", () => {
  it("by the inverse square from a strip alone in the dark, the pattern told where it stays", () => {
    // nearly a point, and bare of all else: two stops an octave of distance, from the cheek on
    const plan = stripAt(arm, 0, 0.04);
    const [reach] = reachesTold(plan, "metric", reachEffects(plan, new Memory()));
    const stops = Number(/^power ±(\d\.\d)\sstop, /.exec(reach.effect)?.[1]);
    const [near, far] = [0.05, 0.25].map((nose) => {
      const d = arm - nose;
      return Math.abs(2 * Math.log2(d / (d - reach.spread_m)));
    });
    expect(stops).toBeGreaterThanOrEqual(Math.floor(10 * near - 0.5) / 10);
    expect(stops).toBeLessThanOrEqual(Math.ceil(10 * far + 0.5) / 10);
    expect(reach.effect).toMatch(/pattern stays|nearer|farther/);
  });
  it("where there is no reach nothing is said of it, and who looks on may stop it", () => {
    const far = planOf({});
    expect(reachEffects(far, new Memory())).toEqual([]);
    expect(reachesTold(far, "metric", []).map(({ effect }) => effect)).toEqual([""]);
    expect(() => reachEffects(stripAt(arm), new Memory(), { keepGoing: () => false })).toThrow(Stopped);
  });
});

describe("[BY7] words: spread in whole centimetres or half inches, power and direction apart", () => {
  const plain = (text: string) => text.replaceAll("\u00a0", " ");
  it("spread", () => {
    const shown = [0.004, 0.0249, 0.063, 0.12].map((m) => [
      plain(spreadWords(m, "metric")),
      plain(spreadWords(m, "feet")),
    ]);
    // 0.0249 m is 0.98 in, 0.063 m 2.48 in, 0.12 m 4.72 in
    expect(shown).toEqual([
      ["±1 cm", "±0.5 in"],
      ["±2 cm", "±1 in"],
      ["±6 cm", "±2.5 in"],
      ["±12 cm", "±4.5 in"],
    ]);
  });
  it("effect", () => {
    const stays = { stops: 0.21, pattern: "loop", nearer: "loop", farther: "loop" } as const;
    expect(plain(effectWords(stays, 0.063, "metric"))).toBe("power ±0.2 stop, pattern stays");
    expect(plain(effectWords({ ...stays, stops: 0.04, farther: "rembrandt" }, 0.063, "metric"))).toBe(
      "same power, Rembrandt if 6 cm farther",
    );
    expect(effectWords({ ...stays, stops: null }, 0.063, "metric")).toBe("no light on the face");
    const reach = { text: "left arm level: fingertips just touch the near rim", spread_m: 0.022 };
    expect(plain(reachLine(reach, stays, "metric"))).toBe(
      `${reach.text}; ±2 cm: power ±0.2 stop, pattern stays`,
    );
    expect(plain(reachLine(reach, null, "metric"))).toBe(`${reach.text}; ±2 cm`);
    expect(
      reachLine({ text: "no reach: 3 m from the shoulder to the lens", spread_m: 0 }, null, "metric"),
    ).toBe("no reach: 3 m from the shoulder to the lens");
  });
});
