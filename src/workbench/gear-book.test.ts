import { describe, expect, it } from "vitest";
import { applyEdit, checkPlan, type Plan } from "../plan/index.ts";
import { EMPTY_BOOK, gearBookText, gearEdit, gearFor, learn, learnBody, readGearBook } from "./index.ts";

const MEASURED = { stops: 0.62, uncertaintyStops: 0.06, measuredOn: "2026-11-26", from: "readings" };
const key = (more: object = {}) => ({
  name: "key",
  position: [1, 1, 2],
  direction: { at: [2, 3, 1.5] },
  face: { shape: "polygon", sides: 8, width: 1.2 },
  beam: { exponent: 1.8 },
  output: { wattSeconds: 400, stopsDown: 2 },
  ...more,
});

function planOf(...lights: object[]): Plan {
  const checked = checkPlan({ format: "tapemark/plan", version: 1, lights });
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}

const book = learn(EMPTY_BOOK, planOf(key({ calibration: MEASURED })));

describe("[CA20] gear keeps its calibration for the next plan", () => {
  it("another plan with the same head is offered it, a little less sure, and takes it as one step", () => {
    // elsewhere, turned down further, another beam written
    const next = planOf({
      ...key(),
      position: [3, 2, 2],
      output: { wattSeconds: 400, stopsDown: 5 },
      beam: {},
    });
    expect(gearFor(next, book)).toEqual([
      {
        name: "key",
        index: 0,
        // 0.06 and a tenth for another day
        known: { stops: 0.62, uncertaintyStops: 0.117, measuredOn: "2026-11-26", exponent: 1.8 },
      },
    ]);
    const edit = gearEdit(next, book);
    if (edit === null) throw new Error("the book knows it");
    const edited = applyEdit(next, edit);
    if (!edited.ok) throw new Error(JSON.stringify(edited.problems));
    expect(edited.plan.lights[0]).toMatchObject({
      calibration: { stops: 0.62, uncertaintyStops: 0.117, measuredOn: "2026-11-26", from: "gear book" },
      beam: { exponent: 1.8 },
    });
    expect(gearEdit(edited.plan, book)).toBeNull();
    // what came from the book does not come back into it
    expect(learn(book, edited.plan)).toBe(book);
  });
  it.each([
    ["another name", { name: "key 2" }],
    ["another front", { face: { shape: "polygon", sides: 8, width: 0.9 } }],
    ["another full power", { output: { wattSeconds: 200, stopsDown: 1 } }],
    ["another guess of tube and front", { output: { wattSeconds: 400, efficiency: 0.4 } }],
    ["told another way", { output: { lumenSeconds: 1600 } }],
    ["one that this plan has measured", { calibration: { ...MEASURED, stops: 0.4 } }],
  ])("%s is not taken for it", (_, more) => expect(gearFor(planOf(key(more)), book)).toEqual([]));
  it("light told as such is the same only at the same number; what a meter read is of that day", () => {
    const lumens = { output: { lumenSeconds: 900 }, calibration: MEASURED };
    const kept = learn(EMPTY_BOOK, planOf(key(lumens)));
    expect(gearFor(planOf(key({ output: { lumenSeconds: 900 } })), kept)).toHaveLength(1);
    expect(gearFor(planOf(key({ output: { lumenSeconds: 450 } })), kept)).toHaveLength(0);
    const output = { meter: { fNumber: 8, distance: 2 } };
    expect(learn(EMPTY_BOOK, planOf(key({ output, calibration: MEASURED })))).toBe(EMPTY_BOOK);
  });
  it("the same again is the same book", () => {
    expect(learn(book, planOf(key({ calibration: MEASURED })))).toBe(book);
  });
});

const CURVE = { stops: [-6, -1, 0, 2.4], clippingStops: 2.4, frames: 7, rmsStops: 0.05 };

describe("[CA21] the gear book as a file", () => {
  const full = learnBody(book, "A maker B2 0123", CURVE, "2026-11-26");
  it("is read as it was written", () => {
    expect(readGearBook(JSON.parse(gearBookText(full)))).toEqual(full);
    expect(readGearBook(JSON.parse(gearBookText(EMPTY_BOOK)))).toEqual(EMPTY_BOOK);
  });
  it.each([
    ["nothing", null],
    ["a list", []],
    ["another format", { format: "tapemark/plan", version: 1, bodies: {}, lights: {} }],
    ["a later version", { format: "tapemark/gear", version: 2, bodies: {}, lights: {} }],
    ["no lights", { format: "tapemark/gear", version: 1, bodies: {} }],
    [
      "a light out of bounds",
      { format: "tapemark/gear", version: 1, bodies: {}, lights: { key: { ...MEASURED, stops: 40 } } },
    ],
    [
      "a curve of words",
      {
        format: "tapemark/gear",
        version: 1,
        bodies: { b: { ...CURVE, stops: ["a", "b"], measuredOn: "" } },
        lights: {},
      },
    ],
  ])("%s is none", (_, value) => expect(readGearBook(value)).toBeNull());
});
