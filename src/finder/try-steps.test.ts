import { beforeAll, describe, expect, it } from "vitest";
import { applyEdit, checkPlan, type Plan } from "../plan/index.ts";
import { Memory, Stopped } from "../reading/index.ts";
import { type TriedStep, type TriedSteps, trySteps } from "./index.ts";
import { pictureFaults } from "./step-in-picture.ts";
import { steppedBy } from "./step-person.ts";

/** Nearly a point, so that the inverse square holds of it. */
const KEY = {
  name: "key",
  position: [4.6, 3, 2.4],
  direction: { at: [3.5, 4.5, 1.58] },
  face: { shape: "disc", width: 0.1 },
  output: { wattSeconds: 400, stopsDown: 2 },
};
const SITTER = { name: "cellist", position: [3.5, 4.6], stature: 1.72, facing: 180 };
const CARD = { name: "card", position: [2.2, 4.4, 1.2], direction: { bearing: 90 } };

function planOf(parts: { readonly [part: string]: unknown } = {}): Plan {
  const made = checkPlan({
    format: "tapemark/plan",
    version: 1,
    lights: [KEY, { ...KEY, name: "off", on: false, position: [1, 1, 2] }],
    people: [SITTER],
    panels: [CARD],
    camera: { position: [3.4, 1.9, 1.5], direction: { at: [3.5, 4.6, 1.5] } },
    ...parts,
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.plan;
}

const stepsOf = (plan: Plan, units: "metric" | "feet" = "metric") =>
  trySteps(plan, 0, units, new Memory(), () => true);

function named({ steps }: TriedSteps, of: string, does: string): TriedStep {
  const found = steps.find((step) => step.of === of && step.does === does);
  if (found === undefined)
    throw new Error(`${of}: ${does} is not among ${steps.map((s) => s.does).join("; ")}`);
  return found;
}

describe("every small step", () => {
  const plan = planOf();
  let tried: TriedSteps;
  beforeAll(() => {
    tried = stepsOf(plan);
  }, 60_000);
  const gained = ({ after }: TriedStep) =>
    after === null ? Number.NaN : Math.log2(after.litCheek / tried.before.litCheek);

  it("[MV20] camera, sitter, head, each light and each panel, both ways, each its own edit that the plan takes", () => {
    const of = (thing: string) => tried.steps.filter((step) => step.of === thing).map(({ does }) => does);
    expect(of("camera")).toEqual([
      "round 10° left",
      "round 10° right",
      "up 15 cm",
      "down 15 cm",
      "20 cm nearer",
      "20 cm farther",
      "lens open 0.3 stop, to f/5.6 + 0.7",
      "lens closed 0.3 stop, to f/8 + 0.3",
    ]);
    expect(of("cellist")).toEqual([
      "forward 20 cm",
      "back 20 cm",
      "20 cm to own left",
      "20 cm to own right",
      "body turns 10° to own left",
      "body turns 10° to own right",
      "head turns 10° to own left",
      "head turns 10° to own right",
      "chin up 5°",
      "chin down 5°",
      "head tilts 5° to own left",
      "head tilts 5° to own right",
    ]);
    // the key stands picture right: clockwise from above it goes left
    expect(of("key")).toEqual([
      "round 10° left",
      "round 10° right",
      "up 15 cm",
      "down 15 cm",
      "20 cm nearer",
      "20 cm farther",
      "aimed 10° right",
      "aimed 10° left",
      "aimed 10° up",
      "aimed 10° down",
      "power up 0.3 stop, to −1.7",
      "power down 0.3 stop, to −2.3",
    ]);
    expect(of("off")).toEqual(["switched on"]);
    expect(of("card")).toEqual(["30 cm nearer", "30 cm farther"]);
    expect(tried.steps).toHaveLength(8 + 12 + 12 + 1 + 2);
    for (const { edit, after, does } of tried.steps) {
      if (edit === null) throw new Error(does);
      expect(applyEdit(plan, edit).ok).toBe(true);
      expect(after).not.toBeNull();
    }
  });

  it("[MV21] power is exactly its stops, the lens leaves the light, the camera leaves it too", () => {
    expect(gained(named(tried, "key", "power up 0.3 stop, to −1.7"))).toBeCloseTo(0.3, 9);
    expect(gained(named(tried, "key", "power down 0.3 stop, to −2.3"))).toBeCloseTo(-0.3, 9);
    const lens = named(tried, "camera", "lens closed 0.3 stop, to f/8 + 0.3");
    expect(gained(lens)).toBe(0);
    const room = (step: TriedStep) =>
      (step.after?.headroomStops ?? Number.NaN) - (tried.before.headroomStops ?? 0);
    expect(room(lens)).toBeCloseTo(0.3, 9);
    expect(gained(named(tried, "camera", "round 10° left"))).toBeCloseTo(0, 9);
  });

  it("[MV21] a small light nearer or farther follows the inverse square from the lit cheek", () => {
    // the cheek lies about 7 cm before the middle of the head on the light's side: a hundredth of a stop either way
    const away = Math.hypot(4.6 - 3.5, 3 - 4.6, 2.4 - 1.59) - 0.07;
    const law = (nearer: number) => 2 * Math.log2(away / (away - nearer));
    expect(Math.abs(gained(named(tried, "key", "20 cm nearer")) - law(0.2))).toBeLessThan(0.02);
    expect(Math.abs(gained(named(tried, "key", "20 cm farther")) - law(-0.2))).toBeLessThan(0.02);
  });

  it("[MV21] the head and the light turned the same way against each other come to the same", () => {
    // both carry the nose 10 degrees from a light that keeps its distance to the head
    const head = named(tried, "cellist", "head turns 10° to own right").after;
    const light = named(tried, "key", "round 10° right").after;
    expect(head?.pattern).toBe(light?.pattern);
    expect(Math.abs((head?.light.azimuth ?? 0) - (light?.light.azimuth ?? 90))).toBeLessThan(1);
  });
});

describe("steps that cannot be made", () => {
  it("[MV22] say why and are not tried; [MV23] what is pinned stays, its power and a pinned sitter's head do not", () => {
    const { steps } = stepsOf(
      planOf({
        lights: [{ ...KEY, pinned: true }],
        people: [{ ...SITTER, pinned: true, head: { turn: 75 } }],
        panels: [{ ...CARD, pinned: true }],
        camera: { position: [3.4, 1.9, 1.5], direction: { at: [3.5, 4.6, 1.5] }, pinned: true },
      }),
    );
    const made = steps.filter(({ edit }) => edit !== null).map(({ does }) => does);
    expect(made).toEqual([
      expect.stringMatching(/^lens open/),
      expect.stringMatching(/^lens closed/),
      "head turns 10° to own right",
      "chin up 5°",
      "chin down 5°",
      "head tilts 5° to own left",
      "head tilts 5° to own right",
      expect.stringMatching(/^power up/),
      expect.stringMatching(/^power down/),
    ]);
    for (const { edit, after, why } of steps)
      if (edit === null) {
        expect(after).toBeNull();
        expect(why).toMatch(/ is pinned$|^the neck turns no further$/);
      }
  });

  it("[MV22] walls, the ceiling, a body and the end of a dial are in the way, by name", () => {
    const { steps } = stepsOf(
      planOf({
        room: { width: 7, depth: 9, height: 2.45, bounce: false },
        lights: [
          { ...KEY, output: { wattSeconds: 400, stopsDown: 0 } },
          {
            ...KEY,
            name: "low",
            position: [3.75, 4.3, 1.5],
            direction: { at: [3.5, 4.6, 1.5] },
            output: { wattSeconds: 400, stopsDown: 6 },
          },
        ],
        panels: [],
        backdrop: { kind: "paper", position: [3.5, 4.95], top: 2.4 },
      }),
    );
    const why = (of: string, does: string) =>
      steps.find((step) => step.of === of && step.does.startsWith(does))?.why;
    expect(why("key", "up 15 cm")).toBe("the ceiling is in the way");
    expect(why("key", "power up")).toBe("key would be over full power");
    expect(why("low", "power down")).toBe("low would be under its least power");
    expect(why("low", "20 cm nearer")).toMatch(/as near as it goes|would touch cellist/);
    expect(why("cellist", "back 20 cm")).toBe("the backdrop is in the way");
  });

  it("[MV24] what is warned of after a step and was not before, and what comes into the picture", () => {
    const { steps } = stepsOf(
      planOf({
        room: { width: 7, depth: 9, height: 2.5, bounce: false },
        lights: [{ ...KEY, position: [4.6, 3, 2.2], face: { shape: "disc", width: 0.5 } }],
        panels: [
          { ...CARD, width: 0.4, height: 0.4, position: [2.72, 4.6, 1.6], direction: { bearing: 180 } },
        ],
        people: [{ ...SITTER, pinned: true }],
        camera: { position: [3.4, 1.9, 1.5], direction: { at: [3.5, 4.6, 1.5] }, pinned: true },
      }),
    );
    const warns = (of: string, does: string) =>
      steps.find((step) => step.of === of && step.does.startsWith(does))?.warns;
    expect(warns("key", "up 15 cm")).toEqual(["key may touch the ceiling"]);
    expect(warns("key", "down 15 cm")).toEqual([]);
    expect(warns("card", "30 cm nearer")).toEqual(["card is in the picture"]);
    expect(warns("card", "30 cm farther")).toEqual([]);
  });

  it("[MV20] with a tape in feet the steps are inches; [MV22] stopped it ends at once, and nobody is nobody", () => {
    const plan = planOf();
    let asked = 0;
    const stop = () => ++asked < 3;
    expect(() => trySteps(plan, 0, "feet", new Memory(), stop)).toThrow(Stopped);
    expect(asked).toBe(3);
    expect(() => trySteps(plan, 1, "feet", new Memory(), () => true)).toThrow(RangeError);
  });
});

describe("the frame", () => {
  it("[MV24] cuts a head that steps out of it", () => {
    // 12 mm of a 135 mm lens at 2.7 m: 24 cm to the edge, less 8 cm of head
    const plan = planOf({
      camera: { position: [3.5, 1.9, 1.5], direction: { at: [3.5, 4.6, 1.5] }, focalLength: 135 },
    });
    expect(pictureFaults(plan, 0)).toEqual([]);
    const aside = (left_m: number) => {
      const step = steppedBy(plan, 0, { ahead_m: 0, left_m }, "");
      return step.ok ? pictureFaults(step.after, 0) : [step.why];
    };
    expect(aside(0.12)).toEqual([]);
    expect(aside(0.2)).toEqual(["the frame cuts the head"]);
  });

  it("[MV24] is filled by a board whose corners, middle and rim all lie outside of it", () => {
    const camera = { position: [3.5, 1.9, 1.5], direction: { bearing: 0, tilt: 0 }, focalLength: 135 };
    const board = (x: number, z: number) => ({
      name: "board",
      position: [x, 4.2, z],
      direction: { bearing: 180, tilt: 0 },
      width: 1.2,
      height: 2.4,
      reflectance: 0.04,
    });
    // 135 mm of a sensor 24 by 36 mm held upright: 0.41 m by 0.61 m at 2.3 m
    const faults = (x: number, z: number) => pictureFaults(planOf({ camera, panels: [board(x, z)] }), 0);
    expect(faults(3.9, 2.2)).toContain("board is in the picture");
    // by hand: its rim is 0.6 m from its middle, the picture's 0.204 m from the axis
    expect(faults(3.5 + 0.6 + 0.2, 1.5)).toContain("board is in the picture");
    expect(faults(3.5 + 0.6 + 0.21, 1.5)).not.toContain("board is in the picture");
    expect(faults(3.5, 1.5 - 1.2 - 0.31)).not.toContain("board is in the picture");
  });
});
