import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type Plan, parsePlan } from "../plan/index.ts";
import { type FaceReading, Memory, type PlanReading, readPlan } from "../reading/index.ts";
import { effectOf, listMoves } from "./index.ts";

const parsed = parsePlan(readFileSync("examples/cellist.json", "utf8"));
if (!parsed.ok) throw new Error("the demo does not parse");
const DEMO: Plan = parsed.plan;
const memory = new Memory();
const read = (plan: Plan) => readPlan(plan, "coarse", memory);
const demo = read(DEMO);

/** The demo's reading with some of its face and camera as they might be read after a move. */
function changed(
  face: Partial<FaceReading>,
  camera: Partial<PlanReading["camera"]> = {},
  warnings = demo.warnings,
): PlanReading {
  const [first] = demo.people;
  return {
    ...demo,
    people: [{ ...first, face: { ...first.face, ...face } }],
    camera: { ...demo.camera, ...camera },
    warnings,
  };
}
const NOW = demo.people[0].face;

describe("what a move changes", () => {
  it("[MV10] stops at the lit cheek in tenths with a true minus, the same under half of one", () => {
    const said = (stops: number) =>
      effectOf(demo, changed({ litCheek: NOW.litCheek * 2 ** stops }), 0)?.exposure.replace(/\u00a0/g, " ");
    expect([0, 0.04, -0.04].map(said)).toEqual(["same f", "same f", "same f"]);
    expect([-0.3, 0.06, 1.0, -1.24].map(said)).toEqual(["−0.3 stop", "+0.1 stop", "+1.0 stop", "−1.2 stops"]);
    expect(effectOf(demo, changed({ pattern: "dark", litCheek: 0 }), 0)?.exposure).toBe("no light");
  });

  it("[MV10] then what else differs, the weightiest first, and nothing where nothing does", () => {
    expect(effectOf(demo, demo, 0)).toEqual({
      pattern: "Rembrandt",
      exposure: "same\u00a0f",
      lightUnchanged: true,
      others: [],
    });
    const [catchlight] = NOW.catchlights.filter((c) => c.kind === "light" && c.visible);
    const after = changed(
      {
        pattern: "loop",
        ratioStops: (NOW.ratioStops ?? 0) - 0.5,
        side: "broad",
        catchlights: [{ ...catchlight, clock: 1 }],
      },
      {
        backgroundStops: (demo.camera.backgroundStops ?? 0) + 0.2,
        headroomStops: (demo.camera.headroomStops ?? 0) - 0.1,
      },
      [
        ...demo.warnings,
        { about: "place", path: "lights[0]", state: "key may touch the ceiling", margin: "", remedy: "" },
      ],
    );
    const effect = effectOf(demo, after, 0);
    expect(effect?.pattern).toBe("Loop");
    expect(effect?.others.map((words) => words.replace(/\u00a0/g, " "))).toEqual([
      "warns: key may touch the ceiling",
      "ratio −0.5 stop",
      `${NOW.side} to broad`,
      "background +0.2 stop",
      expect.stringMatching(/^catchlight \d+:\d0 to 1:00$/),
      "headroom −0.1 stop",
    ]);
    expect(effectOf(after, demo, 0)?.others[0]).toBe("no longer: key may touch the ceiling");
  });

  it("[MV10] a catchlight that comes or goes is said with its eye; nobody there is nothing to say", () => {
    const others = (face: Partial<FaceReading>) => effectOf(demo, changed(face), 0)?.others;
    expect(others({ catchlights: [] })).toEqual([
      expect.stringMatching(/^no catchlight of key in the (left|right) eye$/),
    ]);
    expect(effectOf(changed({ catchlights: [] }), demo, 0)?.others[0]).toMatch(
      /^catchlight of key in the .* eye now$/,
    );
    expect(effectOf(demo, demo, 1)).toBeNull();
  });

  it("[MV11] with the head still a camera move leaves the light as it is, with the nose following it does not", () => {
    for (const key of ["camera-left", "camera-right"]) {
      const moveIn = (plan: Plan) => {
        const move = listMoves(plan, 0, "metric").find((m) => m.key === key);
        if (move?.after == null) throw new Error(key);
        return { nose: move.nose, effect: effectOf(read(plan), read(move.after), 0) };
      };
      const still = moveIn(DEMO);
      expect(still.nose).toBe("stays");
      expect(still.effect).toMatchObject({
        pattern: "Rembrandt",
        exposure: "same\u00a0f",
        lightUnchanged: true,
      });
      const [person] = DEMO.people;
      const following = {
        ...DEMO,
        people: [{ ...person, head: { ...person.head, follows: "camera" as const } }],
      };
      const along = moveIn(following);
      expect(along.nose).toBe("follows");
      expect(along.effect?.lightUnchanged).toBe(false);
    }
  });

  it("[MV11] the last digits count: a millionth more light is no unchanged light", () => {
    const same = (share: number) =>
      effectOf(demo, changed({ shadowCheek: NOW.shadowCheek * share }), 0)?.lightUnchanged;
    expect([same(1), same(1 + 1e-12), same(1 + 1e-6)]).toEqual([true, true, false]);
    const dark = changed({ pattern: "dark" });
    expect(effectOf(dark, dark, 0)?.lightUnchanged).toBe(false);
  });
});
