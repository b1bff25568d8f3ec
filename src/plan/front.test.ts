import { describe, expect, it } from "vitest";
import { type Face, faceArea, faceAs } from "./index.ts";

const FACES: Face[] = [
  { shape: "disc", width: 1.5 },
  { shape: "rectangle", width: 0.6, height: 0.9 },
  { shape: "polygon", sides: 8, width: 1.5 },
];

describe("[AP53] a front that changes shape keeps its area", () => {
  for (const face of FACES) {
    it.each(["disc", "rectangle", "polygon"] as const)(`${face.shape} to %s`, (shape) => {
      const other = faceAs(face, shape);
      expect(other.shape).toBe(shape);
      // whole millimetres: half of one in the narrowest front here, twice
      expect(faceArea(other) / faceArea(face)).toBeGreaterThan(1 - 0.002);
      expect(faceArea(other) / faceArea(face)).toBeLessThan(1 + 0.002);
    });
  }
  it("the shape it has is no change; a point has no size, and gets a small one", () => {
    expect(faceAs(FACES[0], "disc")).toBe(FACES[0]);
    expect(faceAs(FACES[0], "point")).toEqual({ shape: "point" });
    expect(faceAs({ shape: "point" }, "disc")).toEqual({ shape: "disc", width: 0.2 });
  });
});
