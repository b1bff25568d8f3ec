import { describe, expect, it } from "vitest";
import { headRotation } from "../figure/index.ts";
import { checkPlan, type Plan } from "../plan/index.ts";
import { Memory } from "../reading/index.ts";
import { fitShares } from "./face-fit.ts";
import { headAngles } from "./face-head.ts";
import { readPhotoFace } from "./face-read.ts";
import { inSceneLight } from "./response-apply.ts";
import { seeFace } from "./surface.ts";
import { type Making, type Rendered, renderFace } from "./testing/rendered-face.ts";
import type { ResponseCurve } from "./types.ts";

const DEGREE = Math.PI / 180;
/** Height of the ears. */
const UP = 1.576;

interface Set {
  readonly azimuth: number;
  readonly elevation: number;
  readonly turn?: number;
  readonly shine?: number;
  /** grey skin of that reflectance */
  readonly tone?: number;
  readonly fNumber?: number;
  readonly ambient?: number;
  readonly backdrop?: number;
  readonly focalLength?: number;
}

function planOf(set: Set): Plan {
  const { azimuth, elevation, turn = 0, shine = 1, fNumber = 8, ambient = 100, focalLength = 85 } = set;
  const flat = 1.5 * Math.cos(elevation * DEGREE);
  const result = checkPlan({
    format: "tapemark/plan",
    version: 1,
    ambient: { lux: ambient },
    lights: [
      {
        name: "key",
        position: [
          flat * Math.sin(azimuth * DEGREE),
          -flat * Math.cos(azimuth * DEGREE),
          UP + 1.5 * Math.sin(elevation * DEGREE),
        ],
        direction: { at: [0, 0, UP] },
        face: { shape: "disc", width: 0.3 },
        output: { lumenSeconds: 600 },
      },
    ],
    people: [
      {
        name: "cellist",
        position: [0, 0.1],
        head: { turn },
        skin: { reflectance: set.tone ?? { tone: "tan" }, shine },
      },
    ],
    backdrop:
      set.backdrop === undefined ? null : { kind: "paper", position: [0, 1.2], reflectance: set.backdrop },
    camera: {
      position: [0, -2.4, UP],
      direction: { at: [0, 0, UP] },
      orientation: "portrait",
      focalLength,
      fNumber,
      shutter: 0.01,
      headroom: 3,
    },
  });
  if (!result.ok) throw new Error(`${result.problems[0].path}: ${result.problems[0].what}`);
  return result.plan;
}

const memory = new Memory();
const AROUND_HEAD = { left: 0.36, right: 0.64, top: 0.38, bottom: 0.62 };
const made = new Map<string, Rendered>();

function frame(set: Set, making: Partial<Making> = {}): Rendered {
  const key = JSON.stringify([set, making, making.curve?.toString()]);
  let one = made.get(key);
  if (!one) {
    one = renderFace(planOf(set), { width: 130, region: AROUND_HEAD, ...making }, memory);
    made.set(key, one);
  }
  return one;
}

function read({ photo, face, seen, light }: Rendered, curve: ResponseCurve | null = null) {
  if (!curve) return readPhotoFace(photo, face, seen, light);
  const scene = inSceneLight(photo, curve);
  const again = seeFace(scene.picture, scene.clippedShare, face);
  return readPhotoFace(scene, face, again, light, { curve });
}

const SETS: readonly Set[] = [
  { azimuth: 0, elevation: 55 },
  { azimuth: 25, elevation: 50 },
  { azimuth: -45, elevation: 35 },
  { azimuth: 80, elevation: 12 },
];

describe("a rendered face", () => {
  it("[FF2] ratio and lit side are the computed ones", () => {
    for (const set of SETS) {
      const one = frame(set);
      const got = read(one);
      expect(got.litSide, JSON.stringify(set)).toBe(one.truth.litSide);
      if (one.truth.ratioStops === null || one.truth.ratioStops > 4) continue;
      expect(Math.abs((got.ratioStops ?? 99) - one.truth.ratioStops), JSON.stringify(set)).toBeLessThan(0.3);
    }
  });

  it("[FF3] the pattern is the computed one: butterfly, loop, Rembrandt, split", () => {
    expect(SETS.map((set) => read(frame(set)).pattern)).toEqual(["butterfly", "loop", "rembrandt", "split"]);
    expect(SETS.map((set) => frame(set).truth.pattern)).toEqual(["butterfly", "loop", "rembrandt", "split"]);
  });

  it("[FF4] a light from the other side reads as the mirror image", () => {
    const one = read(frame(SETS[2]));
    const other = read(frame({ ...SETS[2], azimuth: -SETS[2].azimuth }));
    expect([one.litSide, other.litSide]).toEqual(["right", "left"]);
    expect(one.pattern).toBe(other.pattern);
    expect(Math.abs((one.ratioStops ?? 99) - (other.ratioStops ?? 0))).toBeLessThan(0.05);
  });

  it("[FF5] twice the light changes neither ratio nor pattern", () => {
    const one = read(frame(SETS[2]));
    const other = read(frame({ ...SETS[2], fNumber: 5.6 }));
    expect(Math.abs((one.ratioStops ?? 99) - (other.ratioStops ?? 0))).toBeLessThan(0.05);
    expect(one.pattern).toBe(other.pattern);
    expect((one.litCheekStops ?? 99) - (other.litCheekStops ?? 0)).toBeCloseTo(2 * Math.log2(8 / 5.6), 1);
  });

  it("[FF6] bare and dull skin read alike", () => {
    const [dull, bare] = [0, 1.6].map((shine) => read(frame({ ...SETS[2], shine })).ratioStops ?? 99);
    expect(Math.abs(dull - bare)).toBeLessThan(0.2);
  });

  it("[FF7] what clips and what is black is a bound", () => {
    const over = read(frame({ ...SETS[2], fNumber: 1.8 }));
    expect(over.doubts.join()).toContain("clips: the ratio is at least this");
    const plain = read(frame(SETS[2]));
    expect(over.ratioUncertaintyStops ?? 0).toBeGreaterThan(plain.ratioUncertaintyStops ?? 9);
    const under = read(frame({ azimuth: 75, elevation: 12, ambient: 0, fNumber: 22 }, { isEightBit: true }));
    expect(under.doubts.join()).toContain("black: the ratio is at least this");
  });

  it("[FF10] a hidden cheek is filled in and said so, or cannot be told", () => {
    const one = frame({ azimuth: 0, elevation: 30, turn: -70 });
    const got = read(one);
    expect(got.doubts.join()).toMatch(/own right cheek is hardly seen/);
    expect(got.ratioStops).not.toBeNull();
    expect(got.ratioUncertaintyStops ?? 0).toBeGreaterThan(0.5);
    const blind = readPhotoFace(one.photo, one.face, one.seen, null);
    expect([blind.ratioStops, blind.litSide]).toEqual([null, null]);
  });

  it("[FF11] without a light nothing is made up", () => {
    const { photo, face, seen } = frame(SETS[1]);
    const got = readPhotoFace(photo, face, seen, null);
    expect([got.confidence, got.light, got.pattern, got.litSide, got.uncertaintyDegrees]).toEqual([
      "none",
      null,
      null,
      null,
      null,
    ]);
    expect(JSON.stringify(got)).not.toMatch(/NaN|Infinity/);
    expect(got.doubts).toContain("no light fits what the face shows");
  });

  it("[FF12] what is read with doubt says so", () => {
    expect(read(frame(SETS[1])).confidence).toBe("good");
    expect(read(frame({ azimuth: 100, elevation: 20 })).confidence).toBe("low");
    const one = frame(SETS[1]);
    const lifted = read({ ...one, face: { ...one.face, isLifted: true } });
    expect([lifted.confidence, lifted.doubts[0]]).toEqual([
      "low",
      "the face was found only with its shadows lifted",
    ]);
    const box = { ...one.face.box, width: 20, height: 24 };
    expect(read({ ...one, face: { ...one.face, box } }).confidence).toBe("none");
  });
});

describe("skin and backdrop", () => {
  it("[FF13] clipped skin and headroom are those of the picture", () => {
    const over = read(frame({ ...SETS[2], fNumber: 1.8 }));
    const under = read(frame(SETS[2]));
    expect(over.clippedSkin).toBeGreaterThan(0.1);
    expect(over.skinHeadroomStops).toBe(0);
    expect(under.clippedSkin).toBe(0);
    const wider = read(frame({ ...SETS[2], fNumber: 5.6 }));
    expect((under.skinHeadroomStops ?? 0) - (wider.skinHeadroomStops ?? 0)).toBeCloseTo(
      2 * Math.log2(8 / 5.6),
      1,
    );
  });

  it("[FF14] the backdrop against the lit cheek; none in a tight crop", () => {
    const part = { left: 0, right: 1, top: 0.1, bottom: 0.9 };
    const set = { azimuth: 25, elevation: 40, backdrop: 0.4, focalLength: 50 };
    const one = frame(set, { width: 160, region: part });
    const got = read(one).backgroundStops;
    expect(Math.abs((got ?? 99) - (one.backgroundStops ?? 0))).toBeLessThan(0.3);
    expect(
      read(
        frame(
          { ...set, focalLength: 135 },
          { width: 100, region: { left: 0.4, right: 0.6, top: 0.42, bottom: 0.58 } },
        ),
      ).backgroundStops,
    ).toBe(null);
  });
});

/** Linear in, linear level of the file out: soft, hard with lifted middle tones, and flat. */
const CURVES: readonly ((x: number) => number)[] = [
  (x) => bent(x, 0.25),
  (x) => bent(x, 0.45),
  (x) => bent(x, -0.15),
];

function bent(x: number, bend: number): number {
  const v = x <= 0.0031308 ? 12.92 * x : 1.055 * x ** (1 / 2.4) - 0.055;
  const w = v - (bend / (2 * Math.PI)) * Math.sin(2 * Math.PI * v);
  return w <= 0.04045 ? w / 12.92 : ((w + 0.055) / 1.055) ** 2.4;
}

/** What a reader that goes by the standard curve makes of a level that is light itself. */
const standard = (x: number) => (x <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4);

function responseOf(curve: (x: number) => number): ResponseCurve {
  const stops = Array.from({ length: 65 }, (_, i) => {
    const level = (Math.max(i, 0.5) / 64) ** 2;
    let [low, high] = [0, 1];
    for (let k = 0; k < 50; k++) {
      if (curve((low + high) / 2) < level) low = (low + high) / 2;
      else high = (low + high) / 2;
    }
    return Math.log2(high / 0.18);
  });
  return { stops, clippingStops: Math.log2(1 / 0.18), frames: 7, rmsStops: 0.03 };
}

describe("the camera's curve", () => {
  it("[FF8] unknown, the stated doubt covers it; known, it is taken out", () => {
    const set = { ...SETS[2], fNumber: 5.6 };
    const plain = frame(set);
    const linear = read(plain);
    for (const curve of CURVES) {
      const one = frame(set, { curve });
      const got = read(one);
      expect(Math.abs((got.ratioStops ?? 99) - (linear.ratioStops ?? 0))).toBeLessThan(
        got.ratioUncertaintyStops ?? 0,
      );
      const known = read(one, responseOf(curve));
      expect(Math.abs((known.ratioStops ?? 99) - (linear.ratioStops ?? 0))).toBeLessThan(0.1);
      expect(Math.abs((known.skinHeadroomStops ?? 99) - (linear.skinHeadroomStops ?? 0))).toBeLessThan(0.1);
      expect(known.ratioUncertaintyStops ?? 9).toBeLessThan(got.ratioUncertaintyStops ?? 0);
    }
  });

  it("[FF16] levels that are light itself, in grey pictures that say nothing of their curve", () => {
    const set = { ...SETS[2], tone: 0.3, fNumber: 5.6 };
    const plain = read(frame(set)).ratioStops ?? 99;
    const one = frame(set, { curve: standard });
    const light = { ...one.light, areLevelsLight: true };
    expect(Math.abs((read({ ...one, light }).ratioStops ?? 0) - plain)).toBeLessThan(0.1);
    expect(read({ ...one, light }).doubts.join()).toContain("levels were light itself");
    const photo = { ...one.photo, colour: { ...one.photo.colour, isAssumed: false } };
    expect(read({ ...one, photo, light }).ratioStops ?? 0).toBeGreaterThan(plain + 0.5);
    const coloured = frame({ ...SETS[2], fNumber: 5.6 }, { curve: standard });
    const misread = { ...coloured.light, areLevelsLight: true };
    expect(read({ ...coloured, light: misread }).ratioStops ?? 0).toBeGreaterThan(plain + 0.5);
  });
});

describe("parts", () => {
  it("[FF1] head angles come back from the turned head", () => {
    for (const [turn, tip, tilt] of [
      [0, 0, 0],
      [35, -10, 5],
      [-80, 20, -15],
    ]) {
      const r = headRotation(turn, tip, tilt);
      const camera = Float64Array.of(r[3], r[4], r[5], r[6], r[7], r[8], r[0], r[1], r[2]);
      const got = headAngles(camera);
      expect(got.turn).toBeCloseTo(turn, 6);
      expect(got.tip).toBeCloseTo(tip, 6);
      expect(got.tilt).toBeCloseTo(tilt, 6);
    }
  });

  it("[FF15] shares come back past wild samples, none below nothing", () => {
    const n = 200;
    const even = new Float64Array(n).fill(1);
    const part = Float64Array.from({ length: n }, (_, i) => ((7 * i) % 31) / 31);
    const sum = part.map((p, i) => 0.3 + 2 * p + (i % 10 === 0 ? 5 : 0) + 0.01 * Math.sin(9 * i));
    const [a, b] = fitShares([even, part], sum, new Float64Array(n).fill(1));
    expect(a).toBeCloseTo(0.3, 1);
    expect(b).toBeCloseTo(2, 1);
    const falls = part.map((p) => 1 - 0.5 * p);
    expect(fitShares([even, part], falls, new Float64Array(n).fill(1))[1]).toBe(0);
  });
});
