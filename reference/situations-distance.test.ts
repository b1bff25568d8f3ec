/** Situations that a portrait photographer meets, worked through with their sums: what distance does.
 * Invented situations; the sums are by hand and stand beside them (docs/spec/situations.md). */
import { describe, expect, it } from "vitest";
import { buildPerson } from "../src/figure/index.ts";
import { readPlan } from "../src/reading/index.ts";
import { grey, type Held, type Point, planOf, readHeld } from "./plans.ts";

const EYES = 1.6;
const shape = buildPerson({ stature: 1.7, pose: "standing", seatHeight: 0.45, eyeHeight: EYES });
const { noseBridge } = shape.head.landmarks;
/** The bridge of the nose of somebody who stands at (3, 4) and faces the camera side. */
const FACE: Point = [3, 4 - noseBridge[0], EYES + noseBridge[2] - shape.head.leftEye.centre[2]];
const SITTER = { position: [3, 4], eyeHeight: EYES, facing: 180 };
const CAMERA = { position: [3, 1.2, EYES], direction: { at: FACE } };
const stops = (a: number, b: number) => Math.log2(a / b);

/** A point on a line from a place: degrees round (+ to the right of somebody who looks from the camera side) and up. */
function onLine(from: Point, round_deg: number, up_deg: number, away_m: number): Point {
  const [a, e] = [(round_deg * Math.PI) / 180, (up_deg * Math.PI) / 180];
  return [
    from[0] + away_m * Math.cos(e) * Math.sin(a),
    from[1] - away_m * Math.cos(e) * Math.cos(a),
    from[2] + away_m * Math.sin(e),
  ];
}

describe("[SI2] the key goes from 1.2 m to 1.7 m on the same line", () => {
  const ACROSS = 0.9;
  const OPEN = { people: [SITTER], camera: CAMERA };
  const ROOM = { room: { width: 6, depth: 7, height: 3, reflectance: grey(0.1) } };
  const key = (away_m: number, lumenSeconds: number) => ({
    name: "key",
    position: onLine(FACE, 40, 30, away_m),
    direction: { at: FACE },
    face: { shape: "disc", width: ACROSS },
    output: { lumenSeconds },
  });
  const read = (away_m: number, lumenSeconds: number) =>
    readPlan(planOf({ ...OPEN, ...ROOM, lights: [key(away_m, lumenSeconds)] }), "fine");
  const held: Held[] = [{ position: FACE, direction: { at: onLine(FACE, 40, 30, 1) } }];
  const alone = (away_m: number, lumenSeconds: number) =>
    readHeld({ lights: [key(away_m, lumenSeconds)] }, held)[0];

  it("takes 0.9 to 1.0 stop from the face: the disc's factor R²/(R² + d²) gives 0.91, a point (1.7/1.2)² 1.00", () => {
    const lost = stops(alone(1.2, 1000).luxSeconds, alone(1.7, 1000).luxSeconds);
    const R = ACROSS / 2;
    const disc = stops(R * R + 1.7 * 1.7, R * R + 1.2 * 1.2);
    expect(disc).toBeGreaterThan(0.9);
    expect(lost).toBeCloseTo(disc, 2);
    expect(lost).toBeLessThan(stops(1.7 * 1.7, 1.2 * 1.2));
  });

  it("looks 29.65 degrees wide instead of 41.1 (2 atan(0.45 / d)), from the same direction", () => {
    const wide = (d: number) => (2 * Math.atan(ACROSS / 2 / d) * 180) / Math.PI;
    expect(wide(1.2)).toBeCloseTo(41.11, 2);
    expect(wide(1.7)).toBeCloseTo(29.65, 2);
    const [near, far] = [alone(1.2, 1000), alone(1.7, 1000)];
    expect(far.vector.bearing).toBeCloseTo(near.vector.bearing ?? Number.NaN, 6);
    expect(far.vector.tilt).toBeCloseTo(near.vector.tilt ?? Number.NaN, 6);
  });

  it("the dial restores the face, and the background has come up", () => {
    const near = read(1.2, 1000);
    const lost = stops(near.people[0].face.litCheek, read(1.7, 1000).people[0].face.litCheek);
    const restored = read(1.7, 1000 * 2 ** lost);
    expect(stops(restored.people[0].face.litCheek, near.people[0].face.litCheek)).toBeCloseTo(0, 6);
    expect(lost).toBeGreaterThan(0.8);
    const [before, after] = [near.camera.backgroundStops, restored.camera.backgroundStops];
    if (before === null || after === null) throw new Error("no background");
    // 3 m of wall behind: by the inverse square alone 2 log2((1.2 + 3)/1.2 : (1.7 + 3)/1.7) = 0.68 stop, along the line
    expect(after - before).toBeGreaterThan(0.4);
    expect(after - before).toBeLessThan(0.9);
    expect(restored.people[0].face.shadowEdgeMillimetres).toBeLessThan(
      near.people[0].face.shadowEdgeMillimetres ?? 0,
    );
  });
});

describe("[SI5] two rows 0.6 m apart", () => {
  /** Front row at the mark, back row behind it, on the axis of one bare point, as a meter turned to it reads. */
  const between = (away_m: number) => {
    const light: Point = [3, 0.5, 1.5];
    const at = (d: number): Held => ({ position: [3, 0.5 + d, 1.5], direction: { at: light } });
    const parts = {
      lights: [
        {
          position: light,
          direction: { bearing: 0, tilt: 0 },
          face: { shape: "point" },
          output: { lumenSeconds: 1000 },
        },
      ],
    };
    const [front, back] = readHeld(parts, [at(away_m), at(away_m + 0.6)]);
    return { apart: stops(front.luxSeconds, back.luxSeconds), front: front.luxSeconds };
  };

  it("are a third of a stop apart at 4.9 m: 0.6 / (2^(1/6) − 1), which costs 4 stops against 1.2 m", () => {
    const away = 0.6 / (2 ** (1 / 6) - 1);
    expect(away).toBeCloseTo(4.9, 1);
    expect(between(away).apart).toBeCloseTo(1 / 3, 4);
    expect(stops(between(1.2).front, between(away).front)).toBeCloseTo(4.06, 1);
  });

  it("are half a stop apart where only 3.2 m are free: 2 log2(3.8 / 3.2) = 0.496", () => {
    expect(between(3.2).apart).toBeCloseTo(0.496, 3);
  });
});

describe("[SI6] full length, the key 2.2 m high", () => {
  /** Head at 1.6 m and feet on the floor, `away_m` level from under the light, each meter turned to it. */
  const drop = (away_m: number) => {
    const light: Point = [3, 1, 2.2];
    const at = (height: number): Held => ({ position: [3, 1 + away_m, height], direction: { at: light } });
    const half = (tilt: number) => ({
      position: light,
      direction: { bearing: 0, tilt },
      face: { shape: "point" },
      beam: { exponent: 0 },
      output: { lumenSeconds: 1000 },
    });
    const [head, feet] = readHeld({ lights: [half(90), half(-90)] }, [at(1.6), at(0)]);
    return stops(head.luxSeconds, feet.luxSeconds);
  };

  it("head to feet 1.44 stops from 1.5 m: log2((1.5² + 2.2²) / (1.5² + 0.6²)), told as 1.5", () => {
    expect(drop(1.5)).toBeCloseTo(Math.log2((1.5 ** 2 + 2.2 ** 2) / (1.5 ** 2 + 0.6 ** 2)), 4);
    expect(Math.abs(drop(1.5) - 1.5)).toBeLessThan(0.1);
  });

  it("0.57 from 3 m, told as 0.6 and under two thirds", () => {
    expect(Math.abs(drop(3) - 0.6)).toBeLessThan(0.05);
    expect(drop(3)).toBeLessThan(2 / 3);
  });
});

describe("[SI9] the head turns 30 degrees, the body leans in, the camera walks", () => {
  const OCTA = { shape: "polygon", sides: 8, width: 0.9 };
  const parts = (turn: number, round: number, extra: object = {}) =>
    planOf({
      people: [{ ...SITTER, head: { turn } }],
      camera: CAMERA,
      lights: [
        {
          name: "key",
          // round the middle of the head, which no turn moves
          position: onLine([3, 4, FACE[2]], round, 35, 1.3),
          direction: { at: [3, 4, FACE[2]] },
          face: OCTA,
          output: { lumenSeconds: 1600 },
        },
      ],
      ...extra,
    });
  const face = (turn: number, round: number) => readPlan(parts(turn, round), "fine").people[0].face;

  it("names the new pattern, and the same 30 degrees of arc bring the old light back within a tenth of a stop", () => {
    // the light stands to the own left: + turn is toward it
    const before = face(0, 50);
    const turned = face(30, 50);
    const along = face(30, 80);
    expect(before.pattern).toBe("rembrandt");
    expect(turned.pattern).not.toBe(before.pattern);
    expect(along.pattern).toBe(before.pattern);
    expect(Math.abs(stops(along.litCheek, before.litCheek))).toBeLessThan(0.1);
    expect(Math.abs((along.ratioStops ?? 9) - (before.ratioStops ?? 0))).toBeLessThan(0.1);
  });

  it("from 1.2 m to 1.0 m the face gains 0.45 to 0.53 stop: a disc 0.9 m wide 0.45, a point 2 log2(1.2) = 0.53", () => {
    const light = onLine(FACE, 40, 30, 1.2);
    const lights = [
      {
        position: light,
        direction: { at: FACE },
        face: { shape: "disc", width: 0.9 },
        output: { lumenSeconds: 1000 },
      },
    ];
    const near = onLine(FACE, 40, 30, 0.2);
    const [there, closer] = readHeld({ lights }, [
      { position: FACE, direction: { at: light } },
      { position: near, direction: { at: light } },
    ]);
    const gain = stops(closer.luxSeconds, there.luxSeconds);
    expect(gain).toBeGreaterThanOrEqual(0.44);
    expect(gain).toBeLessThanOrEqual(0.53);
  });

  it("a camera that walks round changes nothing of the light on the face", () => {
    const still = readPlan(parts(0, 50), "fine").people[0].face;
    const walked = readPlan(parts(0, 50, { camera: { ...CAMERA, position: [4.4, 1.6, EYES] } }), "fine")
      .people[0].face;
    expect(walked.litCheek).toBe(still.litCheek);
    expect(walked.shadowCheek).toBe(still.shadowCheek);
    expect(walked.pattern).toBe(still.pattern);
    expect(walked.light).toEqual(still.light);
  });
});
