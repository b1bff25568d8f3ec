/** The plan behind a frame of known light: who sits there and how, where the lights stand, how it is framed. */
import type { Pcg32 } from "../src/math/index.ts";
import { checkPlan, type Plan } from "../src/plan/index.ts";
import { normal } from "./photo-truth-heads.ts";

/** tight: grey, forehead to chin and ear to ear. portrait: in colour, with hair, shoulders and what stands behind.
 * flash: as tight, straight to the lens, one small flash and next to nothing besides. */
export type Kind = "tight" | "portrait" | "flash";

type P3 = readonly [number, number, number];

const DEGREE = Math.PI / 180;
/** Above the floor, of the ears of the person that is set up; where the person stands. */
const PLACE = [2.5, 3.4] as const;
export const STATURE = 1.7;

/** Pixels, and the width at the face, metres. */
const FRAMINGS = {
  tight: { pixels: [168, 192], across: [0.142, 0.168] },
  flash: { pixels: [168, 192], across: [0.138, 0.158] },
  portrait: { pixels: [320, 400], across: [0.26, 0.38] },
} as const;

/** Turn, tip and tilt: standard deviations, degrees. */
const POSES = { tight: [7, 6, 4], flash: [1.5, 3, 2], portrait: [14, 7, 5] } as const;

export interface SetUp {
  readonly plan: Plan;
  readonly width: number;
  readonly height: number;
  /** of the main light, degrees off the lens as seen from the bridge of the nose, and above it */
  readonly main: { readonly offLens: number; readonly elevation: number };
}

export interface Sitter {
  readonly skin: number | { readonly tone: string };
  readonly shine: number;
  readonly roughness: number;
  readonly hair: "none" | "short" | "shoulder";
  readonly hairReflectance: number;
}

const TONES = ["very light", "light", "intermediate", "tan", "brown", "dark"] as const;

export function drawSitter(rng: Pcg32): Sitter & { readonly grey: number } {
  const uniform = (from: number, to: number) => from + (to - from) * rng.next();
  return {
    skin: { tone: TONES[Math.floor(TONES.length * rng.next())] },
    grey: 0.08 * 2 ** uniform(0, 2.8),
    shine: uniform(0.15, 1.5),
    roughness: uniform(0.2, 0.42),
    hair: (["none", "short", "short", "shoulder", "shoulder"] as const)[Math.floor(5 * rng.next())],
    hairReflectance: 0.02 * 2 ** uniform(0, 3.3),
  };
}

/** `faceOf` says where the middle of the face is for a plan with its camera in place. */
export function drawSetUp(
  rng: Pcg32,
  kind: Kind,
  sitter: ReturnType<typeof drawSitter>,
  faceOf: (plan: Plan) => { bridge: P3; middle: P3 },
): SetUp {
  const uniform = (from: number, to: number) => from + (to - from) * rng.next();
  const { pixels, across } = FRAMINGS[kind];
  const away = uniform(1.3, 2.3);
  const bearing = 180 + (kind === "flash" ? 0 : uniform(-20, 20));
  const [turn, tip, tilt] = POSES[kind].map((sd) => sd * normal(rng));
  const up = kind === "flash" ? uniform(-0.03, 0.08) : uniform(-0.15, 0.25);
  const camera: P3 = [
    PLACE[0] + away * Math.sin(bearing * DEGREE),
    PLACE[1] + away * Math.cos(bearing * DEGREE),
    1.57 + up,
  ];
  const base = {
    format: "tapemark/plan",
    version: 1,
    title: `known light, ${kind}`,
    backdrop:
      kind === "portrait" && rng.next() < 0.75
        ? {
            kind: "paper",
            position: [PLACE[0], PLACE[1] + uniform(0.9, 2)],
            reflectance: 0.03 * 2 ** uniform(0, 4),
          }
        : null,
    people: [
      {
        name: "sitter",
        position: PLACE,
        stature: STATURE,
        facing: 180 + uniform(-25, 25),
        head: { follows: "camera", turn, tip, tilt },
        hair: {
          length: kind === "flash" && rng.next() < 0.5 ? "none" : sitter.hair,
          reflectance: sitter.hairReflectance,
        },
        skin: {
          reflectance: kind === "portrait" ? sitter.skin : sitter.grey,
          shine: sitter.shine,
          roughness: sitter.roughness,
        },
        clothing: { reflectance: 0.03 * 2 ** uniform(0, 4) },
      },
    ],
    camera: {
      position: camera,
      direction: { at: [...PLACE, 1.57] },
      sensor: { width: pixels[0] / 10, height: pixels[1] / 10 },
      orientation: "landscape",
      focalLength: 85,
      headroom: 4,
    },
  };
  const face = faceOf(checked(base));
  const wide = uniform(across[0], across[1]);
  const drop = kind === "portrait" ? uniform(-0.2, 0.08) * wide : 0.006 * normal(rng);
  const target: P3 = [face.middle[0] + 0.006 * normal(rng), face.middle[1], face.middle[2] + drop];
  const { offLens, elevation, ...lights } = drawLights(rng, kind, face.bridge, camera, away);
  const plan = checked({
    ...base,
    ...lights,
    camera: {
      ...base.camera,
      direction: { at: target },
      roll: kind === "portrait" ? 1.5 * normal(rng) : 0,
      focalLength: (away * pixels[0]) / 10 / wide,
    },
  });
  return { plan, width: pixels[0], height: pixels[1], main: { offLens, elevation } };
}

/** lx.s of the main light at the face: with the shutter and ISO of a plan the rest goes by it. */
const MAIN = 1500;
const SHUTTER = 0.00625;

function drawLights(rng: Pcg32, kind: Kind, bridge: P3, camera: P3, away: number) {
  const uniform = (from: number, to: number) => from + (to - from) * rng.next();
  const axes = lensAxes(camera, bridge);
  // flat to six stops: what fills the shadow, under the main light by so many stops
  const fill = kind === "flash" ? uniform(5, 8.5) : uniform(1, 7.5);
  const [off, round] = drawWay(rng, kind);
  const main = lightAt(axes, [off, round], bridge, drawFront(rng, kind), {
    name: "main",
    fNumberLux: MAIN,
    distance: kind === "flash" ? uniform(1.6, 2.2) : uniform(1.1, 2.2),
    away,
  });
  const lights = [main];
  // half of it comes evenly from all round, half from one side, as a wall gives it back
  const even = MAIN * 2 ** -fill;
  const wall = kind === "flash" ? 0 : rng.next();
  if (wall > 0.4)
    lights.push(
      lightAt(axes, [uniform(30, 130), uniform(-20, 200)], bridge, 2, {
        name: "wall",
        fNumberLux: wall * even,
        distance: uniform(1.6, 2.4),
        away,
      }),
    );
  if (kind !== "flash" && rng.next() < 0.38) {
    const isFill = rng.next() < 0.6;
    const way: readonly [number, number] = isFill
      ? [uniform(5, 40), 360 * rng.next()]
      : [uniform(60, 150), 20 + 140 * rng.next()];
    const stops = isFill ? uniform(1, 4) : uniform(0.2, 3);
    lights.push(
      lightAt(axes, way, bridge, isFill ? 0.9 : 0.4, {
        name: "second",
        fNumberLux: MAIN * 2 ** -stops,
        distance: uniform(1.2, 2.2),
        away,
      }),
    );
  }
  const elevation = elevationOf(off, round);
  return {
    offLens: off,
    elevation,
    lights,
    ambient: { lux: ((wall > 0.4 ? 1 - wall : 1) * even) / SHUTTER },
  };
}

/** Angle from the lens and the way round it (0: picture right, 90: up), degrees. */
function drawWay(rng: Pcg32, kind: Kind): [number, number] {
  for (;;) {
    const off = kind === "flash" ? 120 * rng.next() : 110 * rng.next();
    const round = 360 * rng.next();
    const elevation = elevationOf(off, round);
    const lowest = kind === "flash" ? -45 : -30;
    if (elevation < lowest || elevation > 80) continue;
    // lights from below are rarer
    if (elevation < -8 && rng.next() < 0.5) continue;
    return [off, round];
  }
}

function elevationOf(off: number, round: number): number {
  return Math.asin(Math.sin(off * DEGREE) * Math.sin(round * DEGREE)) / DEGREE;
}

/** Diameter, metres: 40 % hard, the others up to a large softbox. */
function drawFront(rng: Pcg32, kind: Kind): number {
  if (kind === "flash") return 0.06 + 0.08 * rng.next();
  const draw = rng.next();
  if (draw < 0.4) return 0.06 + 0.1 * rng.next();
  return draw < 0.75 ? 0.3 + 0.5 * rng.next() : 0.8 + 0.6 * rng.next();
}

interface LensAxes {
  readonly right: P3;
  readonly up: P3;
  readonly back: P3;
}

/** Of a lens that looks at the bridge of the nose; `back` points at it from there. */
function lensAxes(camera: P3, bridge: P3): LensAxes {
  const back = unit([0, 1, 2].map((k) => camera[k] - bridge[k]));
  const right = unit([-back[1], back[0], 0]);
  return { right, up: cross(back, right), back };
}

/** Half of what the lens takes in at the face, and a little, metres. */
const BESIDE = 0.25;

function lightAt(
  axes: LensAxes,
  [off, round]: readonly [number, number],
  bridge: P3,
  width: number,
  how: { name: string; fNumberLux: number; distance: number; away: number },
) {
  const side = Math.sin(off * DEGREE);
  const way = [0, 1, 2].map(
    (k) =>
      side * (Math.cos(round * DEGREE) * axes.right[k] + Math.sin(round * DEGREE) * axes.up[k]) +
      Math.cos(off * DEGREE) * axes.back[k],
  );
  // a front that would come between lens and face stands behind the lens
  const aside = how.distance * Math.tan(off * DEGREE);
  const isBefore = off < 90 && how.distance < (how.away + BESIDE) * Math.cos(off * DEGREE);
  const inTheWay = isBefore && aside < width / 2 + BESIDE;
  const distance = inTheWay ? how.away + BESIDE + width / 2 : how.distance;
  const position = bridge.map((b, k) => b + distance * way[k]);
  return {
    name: how.name,
    position,
    direction: { at: bridge },
    face: { shape: "disc", width },
    beam: { exponent: width < 0.2 ? 2 : 1 },
    // H S = N2 C
    output: { meter: { fNumber: Math.sqrt((how.fNumberLux * 100) / 250), iso: 100, distance } },
  };
}

function checked(document: unknown): Plan {
  const result = checkPlan(document);
  if (!result.ok) throw new Error(`${result.problems[0].path}: ${result.problems[0].what}`);
  return result.plan;
}

function unit(v: readonly number[]): [number, number, number] {
  const length = Math.hypot(v[0], v[1], v[2]);
  return [v[0] / length, v[1] / length, v[2] / length];
}

function cross(a: P3, b: P3): [number, number, number] {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}
