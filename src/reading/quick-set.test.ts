import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import { emitterOf, stage, stageLight } from "../staging/index.ts";
import { readBridge } from "./bridge.ts";
import { faceExposure, faceShares } from "./face-light.ts";
import { lightUp } from "./lighting.ts";
import { Memory } from "./memory.ts";
import { type PatternReading, readPattern } from "./pattern.ts";
import type { PlacedPanel } from "./quick-panel.ts";
import { LOOK, LOOK_LENGTH, QuickSet, ROW_TAIL } from "./quick-set.ts";

const KEY = {
  name: "key",
  position: [3.2, 1.3, 2.1],
  direction: { at: [2, 2.4, 1.55] },
  face: { shape: "rectangle", width: 0.6, height: 0.9 },
  output: { lumenSeconds: 1000 },
};
const WHITE_ROOM = {
  width: 4,
  depth: 5,
  height: 2.7,
  reflectance: { near: 0.85, far: 0.85, left: 0.85, right: 0.85, floor: 0.5, ceiling: 0.85 },
};

function planOf(parts: object): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    title: "Quick",
    lights: [KEY],
    people: [{ name: "sitter", position: [2, 2.4], stature: 1.7, facing: 180 }],
    camera: {
      position: [2, 0.5, 1.5],
      direction: { bearing: 0, tilt: 0 },
      focalLength: 85,
      fNumber: 8,
      sensor: { width: 36, height: 24 },
    },
    ...parts,
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

function rowOf(set: QuickSet, plan: Plan, light = 0): Float64Array {
  const row = new Float64Array(set.rowLength);
  const e = emitterOf(plan.lights[light], plan);
  const { meterWeights, lumenSeconds } = stageLight(plan.lights[light], plan);
  set.writeRow(e, set.front(e), row, meterWeights);
  return row.map((x) => lumenSeconds * x);
}

function traced(plan: Plan): PatternReading & ReturnType<typeof readBridge> {
  const lighting = lightUp(plan, "fine", new Memory());
  const shares = faceShares(lighting, 0);
  const bridge = readBridge(plan, lighting, 0);
  const marks = lighting.stage.people[0].shape.head.landmarks;
  return {
    ...bridge,
    ...readPattern(shares.samples, faceExposure(lighting, shares), marks, bridge.arriving),
  };
}

const stops = (a: number, b: number) => Math.abs(Math.log2(a / b));

/** Finding the edges of a head takes half a second by itself, much more where others use the cores. */
const PATIENT = { timeout: 180_000 };

describe("rows of the quick set", PATIENT, () => {
  const room = planOf({ room: WHITE_ROOM });
  const inRoom = new QuickSet(room, 0);

  it("[QF10] a first look says what the row says of bridge and cheeks, with the room and without (1e-9)", () => {
    const e = emitterOf(room.lights[0], room);
    for (const set of [inRoom, new QuickSet(room, 0, { bounce: false })]) {
      const row = new Float64Array(set.rowLength);
      const look = new Float64Array(LOOK_LENGTH);
      set.writeRow(e, set.front(e), row);
      set.writeLook(e, set.front(e), look);
      const tail = set.face.samples.count;
      for (const k of [LOOK.ahead, LOOK.left, LOOK.up, LOOK.sum])
        expect(look[k]).toBeCloseTo(row[tail + ROW_TAIL.ahead + k], 9);
      expect(look[LOOK.leftCheek]).toBeCloseTo(set.cheek(row, 0), 9);
      expect(look[LOOK.rightCheek]).toBeCloseTo(set.cheek(row, 1), 9);
      expect(look[LOOK.leftCheek]).toBeGreaterThan(0);
    }
  });

  it("[QF11] the bridge of the nose in a white room: length within 3 %, direction within 2 degrees, sum within 5 %", () => {
    const row = rowOf(inRoom, room);
    const tail = inRoom.face.samples.count;
    const truth = traced(room);
    const length = inRoom.arriving(row);
    expect(Math.abs(length / truth.arriving - 1)).toBeLessThan(0.03);
    const azimuth = Math.atan2(row[tail + ROW_TAIL.left], row[tail + ROW_TAIL.ahead]);
    const elevation = Math.asin(row[tail + ROW_TAIL.up] / length);
    expect(Math.abs((azimuth * 180) / Math.PI - (truth.azimuth as number))).toBeLessThan(2);
    expect(Math.abs((elevation * 180) / Math.PI - (truth.elevation as number))).toBeLessThan(2);
    const scalar = row[tail + ROW_TAIL.sum] / 4;
    expect(Math.abs(length / scalar / (truth.vectorScalarRatio as number) - 1)).toBeLessThan(0.05);
  });

  it("[QF12] coloured walls and a gel: both cheeks within 0.1 stop; the gel counts on the walls as it does on the face", () => {
    const reflectance = { ...WHITE_ROOM.reflectance, left: [0.75, 0.1, 0.08], far: [0.1, 0.2, 0.6] };
    const plan = planOf({
      room: { ...WHITE_ROOM, reflectance },
      lights: [{ ...KEY, gel: { rgb: [0.9, 0.3, 0.1] } }],
    });
    const quick = new QuickSet(plan, 0);
    const read = quick.read(rowOf(quick, plan));
    const truth = traced(plan);
    expect(stops(read.litCheek, truth.litCheek)).toBeLessThan(0.1);
    expect(stops(read.shadowCheek, truth.shadowCheek)).toBeLessThan(0.1);
    // as much luminance from a white light says something else
    const e = emitterOf(plan.lights[0], plan);
    const { meterWeights, lumenSeconds } = stageLight(plan.lights[0], plan);
    const white = new Float64Array(quick.rowLength);
    quick.writeRow(e, quick.front(e), white);
    const scale = lumenSeconds * meterWeights.reduce((a, b) => a + b, 0);
    const pale = quick.read(white.map((x) => scale * x));
    expect(stops(pale.shadowCheek, read.shadowCheek)).toBeGreaterThan(0.1);
  });

  it("[QF13] a white panel on the shadow side, in the dark and in a white room, and a black one there: within 0.2 stop", () => {
    const at = { position: [1.3, 2, 1.5], direction: { at: [2, 2.4, 1.5] }, width: 0.9, height: 1.2 };
    for (const [place, reflectance] of [
      [{}, 0.85],
      [{ room: WHITE_ROOM }, 0.85],
      [{ room: WHITE_ROOM }, 0.04],
    ] as const) {
      const truth = traced(planOf({ ...place, panels: [{ name: "card", ...at, reflectance }] }));
      const plan = planOf(place);
      const set = new QuickSet(plan, 0);
      const row = new Float64Array(set.rowLength);
      const e = emitterOf(plan.lights[0], plan);
      set.writeRow(e, set.front(e), row);
      const bare = set.read(row.map((x) => 1000 * x));
      set.addPanel(placed(at, reflectance), e, set.front(e), row);
      const read = set.read(row.map((x) => 1000 * x));
      expect(stops(read.litCheek, truth.litCheek), "lit").toBeLessThan(0.1);
      expect(stops(read.shadowCheek, truth.shadowCheek), "shadow").toBeLessThan(0.2);
      if (reflectance < 0.1) expect(read.shadowCheek).toBeLessThan(bare.shadowCheek);
      else if (!("room" in place)) expect(stops(read.shadowCheek, bare.shadowCheek)).toBeGreaterThan(0.5);
    }
  });

  it("[QF14] the same again gives the same bits, whatever other sets and lights came between; powers add", () => {
    const plan = planOf({
      room: WHITE_ROOM,
      lights: [KEY, { ...KEY, name: "rim", position: [0.8, 3.6, 2.2], face: { shape: "point" } }],
    });
    const once = rowOf(inRoom, plan);
    const other = new QuickSet(planOf({ people: [{ name: "sitter", position: [1, 1], facing: 90 }] }), 0);
    const rim = rowOf(inRoom, plan, 1);
    rowOf(other, plan, 1);
    expect(rowOf(inRoom, plan)).toEqual(once);
    expect(rowOf(new QuickSet(room, 0), plan)).toEqual(once);
    const both = once.map((x, k) => x + rim[k]);
    expect(inRoom.cheek(both, 0)).toBeCloseTo(inRoom.cheek(once, 0) + inRoom.cheek(rim, 0), 9);
  });
});

function placed(
  at: { position: number[]; direction: { at: number[] }; width: number; height: number },
  reflectance: number,
): PlacedPanel {
  const [quad] = stage(planOf({ panels: [{ name: "card", ...at, reflectance }] })).scene.quads;
  return { ...quad, reflectance: [reflectance, reflectance, reflectance] };
}
