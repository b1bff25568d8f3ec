import { describe, expect, it } from "vitest";
import { clippingExposure, focalPlaneExposure } from "../photometry/index.ts";
import { applyEdit, gearKey, type Plan, standing } from "../plan/index.ts";
import { Memory, readPlan } from "../reading/index.ts";
import {
  base,
  FACE,
  KEY,
  OPTIONS,
  PLACES,
  planOf,
  readIn,
  reading,
  stronger,
  TEN,
} from "./calibrate-testing.ts";
import { calibrate, calibrationEdit, calibrationLines } from "./index.ts";

const [key] = base([]).lights;
const FOUR = PLACES.map((place) => reading("key", place, KEY));

describe("[CA13] what is known before", () => {
  it("an output by meter that readings agree against is left out and said", () => {
    const meter = { meter: { fNumber: 8, iso: 100, distance: 2 } };
    const told = { room: null, lights: [{ ...key, output: meter }] };
    const truth = {
      room: null,
      lights: [{ ...key, output: { meter: { ...meter.meter, fNumber: 8 * 2 ** 0.4 } } }],
    };
    const { lights } = calibrate(readIn(truth, FOUR, told), OPTIONS);
    expect(lights[0]).toMatchObject({ before: { stops: 0, uncertaintyStops: 0.1 }, isContradicted: true });
    expect(Math.abs(lights[0].after.stops - 0.8)).toBeLessThan(0.03);
  });
  it("one that they go with makes them surer", () => {
    const told = {
      room: null,
      lights: [{ ...key, output: { meter: { fNumber: 8, iso: 100, distance: 2 } } }],
    };
    const { lights } = calibrate(readIn(told, FOUR, told), OPTIONS);
    expect(lights[0].isContradicted).toBe(false);
    // five tenths agree: a fifth of a hundredth, and the guess of one stop beside it
    expect(lights[0].after.uncertaintyStops).toBeCloseTo(Math.sqrt(1 / 501), 4);
  });
  it("one reading against it: neither is believed, and both are named", () => {
    const told = {
      room: null,
      lights: [{ ...key, output: { meter: { fNumber: 8, iso: 100, distance: 2 } } }],
    };
    const truth = {
      room: null,
      lights: [{ ...told.lights[0], calibration: { stops: 0.9, uncertaintyStops: 0 } }],
    };
    const plan = readIn(truth, FOUR.slice(0, 1), told);
    const calibration = calibrate(plan, OPTIONS);
    expect(calibration.lights[0]).toMatchObject({
      isContradicted: true,
      readings: 0,
      after: { uncertaintyStops: 1 },
    });
    expect(calibrationEdit(plan, calibration, "today")).toBeNull();
    expect(calibrationLines(plan, calibration).slice(0, 2)).toEqual([
      "key: what the plan said of it, good to 0.1 stop, and its reading do not go together; neither is believed",
      "reading 1 does not go with what the plan says; which is wrong cannot be told from one reading: read it again",
    ]);
  });
  it("the gear book is where it starts; an earlier calibration by readings is not counted twice", () => {
    const known = (from: string) => ({
      room: null,
      lights: [{ ...key, calibration: { stops: 0.5, uncertaintyStops: 0.2, from } }],
    });
    const none = calibrate(planOf(base([], known("gear book"))), OPTIONS).lights[0];
    expect(none.after.stops).toBeCloseTo(0.5, 5);
    const again = calibrate(planOf(base([], known("readings"))), OPTIONS).lights[0];
    expect(again.after).toEqual({ stops: 0, uncertaintyStops: 1 });
  });
});

describe("[CA14] readings made before a light was turned down, moved or renamed", () => {
  it("tell as much of the head as they did", () => {
    const read = readIn({ ...stronger(0.8, -0.55), room: null }, FOUR, { room: null });
    const before = calibrate(read, OPTIONS);
    const stood = standing(read);
    const [turned, other] = read.lights;
    const moved = {
      ...turned,
      position: [1.2, 3, 2] as [number, number, number],
      output: { ...turned.output, stopsDown: 5 },
    };
    const after: Plan = {
      ...read,
      lights: [moved, other],
      readings: read.readings.map((r) => ({ ...r, stood })),
    };
    expect(calibrate(after, OPTIONS).lights).toEqual(before.lights);
    const swapped = { ...moved, face: { shape: "disc" as const, width: 0.3 } };
    const others = calibrate({ ...after, lights: [swapped, other] }, OPTIONS).lights[0];
    // another front is another light
    expect(gearKey(swapped)).not.toBe(gearKey(turned));
    expect(others).toMatchObject({ readings: 0, after: { uncertaintyStops: 1 } });
  });
});

it("[CA15] readings from its axis to well aside tell how a light spreads", () => {
  const aside = [0, 15, 30, 45].map((degrees) => {
    const a = (degrees * Math.PI) / 180;
    return reading("lamp", [1 + 2 * Math.sin(a), 1 + 2 * Math.cos(a), 1.5], [1, 1, 1.5]);
  });
  const lamp = (exponent: number, calibration: object | null = null) => ({
    room: null,
    people: [],
    lights: [
      {
        name: "lamp",
        position: [1, 1, 1.5],
        direction: { bearing: 0 },
        face: { shape: "disc", width: 0.3 },
        beam: { exponent },
        output: { wattSeconds: 300 },
        calibration,
      },
    ],
  });
  const truth = lamp(4, { stops: -0.6, uncertaintyStops: 1 });
  const plan = readIn(truth, aside, lamp(1));
  const [light] = calibrate(plan, OPTIONS).lights;
  expect(Math.abs((light.beam?.exponentAfter ?? 0) - 4)).toBeLessThan(0.3);
  expect(Math.abs(light.after.stops + 0.6)).toBeLessThan(0.1);
  const near = readIn(truth, [aside[0], aside[0], aside[0]], lamp(1));
  expect(calibrate(near, OPTIONS).lights[0].beam).toBeNull();
});

describe("[CA16] test frames tell too, less surely than a meter", () => {
  const truth = planOf(base([], stronger(0.7, -0.4)));
  const { camera, face } = (() => {
    const read = readPlan(truth, "coarse", new Memory());
    return { camera: truth.camera, face: read.people[0].face };
  })();
  const exposed = focalPlaneExposure((0.36 * face.litCheek) / Math.PI, camera.fNumber);
  const frame = {
    name: "frame 12",
    person: 0,
    face: {
      litCheekStops: Math.log2(clippingExposure(camera.iso, camera.headroom) / exposed),
      ratioStops: face.ratioStops,
      ratioUncertaintyStops: null,
      litSide: face.litSide === "even" ? ("left" as const) : face.litSide,
    },
    fNumber: camera.fNumber,
    iso: camera.iso,
    hasCurve: true,
  };
  const skin = { people: [{ name: "cellist", position: [3, 4.2], skin: { reflectance: 0.36 } }] };
  it("exposure and ratio of a face bring both lights nearer to the truth", () => {
    const { lights, readings } = calibrate(planOf(base([], skin)), { ...OPTIONS, frames: [frame] });
    expect(readings.map(({ kind }) => kind)).toEqual(["lit cheek", "ratio"]);
    expect(Math.abs(lights[0].after.stops - 0.7)).toBeLessThan(0.3);
    expect(lights[0].after.uncertaintyStops).toBeLessThan(0.5);
    expect(lights[0].after.uncertaintyStops).toBeGreaterThan(0.3);
  });
  it("without the camera's curve they say less", () => {
    const frames = [{ ...frame, hasCurve: false }];
    const { lights } = calibrate(planOf(base([], skin)), { ...OPTIONS, frames });
    expect(lights[0].after.uncertaintyStops).toBeGreaterThan(0.6);
  });
});

describe("[CA17] too few readings", () => {
  const chin = { meters: [{ name: "chin", position: FACE, direction: { at: KEY } }] };
  it("none: everything is a guess, and the reading that helps most is named", () => {
    const calibration = calibrate(planOf(base([], chin)), OPTIONS);
    expect(calibration.unknown).toEqual(["key", "fill", "bounce"]);
    expect(calibration.rmsStops).toBeNull();
    expect(calibration.next).toMatchObject({ light: "key", meter: "chin", helps: "key" });
    expect(calibration.next?.after).toBeLessThan(0.2);
    expect(calibrationEdit(planOf(base([], chin)), calibration, "today")).toBeNull();
  });
  it("one of the key: the fill is asked for, then what the room sends back", () => {
    const first = readIn(stronger(0.8, -0.55), FOUR.slice(0, 2), chin);
    expect(calibrate(first, OPTIONS)).toMatchObject({ unknown: ["fill", "bounce"], next: { light: "fill" } });
    const both = [...FOUR, ...TEN.slice(4, 8)];
    const second = calibrate(readIn(stronger(0.8, -0.55), both, chin), OPTIONS);
    expect(second).toMatchObject({ unknown: ["bounce"], next: { helps: "bounce" } });
    expect(second.next?.after).toBeLessThan(0.35);
  });
  it("a reading where by the plan nothing arrives is not used, and why is said", () => {
    const inside = [reading("key", [3, 4.2, 1.5], KEY)];
    const told = { people: [{ name: "cellist", position: [3, 4.2] }], room: null };
    const plan = planOf(base(inside, told));
    const calibration = calibrate(plan, OPTIONS);
    expect(calibration.readings[0].state).toBe("not used");
    expect(calibrationLines(plan, calibration)[2]).toContain("is it behind something, or inside somebody?");
  });
});

describe("[CA18] taken into the plan and told", () => {
  const read = readIn(stronger(0.8, -0.55), TEN);
  const wild = {
    ...read,
    readings: read.readings.map((r, i) => (i === 2 ? { ...r, fNumber: r.fNumber * 2 ** 0.7 } : r)),
  };
  const calibration = calibrate(wild, OPTIONS);
  it("one edit, after which the plan predicts what was read", () => {
    const edit = calibrationEdit(wild, calibration, "2026-11-26");
    if (edit === null) throw new Error("something was learnt");
    const edited = applyEdit(wild, edit);
    if (!edited.ok) throw new Error(JSON.stringify(edited.problems));
    expect(edited.plan.lights.map((l) => l.calibration?.from)).toEqual(["readings", "readings"]);
    // calibrating again with the same readings changes nothing
    expect(calibrate(edited.plan, OPTIONS)).toEqual(calibration);
    const there = {
      ...edited.plan,
      meters: [{ name: "m", position: PLACES[0], direction: { at: [3, 1.2, 1.5] }, receptor: "dome" }],
    } as Plan;
    const [meter] = readPlan(there, "coarse", new Memory()).meters;
    expect(Math.abs(2 * Math.log2(meter.fNumber / read.readings[8].fNumber))).toBeLessThan(0.06);
    expect(meter.uncertaintyStops).toBeLessThan(0.1);
  });
  it("in words, the wild one with what it mostly is", () => {
    const lines = calibrationLines(wild, calibration);
    expect(lines).toEqual([
      "key gives 0.8 stop more than its output says, good to 0.1 stop; it was a guess within about one stop",
      "fill gives 0.5 stop less than its output says, good to 0.1 stop; it was a guess within about one stop",
      expect.stringMatching(/^the room sends back .* its reflectances say, good to 0\.\d stop$/),
      expect.stringMatching(
        /^reading 3 cannot be right: f\/\S+ \+ 0\.\d, 1\.4 stops over what all the others say, which is f\/\S+ \+ 0\.\d\. Did another light flash too\? Read it again$/,
      ),
      expect.stringMatching(/^9 readings used; what is left between them and the plan is 0\.0\d stop$/),
    ]);
  });
});
