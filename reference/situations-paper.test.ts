/** Situations that a portrait photographer meets, worked through with their sums: the tone of the paper.
 * Invented situations; the sums are by hand and stand beside them (docs/spec/situations.md). */
import { describe, expect, it } from "vitest";
import { readPlan } from "../src/reading/index.ts";
import { grey, type Held, type Point, planOf, readHeld } from "./plans.ts";

const stops = (a: number, b: number) => Math.log2(a / b);
const EYES = 1.6;
const ACROSS = 0.9;

describe("[SI3] grey paper lit by the key alone", () => {
  it("3.6 m from a key that is 1.2 m from the face: 3.00 stops under by a disc of 0.9 m, 3.17 by a point", () => {
    const light: Point = [3, 1, 1.6];
    const lights = [
      {
        position: light,
        direction: { bearing: 0, tilt: 0 },
        face: { shape: "disc", width: ACROSS },
        output: { lumenSeconds: 1000 },
      },
    ];
    const at = (d: number): Held => ({ position: [3, 1 + d, 1.6], direction: { at: light } });
    const [face, paper] = readHeld({ lights }, [at(1.2), at(3.6)]);
    const under = stops(face.luxSeconds, paper.luxSeconds);
    const R2 = (ACROSS / 2) ** 2;
    expect(under).toBeCloseTo(stops(R2 + 3.6 ** 2, R2 + 1.2 ** 2), 3);
    expect(under).toBeGreaterThanOrEqual(3.0);
    expect(under).toBeLessThanOrEqual(3.2);
  });

  const set = (room: object | null) =>
    planOf({
      room,
      backdrop: { kind: "paper", position: [3, 5.4], reflectance: 0.18, width: 4 },
      people: [{ position: [3, 3.2], eyeHeight: EYES, skin: { reflectance: 0.36 } }],
      camera: { position: [3, 0.6, EYES], direction: { at: [3, 3.2, EYES] } },
      lights: [
        {
          name: "key",
          position: [3.8, 2.1, 2.1],
          direction: { at: [3, 3.1, EYES] },
          face: { shape: "disc", width: ACROSS },
          output: { lumenSeconds: 1600 },
        },
      ],
      meters: [
        { name: "paper", position: [3, 5.38, EYES], direction: { bearing: 180 } },
        { name: "face", position: [3, 3.05, EYES], direction: { at: [3.8, 2.1, 2.1] } },
      ],
    });

  it("the frame shows what the meters say: their difference and that of paper and skin, within a third of a stop", () => {
    const open = readPlan(set(null), "fine");
    const [paper] = open.meters;
    const byMeters = stops(paper.luxSeconds * 0.18, open.people[0].face.litCheek * 0.36);
    expect(Math.abs((open.camera.backgroundStops ?? 9) - byMeters)).toBeLessThan(1 / 3);
  });

  it("in a room the bounce on the paper is told apart from the key", () => {
    const there = readPlan(set({ width: 6, depth: 6, height: 3, reflectance: grey(0.7) }), "fine");
    const { direct, bounced } = there.meters[0].byLight.key;
    expect(bounced).toBeGreaterThan(0.1 * direct);
    expect(direct + bounced).toBeCloseTo(there.meters[0].luxSeconds, 9);
    const alone = readPlan(set(null), "fine").camera.backgroundStops ?? Number.NaN;
    const raised = (there.camera.backgroundStops ?? Number.NaN) - alone;
    // the lit cheek gains from the bounce too, so that the paper gains somewhat less than its own meter
    expect(raised).toBeGreaterThan(0.1);
    expect(raised).toBeLessThan(stops(direct + bounced, direct));
  });
});

describe("[SI3] white paper", () => {
  const PAPER_Y = 6.5;
  const WIDE = 2.72;
  const SITTER_Y = PAPER_Y - 2.4;
  const upright = { shape: "rectangle", width: 0.35, height: 1.4 };
  /** One on either side, between sitter and paper, each aimed at the far edge. */
  const side = (x: number, far: number, lumenSeconds: number) => ({
    name: x < 3 ? "paper left" : "paper right",
    position: [x, PAPER_Y - 1.5, 1.5],
    direction: { at: [far, PAPER_Y, 1.5] },
    face: upright,
    output: { lumenSeconds },
  });
  const key = {
    name: "key",
    position: [4, SITTER_Y - 1, 2.1],
    direction: { at: [3, SITTER_Y - 0.1, EYES] },
    face: { shape: "disc", width: ACROSS },
    output: { lumenSeconds: 1600 },
  };
  const points: Point[] = [
    [3, PAPER_Y - 0.02, 1.6],
    [3 - 0.9, PAPER_Y - 0.02, 2.1],
    [3 + 0.9, PAPER_Y - 0.02, 2.1],
    [3 - 0.9, PAPER_Y - 0.02, 1.1],
    [3 + 0.9, PAPER_Y - 0.02, 1.1],
  ];
  /** Black boards that keep those lights off the sitter. */
  const flag = (x: number) => ({
    name: x < 3 ? "flag left" : "flag right",
    position: [x, PAPER_Y - 1.75, 1.25],
    direction: { bearing: 0, tilt: 0 },
    width: 1.2,
    height: 2.4,
    reflectance: 0.04,
  });
  const parts = (paper_lms: number, withKey = true, isFlagged = true) => ({
    room: { width: 6, depth: 7, height: 3, reflectance: grey(0.1) },
    backdrop: { kind: "paper", position: [3, PAPER_Y], reflectance: 0.85, width: WIDE },
    panels: isFlagged ? [flag(3 - 1.5), flag(3 + 1.5)] : [],
    people: [{ position: [3, SITTER_Y], eyeHeight: EYES, skin: { reflectance: 0.36 } }],
    camera: { position: [3, 0.6, EYES], direction: { at: [3, SITTER_Y, EYES] } },
    lights: [
      side(3 - 1.6, 3 + WIDE / 2, paper_lms),
      side(3 + 1.6, 3 - WIDE / 2, paper_lms),
      ...(withKey ? [key] : []),
    ],
  });

  it("two lights aimed across light five points within a third of a stop; flagged and at the key's level they leave the sitter's rear edge 2 under", () => {
    const flat = points.map((position): Held => ({ position, direction: { bearing: 180 } }));
    const face: Held = { position: [3, SITTER_Y - 0.15, EYES], direction: { at: [4, SITTER_Y - 1, 2.1] } };
    const onFace = readHeld(parts(0), [face])[0].luxSeconds;
    const trial = readHeld(parts(1000, false), flat).map((m) => m.luxSeconds);
    const byKey = readHeld(parts(0), flat).map((m) => m.luxSeconds);
    // white is set at the paper's middle, 0 to +1 over the key
    const power = ((onFace - byKey[0]) / trial[0]) * 1000;
    const lit = readHeld(parts(power), flat).map((m) => m.luxSeconds);
    expect(stops(Math.max(...lit), Math.min(...lit))).toBeLessThan(1 / 3);
    expect(Math.abs(stops(lit[0], onFace))).toBeLessThan(0.05);
    // beside the ear, turned to the paper, the key off
    const rear: Held = { position: [3.12, SITTER_Y + 0.05, EYES], direction: { bearing: 0 } };
    const wrap = readHeld(parts(power, false), [rear])[0].luxSeconds;
    expect(stops(onFace, wrap)).toBeGreaterThanOrEqual(2);
    // without the flags the lights themselves reach round the sitter
    const bare = readHeld(parts(power, false, false), [rear])[0].luxSeconds;
    expect(stops(onFace, bare)).toBeLessThan(1);
    const picture = readPlan(planOf(parts(power)), "fine").camera.backgroundStops ?? Number.NaN;
    // by how much white paper outshines skin at the same level: log2(0.85 / 0.36) = 1.24
    expect(picture).toBeGreaterThan(0.9);
    expect(picture).toBeLessThan(1.7);
  });
});
