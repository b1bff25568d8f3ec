/** Situations that a portrait photographer meets, worked through with their sums: what the room and what somebody wears do.
 * Invented situations; the sums are by hand and stand beside them (docs/spec/situations.md). */
import { describe, expect, it } from "vitest";
import type { Plan } from "../src/plan/index.ts";
import { readPlan } from "../src/reading/index.ts";
import { grey, planOf } from "./plans.ts";

const stops = (a: number, b: number) => Math.log2(a / b);
const EYES = 1.6;
const face = (plan: Plan) => readPlan(plan, "fine").people[0].face;

describe("[SI12] three stops wanted in a small white room, two found", () => {
  const set = (panels: object[]) =>
    planOf({
      room: { width: 4, depth: 5, height: 2.7, reflectance: { ...grey(0.85), floor: 0.4 } },
      people: [{ position: [2, 3], eyeHeight: EYES }],
      camera: { position: [2, 0.8, EYES], direction: { at: [2, 3, EYES] } },
      lights: [
        {
          name: "key",
          position: [3, 2.3, 2.05],
          direction: { at: [2, 2.9, EYES] },
          face: { shape: "polygon", sides: 8, width: 0.9 },
          output: { lumenSeconds: 1600 },
        },
      ],
      panels,
    });
  /** Upright beside the shadow cheek, turned to it. */
  const black = (away_m: number) => ({
    name: "black panel",
    position: [2 - away_m, 2.9, 1.4],
    direction: { bearing: 90, tilt: 0 },
    width: 1.2,
    height: 2.4,
    reflectance: 0.04,
  });

  it("a black panel 0.6 to 1 m off gives half a stop of it back, from the shadow side", () => {
    const bare = face(set([]));
    expect(Math.abs((bare.ratioStops ?? 0) - 2)).toBeLessThan(0.1);
    let nearer = Number.POSITIVE_INFINITY;
    for (const away of [0.6, 1]) {
      const held = face(set([black(away)]));
      const darker = stops(bare.shadowCheek, held.shadowCheek);
      expect(darker).toBeGreaterThan(0.4);
      expect(stops(bare.litCheek, held.litCheek)).toBeLessThan(0.1);
      expect((held.ratioStops ?? 0) - (bare.ratioStops ?? 0)).toBeGreaterThan(0.4);
      // the nearer it stands, the more it takes
      expect(held.ratioStops).toBeLessThan(nearer);
      nearer = held.ratioStops ?? 0;
    }
  });
});

describe("[SI8] glasses", () => {
  /** A box at so many degrees round and up from the face. */
  const set = (round_deg: number, up_deg: number, head: object = {}) => {
    const [a, e] = [(round_deg * Math.PI) / 180, (up_deg * Math.PI) / 180];
    return planOf({
      people: [{ position: [2, 3], eyeHeight: EYES, glasses: {}, head }],
      camera: { position: [2, 0.8, EYES], direction: { at: [2, 3, EYES] } },
      lights: [
        {
          name: "box",
          position: [
            2 + 1.3 * Math.cos(e) * Math.sin(a),
            2.9 - 1.3 * Math.cos(e) * Math.cos(a),
            EYES + 1.3 * Math.sin(e),
          ],
          direction: { at: [2, 2.9, EYES] },
          face: { shape: "rectangle", width: 0.9, height: 0.6 },
          output: { lumenSeconds: 1600 },
        },
      ],
    });
  };

  it("a box within the zone that lenses of this tilt and curve throw to the camera shows; higher it does not", () => {
    // A lens leans its top out by 8 degrees, and its edge by asin(19 / 132.5 mm) = 8.2 more: upward it throws light of
    // 2 (8.2 - 8) = 0.5 degrees at most to a level camera. The box reaches 13 degrees under its middle: clear from 14 on.
    const within = face(set(30, 5)).glasses;
    expect(within?.reflections.map(({ light }) => light)).toContain("box");
    expect(face(set(30, 15)).glasses?.reflections).toEqual([]);
  });

  it("the smallest change that clears it is within 5 degrees or 30 cm, and keeps the pattern", () => {
    const now = face(set(30, 10));
    const clears = now.glasses?.clears;
    if (!clears) throw new Error("nothing clears it");
    expect(
      clears.change === "lightHeight" ? Math.abs(clears.amount) <= 30 : Math.abs(clears.amount) <= 5,
    ).toBe(true);
    const head = { [clears.change === "turn" ? "turn" : "tip"]: clears.amount };
    const after = face(set(30, 10, head));
    expect(after.glasses?.reflections).toEqual([]);
    expect(after.pattern).toBe(now.pattern);
  });
});
