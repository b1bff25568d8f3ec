import { describe, expect, it } from "vitest";
import { QuantityError } from "../units/index.ts";
import { circleOfConfusion, depthOfField, fieldSize, hyperfocalDistance } from "./index.ts";

const CIRCLE = circleOfConfusion(36, 24);

/** Diameter on the sensor of a point at u when the lens is focused at s: similar triangles through the pupil f / N. */
function blur(f: number, n: number, s: number, u: number): number {
  const image = (distance: number) => (f * distance) / (distance - f);
  return ((f / n) * Math.abs(image(u) - image(s))) / image(u);
}

describe("depth of field", () => {
  it.each([
    [85, 8, 2000],
    [135, 8, 2700],
    [50, 2.8, 1500],
    [200, 16, 1200],
  ])("[PH16] at both limits of %f mm f/%f at %f the blur of a point is the circle itself", (f, n, s) => {
    const { near_mm, far_mm } = depthOfField(f, n, CIRCLE, s);
    expect(blur(f, n, s, near_mm)).toBeCloseTo(CIRCLE, 10);
    expect(blur(f, n, s, far_mm)).toBeCloseTo(CIRCLE, 10);
  });

  it("[PH16] from the hyperfocal distance on everything behind is sharp, and from half of it in front", () => {
    const h = hyperfocalDistance(35, 8, CIRCLE);
    expect(depthOfField(35, 8, CIRCLE, h).far_mm).toBe(Number.POSITIVE_INFINITY);
    expect(depthOfField(35, 8, CIRCLE, h).near_mm).toBeCloseTo(h / 2, 9);
    expect(depthOfField(35, 8, CIRCLE, h * 0.999).far_mm).toBeGreaterThan(100 * h);
  });

  it("[PH16] a lens is not focused within its focal length", () => {
    expect(() => depthOfField(85, 8, CIRCLE, 85)).toThrow(QuantityError);
    expect(() => depthOfField(85, 8, CIRCLE, Number.NaN)).toThrow(QuantityError);
  });

  it("[PH16] half a field is seen at half the distance, both taken from the focal point", () => {
    expect(fieldSize(36, 85, 2000 + 85) / fieldSize(36, 85, 1000 + 85)).toBeCloseTo(2, 12);
  });
});
