import { describe, expect, it } from "vitest";
import { applyEdit, checkPlan, type Plan } from "../plan/index.ts";
import { shapeOf } from "../staging/index.ts";
import { nextSitter } from "./next-sitter.ts";
import { sitterLadder } from "./sitter-ladder.ts";

function set(change: (parts: Record<string, unknown>) => object = (parts) => parts): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    ...change({
      room: { width: 6, depth: 7, height: 2.7 },
      backdrop: { kind: "paper", position: [3, 6] },
      people: [{ name: "first", position: [3, 4], stature: 1.7 }],
      camera: { position: [3, 1.5, 1.6], direction: { at: [3, 4, 1.55] } },
      lights: [
        {
          name: "key",
          position: [3.9, 3.1, 2],
          direction: { at: [3, 3.9, 1.6] },
          face: { shape: "disc", width: 0.9 },
          output: { lumenSeconds: 900 },
        },
        {
          name: "paper light",
          position: [4.6, 5, 1.5],
          direction: { at: [3, 6, 1.5] },
          face: { shape: "disc", width: 0.4 },
          output: { lumenSeconds: 900 },
        },
      ],
      panels: [
        { name: "V-flat", position: [2.1, 4, 1.2], direction: { bearing: 90, tilt: 0 } },
        {
          name: "reflector",
          position: [2.4, 3.6, 1.1],
          direction: { at: [3, 4, 1.5] },
          width: 0.8,
          height: 0.8,
        },
      ],
      meters: [
        { name: "chin", position: [3, 3.85, 1.48], direction: { at: [3.9, 3.1, 2] } },
        { name: "from the lens", position: [3, 1.5, 1.6], direction: { at: [3, 6, 1.6] }, receptor: "spot" },
        { name: "paper", position: [3, 5.9, 1.5], direction: { bearing: 180, tilt: 0 } },
      ],
    }),
  });
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}

const eyesOf = (plan: Plan) => {
  const { earHeight, head } = shapeOf(plan.people[0]);
  return earHeight + head.leftEye.centre[2];
};
const carried = (plan: Plan, next: Parameters<typeof nextSitter>[2]) => {
  const answer = nextSitter(plan, 0, next);
  if (!answer.made.ok) throw new Error(answer.made.why);
  return { ...answer, plan: answer.made.after, edit: answer.made.edit };
};

describe("the next sitter", () => {
  it("[GD10] what is set by the face goes with the eyes, by as much and in one edit", () => {
    const plan = set();
    const next = carried(plan, { name: "second", stature: 1.58 });
    const rise = eyesOf(next.plan) - eyesOf(plan);
    expect(rise).toBeLessThan(-0.1);
    expect(next.rise_m).toBeCloseTo(rise, 9);
    const up = (point: readonly number[]) => [point[0], point[1], point[2] + rise];
    const [key] = plan.lights;
    if (!("at" in key.direction)) throw new Error("the key aims at a point");
    expect(next.plan.lights[0].position).toEqual(up(key.position));
    expect(next.plan.lights[0].direction).toEqual({ at: up(key.direction.at) });
    expect(next.plan.panels[1].position).toEqual(up(plan.panels[1].position));
    expect(next.plan.meters[0].position).toEqual(up(plan.meters[0].position));
    expect(next.plan.meters[0].direction).toEqual({ at: up(key.position) });
    expect(next.plan.camera.position[2]).toBeCloseTo(plan.camera.position[2] + rise, 9);
    expect(next.plan.meters[1].position).toEqual(next.plan.camera.position);
    expect(next.moves).toEqual(["key", "reflector", "camera", "chin", "from the lens"]);
    const again = applyEdit(plan, JSON.parse(JSON.stringify(next.edit)));
    expect(again.ok && again.plan).toEqual(next.plan);
  });

  it("[GD11] lights of the background, panels on the floor and what is pinned stay; what is pinned is named", () => {
    const plan = set();
    const next = carried(plan, { stature: 1.58 }).plan;
    expect(next.lights[1]).toBe(plan.lights[1]);
    expect(next.panels[0]).toBe(plan.panels[0]);
    expect(next.meters[2]).toBe(plan.meters[2]);
    const held = set((parts) => ({
      ...parts,
      camera: { ...(parts.camera as object), pinned: true },
      lights: (parts.lights as object[]).map((light) => ({ ...light, pinned: true })),
    }));
    const answer = carried(held, { stature: 1.58 });
    expect(answer.stays).toEqual(["key: pinned", "camera: pinned"]);
    expect(answer.plan.lights).toEqual(held.lights);
    expect(answer.plan.camera).toBe(held.camera);
  });

  it("[GD12] eyes that were measured count; a new stature forgets the old measure", () => {
    const plan = set();
    const measured = carried(plan, { eyeHeight: 1.45 });
    expect(eyesOf(measured.plan)).toBeCloseTo(1.45, 9);
    // standing, stature in the same proportion to the eyes
    expect(measured.plan.people[0].stature).toBeCloseTo((1.7 * 1.45) / eyesOf(plan), 3);
    const tall = carried(measured.plan, { stature: 1.9 }).plan;
    expect(tall.people[0].eyeHeight).toBeUndefined();
    expect(eyesOf(tall)).toBeCloseTo(eyesOf(carried(plan, { stature: 1.9 }).plan), 9);
  });

  it("[GD13] a larger head is as large in the picture: the camera goes back along its line", () => {
    const plan = set();
    const next = carried(plan, { headSize: 95 }).plan;
    const scale = shapeOf(next.people[0]).head.scale / shapeOf(plan.people[0]).head.scale;
    expect(scale).toBeGreaterThan(1.02);
    const away = (of: Plan) => of.people[0].position[1] - of.camera.position[1];
    expect(away(next)).toBeCloseTo(scale * away(plan), 9);
  });

  it("[GD14] what has no room is refused by name, with both heights and a cure", () => {
    // 2 m, 0.35 m of stature of which the part under the ears, 0.924 (ANSUR II), and 0.45 cos 18.4 degrees of rim: 2.75
    const answer = nextSitter(set(), 0, { name: "tall one", stature: 2.05 });
    expect(answer.made).toEqual({
      ok: false,
      why: "the top of key would be 2.75 m up, the ceiling is at 2.70 m; seat tall one, or lower key first",
    });
    const feet = nextSitter(set(), 0, { name: "tall one", stature: 2.05 }, "feet").made;
    expect(feet.ok ? "" : feet.why).toContain("the ceiling is at 8′ 10¼″");
    expect(() => nextSitter(set(), 4, {})).toThrow(RangeError);
  });

  it("[GD15] a ladder tells each stature's heights, and where one cannot be set up why", () => {
    const plan = set();
    const [short, as, tall] = sitterLadder(plan, 0, [1.58, 1.7, 2.05]);
    expect(as.eyes_m).toBeCloseTo(eyesOf(plan), 9);
    expect(as.heights).toEqual([
      { name: "key", height_m: 2 },
      { name: "reflector", height_m: 1.1 },
      { name: "camera", height_m: 1.6 },
    ]);
    const second = carried(plan, { stature: 1.58 }).plan;
    expect(short.heights[0].height_m).toBeCloseTo(second.lights[0].position[2], 9);
    expect(tall.heights).toEqual([]);
    expect(tall.why).toMatch(/^the top of key/);
  });
});
