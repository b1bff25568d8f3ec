import { describe, expect, it } from "vitest";
import { applyEdit, checkPlan, directionOf, type Plan, type Vec3 } from "../plan/index.ts";
import { listMoves, type Move, type MoveKey } from "./index.ts";

interface Parts {
  readonly [part: string]: unknown;
}

const KEY = {
  name: "key",
  position: [4.6, 3, 2.4],
  direction: { at: [3.5, 4.4, 1.55] },
  face: { shape: "disc", width: 0.8 },
  output: { lumenSeconds: 1600 },
};
const SITTER = { name: "cellist", position: [3.5, 4.6], stature: 1.72, facing: 180 };

function planOf(parts: Parts = {}): Plan {
  const made = checkPlan({
    format: "tapemark/plan",
    version: 1,
    room: { width: 7, depth: 9, height: 3.4 },
    lights: [KEY],
    people: [SITTER],
    camera: { position: [3.4, 1.9, 1.5], direction: { at: [3.5, 4.6, 1.5] } },
    ...parts,
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.plan;
}

function moveOf(plan: Plan, key: MoveKey, person = 0, units: "metric" | "feet" = "metric"): Move {
  const move = listMoves(plan, person, units).find((m) => m.key === key);
  if (move === undefined) throw new Error(key);
  return move;
}

function afterOf(plan: Plan, key: MoveKey): Plan {
  const { after, why } = moveOf(plan, key);
  if (after === null) throw new Error(`${key}: ${why}`);
  return after;
}

/** The middle between the ears of a standing person, from the measures of the figure. */
const HEAD_M = 1.72 - ((0.131147 + 0.126475) / (1.756215 + 1.628473)) * 1.72;
const HEAD: Vec3 = [3.5, 4.6, HEAD_M];
const away = (p: Readonly<Vec3>, q: Readonly<Vec3> = HEAD) =>
  Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
const bearingFrom = (p: Readonly<Vec3>, q: Readonly<Vec3>) =>
  (Math.atan2(q[0] - p[0], q[1] - p[1]) * 180) / Math.PI;

describe("the eight moves", () => {
  it("[MV1] are always eight, four a side, cameras in one row", () => {
    const plans = [
      planOf(),
      planOf({ people: [] }),
      planOf({ lights: [] }),
      planOf({ lights: [{ ...KEY, position: [3.6, 2, 2] }] }),
      planOf({
        lights: [{ ...KEY, position: [6, 4.4, 2] }],
        panels: [{ position: [5, 4.4, 1.2], direction: { bearing: 270 } }],
      }),
      planOf({
        lights: [{ ...KEY, position: [1, 4.4, 2] }],
        panels: [{ position: [5, 4.4, 1.2], direction: { bearing: 270 } }],
      }),
    ];
    for (const plan of plans) {
      const moves = listMoves(plan, 0, "metric");
      expect(new Set(moves.map((m) => m.key)).size).toBe(8);
      expect(new Set(moves.map((m) => `${m.side} ${m.row}`)).size).toBe(8);
      expect(moves.filter((m) => m.side === "left").map((m) => m.row)).toEqual([0, 1, 2, 3]);
      expect(moves.find((m) => m.key === "camera-left")).toMatchObject({ side: "left", row: 1 });
      expect(moves.find((m) => m.key === "camera-right")).toMatchObject({ side: "right", row: 1 });
    }
  });

  it("[MV1] stand on the side of the picture to which they go", () => {
    const plan = planOf({
      panels: [{ name: "card", position: [2.2, 4.4, 1.2], direction: { bearing: 90 } }],
    });
    // 38° to the sitter's own left, which is picture right: the light comes nearer, and the nose turns from it
    expect(moveOf(plan, "light-round")).toMatchObject({ side: "left", does: "key round 10° left" });
    expect(moveOf(plan, "head").side).toBe("left");
    expect(moveOf(plan, "panel").side).toBe("left");
    const mirrored = planOf({ lights: [{ ...KEY, position: [2.4, 3, 2.4] }] });
    expect(moveOf(mirrored, "light-round").side).toBe("right");
    expect(moveOf(mirrored, "head").side).toBe("right");
    // from behind, what was left is right
    const behind = planOf({ camera: { position: [3.5, 7.5, 1.5], direction: { at: [3.5, 4.6, 1.5] } } });
    expect(moveOf(behind, "head").side).toBe("right");
  });

  it("[MV2] the camera keeps distance and height, and the sitter their place in the picture", () => {
    for (const direction of [{ at: [3.2, 4.9, 1.4] }, { bearing: 3, tilt: -2 }]) {
      const plan = planOf({ camera: { position: [3.4, 1.9, 1.5], direction } });
      for (const [key, turn] of [
        ["camera-left", 10],
        ["camera-right", -10],
      ] as const) {
        const { camera } = afterOf(plan, key);
        expect(Math.abs(away(camera.position) - away(plan.camera.position))).toBeLessThan(1e-9);
        expect(camera.position[2]).toBe(1.5);
        const went = bearingFrom(HEAD, camera.position) - bearingFrom(HEAD, plan.camera.position);
        expect(((went + 540) % 360) - 180).toBeCloseTo(turn, 9);
        const aim = ({ camera: c }: Pick<Plan, "camera">) => {
          const { bearing_deg, tilt_deg } = directionOf(c.direction, c.position);
          return [(bearing_deg - bearingFrom(c.position, HEAD) + 720) % 360, tilt_deg];
        };
        const [before, after] = [aim(plan), aim({ camera })];
        expect(after[0]).toBeCloseTo(before[0], 9);
        expect(after[1]).toBeCloseTo(before[1], 9);
      }
      expect(afterOf(plan, "camera-left").camera.position[0]).toBeLessThan(3.4);
    }
  });

  it("[MV3] the light keeps distance and height and stays aimed, nearer to the nose or farther from it", () => {
    const plan = planOf();
    const [light] = afterOf(plan, "light-round").lights;
    expect(Math.abs(away(light.position) - away(plan.lights[0].position))).toBeLessThan(1e-9);
    expect(light.position[2]).toBe(2.4);
    expect(light.direction).toEqual(plan.lights[0].direction);
    const off = ([x, y]: Readonly<Vec3>) => (Math.atan2(x - 3.5, 4.6 - y) * 180) / Math.PI;
    expect(off(light.position)).toBeCloseTo(off(plan.lights[0].position) - 10, 9);
    const wide = planOf({
      lights: [{ ...KEY, position: [5, 3.6, 2.4], direction: { bearing: 300, tilt: -20 } }],
    });
    const [farther] = afterOf(wide, "light-round").lights;
    expect(off(farther.position)).toBeCloseTo(off([5, 3.6, 2.4]) + 10, 9);
    expect(farther.direction).toEqual({ bearing: 290, tilt: -20 });
    const frontal = planOf({ lights: [{ ...KEY, position: [3.6, 2.5, 2.4] }] });
    expect(off(afterOf(frontal, "light-round").lights[0].position)).toBeCloseTo(off([3.6, 2.5, 2.4]) + 10, 9);
  });

  it("[MV4] the main light is the one that gives the face most, not the strongest lamp nor one that is off", () => {
    const rim = { ...KEY, name: "rim", position: [4.5, 6.5, 2.4], output: { lumenSeconds: 9000 } };
    const off = { ...KEY, name: "off", on: false, position: [2.4, 3, 2.4], output: { lumenSeconds: 90000 } };
    const plan = planOf({ lights: [rim, off, { ...KEY, output: { lumenSeconds: 800 } }] });
    expect(moveOf(plan, "light-up").does).toBe("key up 15 cm");
    expect(afterOf(plan, "light-up").lights[2].position).toEqual([4.6, 3, 2.55]);
  });

  it("[MV5] the head turns away from a near light and toward a far one, the chin to its height", () => {
    const near = planOf();
    expect(afterOf(near, "head").people[0].head.turn).toBe(-10);
    expect(moveOf(near, "head").does).toBe("head turns 10° away");
    const far = planOf({ lights: [{ ...KEY, position: [5.4, 4.2, 2] }] });
    expect(afterOf(far, "head").people[0].head.turn).toBe(10);
    expect(moveOf(far, "head").does).toBe("head turns 10° toward light");
    expect(afterOf(near, "chin").people[0].head.tip).toBe(-5);
    const high = planOf({
      lights: [{ ...KEY, position: [3.9, 4, 2.8], direction: { at: [3.5, 4.5, 1.6] } }],
    });
    expect(afterOf(high, "chin").people[0].head.tip).toBe(5);
  });

  it("[MV6] a step back goes against the facing and takes the meter at the face along", () => {
    const meters = [
      { name: "chin", position: [3.5, 4.4, 1.5] },
      { name: "paper", position: [3.5, 7, 1.5] },
    ];
    const plan = planOf({ meters });
    const after = afterOf(plan, "back");
    expect(after.people[0].position[0]).toBeCloseTo(3.5, 12);
    expect(after.people[0].position[1]).toBeCloseTo(4.8, 12);
    expect(after.meters[0].position[1]).toBeCloseTo(4.6, 12);
    expect(after.meters[1]).toEqual(plan.meters[1]);
  });

  it("[MV7] the nearest free panel comes 30 cm level toward the face", () => {
    const card = { name: "card", position: [2.3, 4.2, 1.4], direction: { bearing: 90 } };
    const farther = { ...card, name: "farther", position: [5.4, 4.2, 1.4] };
    const plan = planOf({ panels: [farther, card] });
    const [, moved] = afterOf(plan, "panel").panels;
    const level = ([x, y]: Readonly<Vec3>) => Math.hypot(x - 3.5, y - 4.6);
    expect(level(moved.position)).toBeCloseTo(level([2.3, 4.2, 0]) - 0.3, 9);
    expect(moved.position[2]).toBe(1.4);
    const pinned = planOf({ panels: [farther, { ...card, pinned: true }] });
    expect(moveOf(pinned, "panel").does).toBe("farther 30 cm nearer");
    const atHand = planOf({ panels: [{ ...card, position: [3, 4.6, 1.4] }] });
    expect(moveOf(atHand, "panel")).toMatchObject({ edit: null, why: "no room: it would touch cellist" });
  });

  it("[MV7] where there is no panel, a white one comes on the shadow side", () => {
    const plan = planOf();
    const { panels } = afterOf(plan, "panel");
    expect(panels).toHaveLength(1);
    // the key is to the own left, picture right
    expect(panels[0].position[0]).toBeLessThan(3.5);
    expect(away([panels[0].position[0], panels[0].position[1], HEAD_M])).toBeCloseTo(0.8, 9);
    expect(panels[0].reflectance).toBe(0.85);
    expect(moveOf(plan, "panel")).toMatchObject({ side: "left", does: "white panel in" });
    const narrow = planOf({
      room: { width: 1.2, depth: 9, height: 3.4 },
      lights: [],
      people: [{ ...SITTER, position: [0.6, 4.6] }],
      camera: { position: [0.6, 1, 1.5] },
    });
    expect(moveOf(narrow, "panel").why).toMatch(/^no room for a panel: the (left|right) wall is in the way$/);
  });

  it("[MV8] what cannot be made says why", () => {
    const why = (plan: Plan, key: MoveKey) => {
      const { edit, after, why } = moveOf(plan, key);
      expect([edit, after]).toEqual([null, null]);
      return why;
    };
    const nobody = planOf({ people: [] });
    for (const { key } of listMoves(nobody, 0, "metric"))
      expect(why(nobody, key)).toBe("nobody is in the plan");
    const dark = planOf({ lights: [{ ...KEY, on: false }] });
    expect(why(dark, "light-up")).toBe("no light is on");
    expect(why(dark, "light-round")).toBe("no light is on");
    const pinned = planOf({
      lights: [{ ...KEY, pinned: true }],
      people: [{ ...SITTER, pinned: true }],
      camera: { position: [3.4, 1.9, 1.5], pinned: true },
      panels: [{ name: "card", position: [2.2, 4.4, 1.2], direction: { bearing: 90 }, pinned: true }],
    });
    expect(why(pinned, "camera-left")).toBe("the camera is pinned");
    expect(why(pinned, "light-up")).toBe("key is pinned");
    expect(why(pinned, "light-round")).toBe("key is pinned");
    expect(why(pinned, "back")).toBe("cellist is pinned");
    expect(why(pinned, "panel")).toBe("card is pinned");
    expect(moveOf(pinned, "head").edit).not.toBeNull();
    const tight = planOf({
      room: { width: 7, depth: 5, height: 2.5 },
      camera: { position: [0.1, 1.9, 1.5], direction: { at: [3.5, 4.6, 1.5] } },
    });
    expect(why(tight, "camera-left")).toBe("the left wall is in the way");
    expect(why(tight, "light-up")).toBe("the ceiling is in the way");
    expect(why(tight, "back")).toBe("the far wall is in the way");
    const paper = planOf({ backdrop: { kind: "paper", position: [3.5, 4.9] } });
    expect(why(paper, "back")).toBe("the backdrop is in the way");
    const pair = planOf({ people: [SITTER, { name: "viola", position: [3.5, 5.0] }] });
    expect(why(pair, "back")).toBe("viola is in the way");
  });

  it("[MV9] each is one edit under its own name, and gives the plan that was tried", () => {
    const plan = planOf({
      panels: [{ name: "card", position: [2.2, 4.4, 1.2], direction: { bearing: 90 } }],
    });
    const moves = listMoves(plan, 0, "metric");
    for (const move of moves) {
      if (move.edit === null) throw new Error(`${move.key}: ${move.why}`);
      const edited = applyEdit(plan, move.edit);
      expect(edited).toEqual({ ok: true, plan: move.after });
    }
    expect(moves.map((m) => m.edit?.label).sort()).toEqual([
      "camera round 10° to the left",
      "camera round 10° to the right",
      "card 30 cm nearer",
      "cellist back 20 cm",
      "cellist's chin down 5°",
      "cellist's head turned 10° away from key",
      "key round 10° to the left",
      "key up 15 cm",
    ]);
  });

  it("[MV9] with a tape in feet the steps are whole inches", () => {
    const plan = planOf({
      panels: [{ name: "card", position: [2.2, 4.4, 1.2], direction: { bearing: 90 } }],
    });
    const does = (key: MoveKey) => moveOf(plan, key, 0, "feet").does;
    expect([does("light-up"), does("back"), does("panel")]).toEqual([
      "key up 6″",
      "step back 8″",
      "card 1′ nearer",
    ]);
    expect(moveOf(plan, "light-up", 0, "feet").after?.lights[0].position[2]).toBeCloseTo(
      2.4 + 6 * 0.0254,
      12,
    );
  });
});
