import { describe, expect, it } from "vitest";
import { angleBetween } from "../math/index.ts";
import { checkPlan, type Plan } from "../plan/index.ts";
import { Memory } from "../reading/index.ts";
import { lightFromCatchlight, readCatchlights } from "./catch-read.ts";
import { renderFace } from "./testing/rendered-face.ts";
import type { PhotoCatchlight } from "./types.ts";

const DEGREE = Math.PI / 180;
const UP = 1.576;
const AWAY = 1.3;
const SHARE = 0.26;

type Front = "disc" | "square" | "strip";
const FRONTS = {
  disc: { shape: "disc", width: 1.2 },
  square: { shape: "rectangle", width: 1.05, height: 1.05 },
  strip: { shape: "rectangle", width: 0.3, height: 1.4 },
} as const;

function planOf(front: Front, azimuth: number, elevation: number, turn = 0): Plan {
  const flat = AWAY * Math.cos(elevation * DEGREE);
  const result = checkPlan({
    format: "tapemark/plan",
    version: 1,
    ambient: { lux: 50 },
    lights: [
      {
        name: "key",
        position: [
          flat * Math.sin(azimuth * DEGREE),
          -flat * Math.cos(azimuth * DEGREE),
          UP + AWAY * Math.sin(elevation * DEGREE),
        ],
        direction: { at: [0, 0, UP] },
        face: FRONTS[front],
        output: { lumenSeconds: 600 },
      },
    ],
    people: [{ name: "cellist", position: [0, 0.1], head: { turn } }],
    camera: {
      position: [0, -2.4, UP],
      direction: { at: [0, 0, UP] },
      focalLength: 85,
      fNumber: 8,
      shutter: 0.01,
    },
  });
  if (!result.ok) throw new Error(`${result.problems[0].path}: ${result.problems[0].what}`);
  return result.plan;
}

const memory = new Memory();

/** Eyes alone, the iris `across` pixels wide; `off`: the landmark model's iris is misjudged by so many radii. */
function eyes(plan: Plan, across: number, off = 0, from = 0.5 - SHARE / 2, to = 0.5 + SHARE / 2) {
  const width = Math.round((across / 0.0118) * (24 / 85) * 2.46 * (to - from));
  const region = { left: from, right: to, top: 0.465, bottom: 0.51 };
  const one = renderFace(plan, { width, region }, memory);
  const { points } = one.face;
  for (let i = 468; i < 478; i++) {
    points[3 * i] += (off * across) / 2;
    points[3 * i + 1] -= (off * across) / 2;
  }
  return one;
}

const hoursApart = (a: number, b: number) => Math.abs(((a - b + 18) % 12) - 6);

function told(one: ReturnType<typeof eyes>, side: PhotoCatchlight["eye"]) {
  return readCatchlights(one.photo, one.face, one.seen).filter((c) => c.eye === side);
}

describe("catchlights", () => {
  it("[FF20] the clock, at several sizes, with the iris misjudged or not", () => {
    const offHours: number[] = [];
    for (const [across, off, azimuth, elevation, turn] of [
      [14, 0, 45, 35, 0],
      [20, -0.05, 10, 45, 8],
    ]) {
      const one = eyes(planOf("disc", azimuth, elevation, turn), across, off);
      for (const c of one.truth.catchlights.filter((c) => c.visible && c.kind === "light")) {
        const [got, ...more] = told(one, c.eye);
        const where = `${across} ${off} ${azimuth} ${c.eye}`;
        expect(more, where).toEqual([]);
        offHours.push(hoursApart(got?.clock ?? 99, c.clock));
      }
    }
    offHours.sort((a, b) => a - b);
    // a place near the middle of the iris tells a clock less well
    expect(offHours.length).toBe(4);
    expect(offHours[2]).toBeLessThan(0.5);
    expect(offHours[3]).toBeLessThan(0.75);
  });

  it("[FF21] [FF22] outline and width of what is large enough", () => {
    const width = { disc: 1.2, square: 1.05 * Math.SQRT2, strip: 1.4 };
    for (const front of ["disc", "square", "strip"] as const) {
      const one = eyes(planOf(front, 20, 30), 34, 0, 0.52, 0.58);
      const want = { disc: "round", square: "square", strip: "strip" }[front];
      const [got] = told(one, "left");
      expect(got?.shape, front).toBe(want);
      const seen = (2 * Math.atan(width[front] / 2 / AWAY)) / DEGREE;
      const least = front === "square" ? seen / Math.SQRT2 : seen;
      expect(got?.widthDegrees ?? 0, front).toBeGreaterThan(0.8 * least);
      expect(got?.widthDegrees ?? 99, front).toBeLessThan(1.2 * seen);
    }
    expect(told(eyes(planOf("disc", 20, 30), 14), "left")[0]?.shape).toBe("unclear");
  });

  it("[FF23] where the light stands, by the mirror", () => {
    const one = eyes(planOf("disc", -40, 15, 12), 28);
    const cue = lightFromCatchlight(one.photo, one.face, one.seen);
    if (!cue) throw new Error("no cue");
    expect(angleBetween(cue.from, one.light.from) / DEGREE).toBeLessThan(2 * cue.uncertaintyDegrees);
  });

  it("[FF24] none of a light behind, none in eyes that are too small", () => {
    expect(readOf(eyes(planOf("disc", 150, 20), 24))).toEqual([]);
    expect(readOf(eyes(planOf("disc", 20, 30), 6))).toEqual([]);
  });
});

function readOf(one: ReturnType<typeof eyes>) {
  return readCatchlights(one.photo, one.face, one.seen);
}
