import { describe, expect, it } from "vitest";
import {
  axesOf,
  bearingVector,
  directionOf,
  type Face,
  faceArea,
  faceOutline,
  polygonCircumradius,
  type Vec3,
} from "./index.ts";

/** Sines and cosines of round angles are off by an ulp or two. */
const DIGITS = 12;

function expectVector(found: readonly number[], wanted: readonly number[]) {
  for (const [k, v] of wanted.entries())
    expect(found[k], `component ${k} of ${found}`).toBeCloseTo(v, DIGITS);
}

const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

describe("[PL9] bearing and tilt", () => {
  it.each<[Vec3, number, number]>([
    [[0, 1, 0], 0, 0],
    [[1, 0, 0], 90, 0],
    [[0, -1, 0], 180, 0],
    [[-1, 0, 0], 270, 0],
    [[1, 1, Math.SQRT2], 45, 45],
    [[-1, 1, 0], 315, 0],
    [[0, 3, -3], 0, -45],
    [[0, 0, 2], 0, 90],
    [[0, 0, -2], 0, -90],
  ])("a point at %j", (offset, bearing, tilt) => {
    const position: Vec3 = [2, 3, 1];
    const at: Vec3 = [2 + offset[0], 3 + offset[1], 1 + offset[2]];
    const found = directionOf({ at }, position);
    expect(found.bearing_deg).toBeCloseTo(bearing, DIGITS);
    expect(found.tilt_deg).toBeCloseTo(tilt, DIGITS);
  });
  it("exactly above counts as bearing 0, whatever the sign of nothing", () =>
    expect(directionOf({ at: [0, -0, 1] }, [0, 0, 0]).bearing_deg).toBe(0));
  it("what is written as bearing and tilt stays as written", () =>
    expect(directionOf({ bearing: -10, tilt: 5 }, [1, 1, 1])).toEqual({ bearing_deg: -10, tilt_deg: 5 }));
  it("the vector of 30 degrees round, 60 up: (0.25, 0.4330, 0.8660)", () =>
    expectVector(bearingVector(30, 60), [0.25, Math.sqrt(3) / 4, Math.sqrt(3) / 2]));
});

describe("[PL10] axes of an object", () => {
  it("into the set and level: forward y, right x, up z", () => {
    const { forward, right, up } = axesOf(0, 0, 0);
    expectVector(forward, [0, 1, 0]);
    expectVector(right, [1, 0, 0]);
    expectVector(up, [0, 0, 1]);
  });
  it("toward the camera side its width runs to -x", () => expectVector(axesOf(180, 0, 0).right, [-1, 0, 0]));
  it("straight up or down the width still runs along (cos b, -sin b, 0)", () => {
    for (const tilt of [90, -90]) expectVector(axesOf(30, tilt, 0).right, [Math.sqrt(3) / 2, -0.5, 0]);
    expectVector(axesOf(0, 90, 0).up, [0, -1, 0]);
    expectVector(axesOf(0, -90, 0).up, [0, 1, 0]);
  });
  it("a quarter roll, clockwise seen from behind, brings the top to the right and the right to the bottom", () => {
    const { right, up } = axesOf(0, 0, 90);
    expectVector(up, [1, 0, 0]);
    expectVector(right, [0, 0, -1]);
  });
  it("everywhere unit vectors, and up = right x forward", () => {
    for (const bearing of [-200, 0, 77, 180, 300])
      for (const tilt of [-90, -31, 0, 45, 90])
        for (const roll of [-120, 0, 15]) {
          const { forward, right, up } = axesOf(bearing, tilt, roll);
          expectVector(cross(right, forward), up);
          for (const axis of [forward, right, up]) expect(Math.hypot(...axis)).toBeCloseTo(1, DIGITS);
        }
  });
});

describe("[PL11] outlines and areas of fronts", () => {
  const top = (face: Face) => Math.max(...faceOutline(face).map((p) => p[1]));
  const across = (face: Face) => 2 * Math.max(...faceOutline(face).map((p) => p[0]));

  it("an octagon 1.5 across the flats: top side level at 0.75, area 2 (sqrt 2 - 1) 1.5^2 = 1.8640", () => {
    const face: Face = { shape: "polygon", width: 1.5, sides: 8 };
    const outline = faceOutline(face);
    expect(top(face)).toBeCloseTo(0.75, DIGITS);
    expect(across(face)).toBeCloseTo(1.5, DIGITS);
    expect(outline.filter((p) => Math.abs(p[1] - 0.75) < 1e-9).length).toBe(2);
    expect(faceArea(face)).toBeCloseTo(2 * (Math.SQRT2 - 1) * 2.25, DIGITS);
    expect(polygonCircumradius(8, 1.5)).toBeCloseTo(0.811794, 6);
  });
  it("a triangle of inscribed diameter 1: one level side on top at 0.5, corner 1 below, area 3 sqrt 3 / 4", () => {
    const face: Face = { shape: "polygon", width: 1, sides: 3 };
    expect(top(face)).toBeCloseTo(0.5, DIGITS);
    expect(Math.min(...faceOutline(face).map((p) => p[1]))).toBeCloseTo(-1, DIGITS);
    expect(faceArea(face)).toBeCloseTo((3 * Math.sqrt(3)) / 4, DIGITS);
  });
  it("a disc of 48 points, a rectangle of four corners, a point of none", () => {
    expect(faceOutline({ shape: "disc", width: 2 }).length).toBe(48);
    expect(across({ shape: "disc", width: 2 })).toBeCloseTo(2, DIGITS);
    expect(faceArea({ shape: "disc", width: 2 })).toBeCloseTo(Math.PI, DIGITS);
    expect(faceOutline({ shape: "rectangle", width: 2, height: 1 })).toContainEqual([1, 0.5]);
    expect(faceArea({ shape: "rectangle", width: 2, height: 1 })).toBe(2);
    expect(faceOutline({ shape: "point" })).toEqual([]);
    expect(faceArea({ shape: "point" })).toBe(0);
  });
  it("areas are those of the outlines", () => {
    for (const sides of [3, 4, 5, 6, 7, 8, 12, 64]) {
      const face: Face = { shape: "polygon", width: 1.2, sides };
      const points = faceOutline(face);
      // shoelace formula: positive because the outline runs counter-clockwise
      const area = points.reduce((sum, [x, y], i) => {
        const [nextX, nextY] = points[(i + 1) % sides];
        return sum + (x * nextY - nextX * y) / 2;
      }, 0);
      expect(area).toBeCloseTo(faceArea(face), DIGITS);
    }
  });
});
