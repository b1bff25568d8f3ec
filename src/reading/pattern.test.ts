/** The rule of docs/patterns.md on faces that are lit by hand: every place is given its exposure. */
import { describe, expect, it } from "vitest";
import { buildHead } from "../figure/index.ts";
import { faceSamples } from "./face-samples.ts";
import { readPattern } from "./pattern.ts";

const head = buildHead();
const samples = faceSamples(head, 0.0045);
const marks = head.landmarks;
const [, , mouth] = marks.upperLip;
const [, , tip] = marks.noseTip;

interface Place {
  /** metres: to the own left, up; and how the skin looks: ahead, up */
  readonly left: number;
  readonly up: number;
  readonly ahead: number;
  readonly lookingUp: number;
}

const LIT = 100;
const SHADE = 1;
/** A face that is LIT but for where `shade` says otherwise; true is SHADE, a number that much. */
function painted(shade: (p: Place) => boolean | number): Float64Array {
  return Float64Array.from({ length: samples.count }, (_, i) => {
    const value = shade({
      left: samples.position[3 * i + 1],
      up: samples.position[3 * i + 2],
      ahead: samples.normal[3 * i],
      lookingUp: samples.normal[3 * i + 2],
    });
    return typeof value === "number" ? value : value ? SHADE : LIT;
  });
}

const read = (exposure: Float64Array, arriving = LIT, shift = 0) =>
  readPattern(samples, exposure, marks, arriving, shift);

/** The cheek's shadow on the own right, from so far out. */
const outer =
  (from: number) =>
  ({ left }: Place) =>
    left < -from;
const underNose = ({ left, up }: Place, from: number, to: number) =>
  up < tip && up > mouth && left > from && left < to;
/** The book's triangle: light on the right cheek, shut in all round. */
const triangle = ({ left, up }: Place) => left < -0.02 && left > -0.048 && up < 0.004 && up > -0.024;

describe("[PT1] the names, on faces lit by hand", () => {
  it("[PT1] nothing on either cheek is dark, whatever else is lit", () => {
    expect(read(painted(({ up }) => (up > 0.05 ? LIT : 0.0005))).pattern).toBe("dark");
    expect(read(new Float64Array(samples.count)).pattern).toBe("dark");
  });
  it("[PT1] the same everywhere is flat", () => expect(read(painted(() => false)).pattern).toBe("flat"));
  it("[PT1] a shadow in the middle under the nose is butterfly", () =>
    expect(read(painted((p) => Math.abs(p.left) > 0.055 || underNose(p, -0.014, 0.014))).pattern).toBe(
      "butterfly",
    ));
  it("[PT1] one that goes aside and meets nothing is loop", () =>
    expect(read(painted((p) => outer(0.045)(p) || underNose(p, -0.026, 0.002))).pattern).toBe("loop"));
  it("[PT1] a patch on the far cheek that is shut in is Rembrandt", () =>
    expect(read(painted((p) => p.left < 0 && !triangle(p))).pattern).toBe("rembrandt"));
  it("[PT1] the same patch let out past the corner of the mouth is not", () =>
    expect(
      read(painted((p) => p.left < 0 && !triangle(p) && !(p.left < -0.02 && p.left > -0.034 && p.up < 0)))
        .pattern,
    ).not.toBe("rembrandt"));
  it("[PT1] no patch on the far cheek is split; nor is one too small to be seen", () => {
    expect(read(painted(({ left }) => left < 0)).pattern).toBe("split");
    const speck = ({ left, up }: Place) => left < -0.026 && left > -0.03 && up < 0 && up > -0.004;
    expect(read(painted((p) => p.left < 0 && !speck(p))).pattern).toBe("split");
  });
  it("[PT1] both cheeks shut in alike, as from straight above, is no triangle of anybody's", () =>
    expect(read(painted((p) => p.up < -0.026 || Math.abs(p.left) < 0.016)).pattern).not.toBe("rembrandt"));
  it("[PT1] skin that looks down brighter than skin that looks up is under", () =>
    expect(read(painted(({ lookingUp }) => 100 * 2 ** (-4 * lookingUp))).pattern).toBe("under"));
  it("[PT1] skin that looks ahead in the dark while much arrives is rim", () => {
    const edge = painted(({ ahead, left }) => ahead > 0.6 || left < 0);
    expect(read(edge, 4 * LIT).pattern).toBe("rim");
    // filled to within three stops of the light, the face is not in the dark
    expect(
      read(
        edge.map((x) => x + 60),
        4 * LIT,
      ).pattern,
    ).not.toBe("rim");
  });
  it("[PT1] no shadow under the nose: cheeks within a stop are flat, else loop, between loop and flat", () => {
    const level = (far: number) => painted(({ left, ahead }) => (ahead < 0.5 ? 12 : left < 0 ? far : LIT));
    expect(read(level(70))).toMatchObject({ pattern: "flat", between: null });
    expect(read(level(45))).toMatchObject({ pattern: "loop", between: "flat" });
  });
});

describe("[PT2] how firm a name is", () => {
  it("[PT2] a shadow a tenth of a stop under the limit is told as between; one a stop under it is not", () => {
    // the limit lies midway between 100 and the floor of 100 / 64: at 12.5
    const loop = (depth: number) =>
      painted((p) => (outer(0.045)(p) ? 0.1 : underNose(p, -0.026, 0.002) ? depth : LIT));
    expect(read(loop(12.5 * 2 ** -0.1)).pattern).toBe("loop");
    expect(read(loop(12.5 * 2 ** -0.1)).between).not.toBeNull();
    expect(read(loop(12.5 * 2 ** -1)).between).toBeNull();
  });
  it("[PT2] a limit that is moved on purpose moves the name with it", () => {
    const face = painted((p) =>
      outer(0.045)(p) ? 0.1 : underNose(p, -0.026, 0.002) ? 12.5 * 2 ** -0.4 : LIT,
    );
    expect(read(face).pattern).toBe("loop");
    expect(read(face, LIT, -0.5).pattern).not.toBe("loop");
  });
  it("[PT2] names do not depend on how much light there is, nor on which side", () => {
    const face = painted((p) => p.left < 0 && !triangle(p));
    const brighter = face.map((x) => 37 * x);
    expect(read(brighter, 37 * LIT).pattern).toBe("rembrandt");
    const mirrored = painted((p) => p.left > 0 && !triangle({ ...p, left: -p.left }));
    expect(read(mirrored)).toMatchObject({ pattern: "rembrandt", litSide: "right" });
  });
});

describe("[PT3] samples of a face", () => {
  it.each([0.0045, 0.007])("[PT3] %s m apart: mirrored, whole, joined", (spacing) => {
    const s = faceSamples(head, spacing);
    let area = 0;
    for (const a of s.area) area += a;
    let front = 0;
    head.front.forEach((yes, v) => {
      if (yes) front += head.vertexAreas[v];
    });
    expect(area / front).toBeCloseTo(1, 9);
    const key = (i: number, sign: 1 | -1) =>
      [0, 1, 2].map((k) => Math.round((k === 1 ? sign : 1) * 1e6 * s.position[3 * i + k]) + 0).join();
    const places = new Map(Array.from({ length: s.count }, (_, i) => [key(i, 1), i]));
    for (let i = 0; i < s.count; i++) {
      const image = places.get(key(i, -1));
      expect(image).toBeDefined();
      expect(s.area[image as number]).toBeCloseTo(s.area[i], 12);
    }
  });
});
