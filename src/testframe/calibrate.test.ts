import { describe, expect, it } from "vitest";
import { Pcg32 } from "../math/index.ts";
import type { Plan } from "../plan/index.ts";
import { calibrate, fitEvidence } from "./calibrate.ts";
import { predict, type Unknowns } from "./calibrate-model.ts";
import { type Evidence, gatherEvidence } from "./calibrate-observe.ts";
import { base, FILL, KEY, OPTIONS, planOf, readIn, reading, stronger, TEN } from "./calibrate-testing.ts";

function withStops(evidence: Evidence, stops: readonly number[]): Evidence {
  return {
    ...evidence,
    observed: evidence.observed.map((each, i) => ({
      ...each,
      observation: each.observation && { ...each.observation, stops: stops[i] },
    })),
  };
}

/** Box and Muller. */
function gaussian(draw: Pcg32): number {
  return Math.sqrt(-2 * Math.log(1 - draw.next())) * Math.cos(2 * Math.PI * draw.next());
}

const NOISE = 0.1;
const TRIALS = 200;
const plan = planOf(base(TEN));
/** Traced once: trials weigh it again. */
const evidence = gatherEvidence(plan, [], "coarse", undefined, () => true);
const { unknowns } = fitEvidence(plan, evidence);
const isBounce = (k: number) => k === unknowns.bounce;

/** Truth as often as it is expected, and ten readings of it. */
function drawn(seed: number, stream: number, of: Evidence, sought: Unknowns) {
  const draw = new Pcg32(seed, stream);
  const truth = Array.from(
    { length: sought.count },
    (_, k) => gaussian(draw) * (k === sought.bounce ? 0.5 : 1),
  );
  const stops = of.observed.map(({ observation }) => {
    if (!observation) throw new Error("every reading of this plan can be told");
    return predict(observation, sought, truth) + NOISE * gaussian(draw);
  });
  return { draw, truth, stops };
}

const rms = (all: readonly number[]) => Math.sqrt(all.reduce((sum, x) => sum + x * x, 0) / all.length);

describe("[CA9] synthetic truth with a tenth of a stop of noise, two lights and a room unknown", () => {
  const errors: number[] = [];
  const deviations: number[][] = Array.from({ length: unknowns.count }, () => []);
  let alarms = 0;
  for (let seed = 0; seed < TRIALS; seed++) {
    const { truth, stops } = drawn(seed, 71, evidence, unknowns);
    const { solved } = fitEvidence(plan, withStops(evidence, stops));
    alarms += solved.leftOut.length;
    solved.at.forEach((value, k) => {
      deviations[k].push((value - truth[k]) / Math.sqrt(solved.covariance[k][k]));
      if (!isBounce(k)) errors.push(Math.abs(value - truth[k]));
    });
  }
  it(`four readings each and two of both bring every light back within a tenth (${TRIALS} seeded trials)`, () => {
    // four readings of 0.1 alone: 0.05, two standard deviations of which are a tenth
    expect(rms(errors)).toBeLessThan(0.065);
    expect(errors.filter((e) => e <= 0.1).length / errors.length).toBeGreaterThan(0.9);
    expect(Math.max(...errors)).toBeLessThan(0.2);
  });
  it("it is as sure as it says, of lights and of the room", () => {
    // the RMS of 200 normal deviates is 1 within 0.05: three of them
    for (const each of deviations) expect(Math.abs(rms(each) - 1)).toBeLessThan(0.15);
  });
  it("good readings are all believed", () => expect(alarms).toBeLessThanOrEqual(1));
});

/** How often, of all trials, one wild reading among ten is singled out and no other. */
function foundIn(ofPlan: Plan, traced: Evidence, stream: number): number {
  const { unknowns } = fitEvidence(ofPlan, traced);
  let found = 0;
  for (let seed = 0; seed < TRIALS; seed++) {
    const { draw, stops } = drawn(seed, stream, traced, unknowns);
    const wild = Math.floor(10 * draw.next());
    stops[wild] += (0.7 + 1.8 * draw.next()) * (draw.next() < 0.5 ? -1 : 1);
    const { rowOf, solved } = fitEvidence(ofPlan, withStops(traced, stops));
    if (JSON.stringify(solved.leftOut) === JSON.stringify([[rowOf[wild]]])) found++;
  }
  return found;
}

describe(`[CA11] one wild reading among ten is singled out, and no other (${TRIALS} seeded trials)`, () => {
  it("in 95 %, though one of the ten alone tells what the room sends back", () => {
    expect(foundIn(plan, evidence, 72)).toBeGreaterThanOrEqual(0.95 * TRIALS);
  });
  it("in 99 % where each has four others of its light to check it", () => {
    const aside = [2.6, 3.9, 1.5];
    const five = planOf(base([...TEN.slice(0, 8), reading("key", aside, KEY), reading("fill", aside, FILL)]));
    const traced = gatherEvidence(five, [], "coarse", undefined, () => true);
    expect(foundIn(five, traced, 73)).toBeGreaterThanOrEqual(0.99 * TRIALS);
  });
});

describe("[CA12] against truth that was traced, not weighed", () => {
  it("lights and a room that sends back less are found", () => {
    const calibration = { bounceStops: -0.7, uncertaintyStops: 0 };
    const truth = { ...stronger(0.8, -0.55), room: { ...base([]).room, calibration } };
    const { lights, readings, room, unknown, next } = calibrate(readIn(truth), OPTIONS);
    // a guess of one stop and half a stop pulls by a hundredth of what it is off; tracing again costs as much
    expect(Math.abs(lights[0].after.stops - 0.8)).toBeLessThan(0.03);
    expect(Math.abs(lights[1].after.stops + 0.55)).toBeLessThan(0.03);
    expect(Math.abs((room?.after.stops ?? 9) + 0.7)).toBeLessThan(0.1);
    expect(readings.every(({ state }) => state === "used")).toBe(true);
    expect(unknown).toEqual([]);
    expect(next).toBeNull();
  });
  it("other paint on every wall: what is read at the face is right again, and the lights within a tenth", () => {
    const reflectance = { floor: 0.15, ceiling: 0.85, near: 0.35, far: 0.3, left: 0.25, right: 0.4 };
    const truth = { ...stronger(0.8, -0.55), room: { ...base([]).room, reflectance } };
    const { lights, readings, room } = calibrate(readIn(truth), OPTIONS);
    expect(Math.abs(lights[0].after.stops - 0.8)).toBeLessThan(0.1);
    expect(Math.abs(lights[1].after.stops + 0.55)).toBeLessThan(0.1);
    expect(room?.after.stops).toBeLessThan(-0.5);
    for (const { offAfter } of readings) expect(Math.abs(offAfter ?? 9)).toBeLessThan(0.1);
  });
});
