import { describe, expect, it } from "vitest";
import { checkPlan } from "../plan/index.ts";
import { bodyOf, knownBody, matchFaces, type PhotoExif, type PhotoReading } from "./index.ts";

const exif = (make: string | null, model: string | null, serial: string | null = null) =>
  ({ make, model, serial }) as PhotoExif;
const curve = { stops: [0, 1], clippingStops: 3, frames: 7, rmsStops: 0.02 };

describe("[DK13] a camera is known by make, model and serial number", () => {
  it.each([
    [exif("Maker", "Model 5"), "Maker Model 5"],
    [exif("MAKER", "Maker Model 5", "0123"), "Maker Model 5 0123"],
    [exif(null, "Model 5"), "Model 5"],
    [exif("Maker", null, "0123"), null],
  ])("%j", (tags, body) => expect(bodyOf(tags)).toBe(body));
  it("another of the same model, and one that says nothing, are not it", () => {
    const bodies = { "Maker Model 5 0123": curve };
    expect(knownBody(exif("Maker", "Model 5", "0123"), bodies)?.curve).toBe(curve);
    expect(knownBody(exif("Maker", "Model 5", "9999"), bodies)).toBeNull();
    expect(knownBody(exif(null, "constructor"), bodies)).toBeNull();
  });
});

describe("[DK14] faces are matched with the people of a plan by where they are in the picture", () => {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    people: [
      { name: "left", position: [3, 4.3], facing: 180 },
      { name: "right", position: [4, 4.3], facing: 180 },
    ],
    camera: { position: [3.5, 1, 1.55], direction: { at: [3.5, 4.3, 1.55] }, focalLength: 50 },
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  const { plan } = checked;
  const photo = (...middles: number[]) =>
    ({
      image: { width: 1000, height: 1500 },
      faces: middles.map((x) => ({ box: { left: x - 50, top: 600, width: 100, height: 120 } })),
    }) as unknown as PhotoReading;
  it("each with the nearest, whatever order the faces are told in", () => {
    expect(matchFaces(plan, photo(800, 200))).toEqual([
      { person: 0, face: 1 },
      { person: 1, face: 0 },
    ]);
  });
  it("who is not in it is left out; so is a stranger", () => {
    expect(matchFaces(plan, photo(790))).toEqual([{ person: 1, face: 0 }]);
    expect(matchFaces(plan, photo())).toEqual([]);
    expect(matchFaces(plan, photo(210, 500, 790)).map(({ face }) => face)).toEqual([0, 2]);
  });
});
