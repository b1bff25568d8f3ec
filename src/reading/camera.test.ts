/** What skin has left to clipping: with its glints, without them, and by channel. */
import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import { Memory, readPlan } from "./index.ts";

const memory = new Memory();

function plan(skin: object, light: object = {}): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    lights: [
      {
        name: "key",
        position: [0.5, -1.2, 1.9],
        direction: { at: [0, 0, 1.58] },
        face: { shape: "disc", width: 0.2 },
        output: { lumenSeconds: 900 },
        ...light,
      },
    ],
    people: [{ name: "sitter", position: [0, 0], skin }],
    camera: { position: [0, -2, 1.6], direction: { at: [0, 0, 1.58] }, focalLength: 135 },
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

const camera = (skin: object, light?: object) => readPlan(plan(skin, light), "fine", memory).camera;

describe("[RD15] headroom on skin", () => {
  it("[RD15] glints take of it, powder gives it back: shine 0 makes the two the same", () => {
    const bare = camera({ reflectance: { tone: "light" } });
    expect(bare.headroomStops).toBeLessThan((bare.withoutShine.headroomStops ?? 0) - 0.1);
    const powdered = camera({ reflectance: { tone: "light" }, shine: 0 });
    expect(powdered.withoutShine.headroomStops).toBeCloseTo(powdered.headroomStops ?? 0, 9);
    expect(powdered.headroomStops).toBeGreaterThan(bare.headroomStops ?? 0);
    const wet = camera({ reflectance: { tone: "light" }, shine: 2 });
    expect(wet.headroomStops).toBeLessThan(bare.headroomStops ?? 0);
  });

  it("[RD15] every channel by itself: skin is nearest in red, and the worst of them is what is told", () => {
    const { channels, headroomStops } = camera({ reflectance: { tone: "tan" } });
    const { red, green, blue } = channels;
    expect(red.headroomStops).toBeLessThan(green.headroomStops ?? 0);
    expect(green.headroomStops).toBeLessThan(blue.headroomStops ?? 0);
    expect(headroomStops).toBeCloseTo(red.headroomStops ?? 0, 2);
  });

  it("[RD15] a warm light takes red nearer and blue further; grey skin has three alike", () => {
    const neutral = camera({ reflectance: 0.36 });
    expect(neutral.channels.red).toEqual(neutral.channels.green);
    expect(neutral.channels.red).toEqual(neutral.channels.blue);
    const warm = camera({ reflectance: 0.36 }, { kelvin: 3200 });
    expect(warm.channels.red.headroomStops).toBeLessThan(warm.channels.blue.headroomStops ?? 0);
  });

  it("[RD15] a stop more light is a stop less headroom, and at some power it clips", () => {
    const one = camera({}, { output: { lumenSeconds: 900 } });
    const two = camera({}, { output: { lumenSeconds: 1800 } });
    expect((one.headroomStops ?? 0) - (two.headroomStops ?? 0)).toBeCloseTo(1, 5);
    const much = camera({}, { output: { lumenSeconds: 90_000 } });
    expect(much.clipped.skin).toBeGreaterThan(0.2);
    expect(much.headroomStops).toBeLessThan(0);
  });
});
