/** Crops are measured again by another road: landmarks through the same pinhole as the frame's own rays. */
import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import { stagePerson } from "../staging/index.ts";
import { project, viewfinder } from "./camera-rays.ts";
import { CROPS, type Crop, cropBoxes, usedPart } from "./framing.ts";
import { fitDistance, fitLens } from "./framing-fit.ts";
import { toWorld } from "./head-axes.ts";

function plan(change: object = {}, person: object = {}, camera: object = {}): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    room: { width: 9, depth: 14, height: 3.4 },
    people: [{ name: "cellist", position: [4.5, 8], stature: 1.72, hair: { length: "short" }, ...person }],
    camera: { position: [4.5, 5, 1.5], direction: { at: [4.5, 8, 1.5] }, focalLength: 85, ...camera },
    ...change,
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

/** Share of the picture by which an edge may miss: what the brief asks, a third of a pixel in 360. */
const MISS = 0.001;

function expectFilled(filled: Plan, crop: Crop) {
  const box = cropBoxes(filled, 0)[crop];
  const used = usedPart(filled);
  for (const edge of ["left", "right", "top", "bottom"] as const)
    expect(Math.abs((box?.[edge] ?? Infinity) - used[edge]), `${crop}, ${edge}`).toBeLessThan(MISS);
}

const framings: [string, Plan][] = [
  ["a portrait", plan()],
  ["a landscape", plan({}, {}, { orientation: "landscape" })],
  ["somebody who sits", plan({}, { pose: "seated" })],
  ["a print of other proportions", plan({ print: { width: 1.2, height: 1.2 } })],
  ["a turned, tilted camera from the side and above", plan({}, {}, { position: [2.5, 5.5, 2.2], roll: 8 })],
  ["a head that follows the camera", plan({}, { head: { follows: "camera" } }, { position: [3, 5, 1.9] })],
  ["an aim by bearing", plan({}, {}, { direction: { bearing: 4, tilt: -3 } })],
];

describe("named crops", () => {
  for (const [name, start] of framings) {
    it(`[RD17] ${name}: the lens that is found fills the picture with the crop, from the same place`, () => {
      for (const crop of CROPS) {
        const found = fitLens(start, 0, crop);
        if (found === null) throw new Error(`${crop} is not seen`);
        expect(found.position).toEqual(start.camera.position);
        const { direction, focalLength } = found;
        expectFilled({ ...start, camera: { ...start.camera, direction, focalLength } }, crop);
      }
    });
    it(`[RD17] ${name}: the distance that is found does, with the same lens and at the same height`, () => {
      for (const crop of CROPS) {
        const roomy = { ...start, room: null };
        const found = fitDistance(roomy, 0, crop);
        if (found === null) throw new Error(`${crop} is not seen`);
        const { position, direction, focalLength } = found;
        expect(focalLength).toBe(start.camera.focalLength);
        expect(position[2]).toBe(start.camera.position[2]);
        expectFilled({ ...roomy, camera: { ...start.camera, position, direction } }, crop);
      }
    });
  }

  it("[RD17] a crop is where the frame's own pinhole puts crown and chin", () => {
    // lying, so that the head is never too wide for it
    const bare = plan({}, { hair: { length: "none" } }, { orientation: "landscape" });
    const box = cropBoxes(bare, 0).head;
    if (box === null) throw new Error("not seen");
    const staged = stagePerson(bare.people[0], bare);
    const view = viewfinder(bare.camera, 1000);
    const at = (name: "crown" | "chin") =>
      (project(view, toWorld(staged, staged.shape.head.landmarks[name]))?.[1] ?? Number.NaN) / view.height;
    const tall = box.bottom - box.top;
    // a tenth of air over the crown; the head's outline stands a few millimetres round its landmarks
    expect((at("crown") - box.top) / tall).toBeCloseTo(0.1, 1);
    expect((box.bottom - at("chin")) / tall).toBeCloseTo(0.1, 1);
    expect((at("chin") - at("crown")) / tall).toBeGreaterThan(0.74);
    expect((at("chin") - at("crown")) / tall).toBeLessThan(0.82);
  });

  it("[RD17] each crop takes in the one before it, and a taller person needs more room", () => {
    const height = (of: Plan, crop: Crop) => {
      const box = cropBoxes(of, 0)[crop];
      return box === null ? Number.NaN : box.bottom - box.top;
    };
    const heights = CROPS.map((crop) => height(plan(), crop));
    expect(heights).toEqual([...heights].sort((a, b) => a - b));
    expect(new Set(heights).size).toBe(CROPS.length);
    expect(height(plan({}, { stature: 1.95 }), "full")).toBeGreaterThan(1.08 * height(plan(), "full"));
  });

  it("[RD17] half the field at twice the focal length: the crop is twice as large", () => {
    const width = (focalLength: number) => {
      const box = cropBoxes(plan({}, {}, { focalLength }), 0).half;
      return box === null ? Number.NaN : box.right - box.left;
    };
    expect(width(100) / width(50)).toBeCloseTo(2, 12);
  });

  it("[RD17] the wall stops a camera that would have to go through it, and is named", () => {
    const tight = plan({ room: { width: 9, depth: 9, height: 3 } }, {}, { focalLength: 200 });
    const found = fitDistance(tight, 0, "full");
    expect(found?.stoppedBy).toBe("near wall");
    expect(found?.position[1]).toBeCloseTo(0.15, 9);
    expect(fitDistance(tight, 0, "head")?.stoppedBy).toBe(null);
  });

  it("[RD17] a print takes the largest part of its proportions from the middle of the picture", () => {
    const part = usedPart(plan({ print: { width: 1, height: 1 } }));
    expect(part).toMatchObject({ left: 0, right: 1 });
    expect(part.top).toBeCloseTo(1 / 6, 12);
    expect(part.bottom).toBeCloseTo(5 / 6, 12);
    const narrow = usedPart(plan({ print: { width: 0.5, height: 1.5 } }));
    expect(narrow.left).toBeCloseTo(0.25, 12);
    expect(narrow.right).toBeCloseTo(0.75, 12);
    expect(usedPart(plan())).toEqual({ left: 0, top: 0, right: 1, bottom: 1 });
  });

  it("[RD17] who stands behind the camera has no crop", () => {
    expect(
      cropBoxes(plan({}, {}, { position: [4.5, 9, 1.5], direction: { bearing: 0, tilt: 0 } }), 0).head,
    ).toBe(null);
  });
});
