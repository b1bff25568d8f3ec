import { describe, expect, it } from "vitest";
import { largestCircle as largest } from "./hold-circle.ts";

const corners = (...at: [number, number][]) => at.map(([x, y]) => ({ x, y }));

const largestCircle = (outline: { x: number; y: number }[], mark = { x: 0, y: 0 }) => largest(outline, mark);

describe("the largest circle inside an outline", () => {
  it("[HZ8] touches all sides of a square, a triangle and a wheel, within a millimetre", () => {
    const square = largestCircle(corners([2, 1], [2.6, 1], [2.6, 1.6], [2, 1.6]));
    expect(square.radius_m).toBeCloseTo(0.3, 3);
    expect([square.x, square.y]).toEqual([expect.closeTo(2.3, 2), expect.closeTo(1.3, 2)]);
    // area over half of the way round: 3, 4, 5
    expect(largestCircle(corners([0, 0], [4, 0], [0, 3])).radius_m).toBeCloseTo(1, 3);
    const wheel = corners(
      ...Array.from({ length: 24 }, (_, k): [number, number] => [
        0.5 * Math.cos((k * Math.PI) / 12),
        0.5 * Math.sin((k * Math.PI) / 12),
      ]),
    );
    expect(largestCircle(wheel).radius_m).toBeCloseTo(0.5 * Math.cos(Math.PI / 24), 3);
  });

  it("[HZ8] lies in the wider part, off a narrow arm, and its middle need not be the mark", () => {
    // a leg 0.2 wide, and at its end a room 0.6 by 0.6
    const lamp = largestCircle(
      corners([0, 0], [0.2, 0], [0.2, 1], [0.4, 1], [0.4, 1.6], [-0.2, 1.6], [-0.2, 1], [0, 1]),
    );
    expect(lamp.radius_m).toBeCloseTo(0.3, 3);
    // a hair toward the opening, as far as it stays as large
    expect(lamp.y).toBeGreaterThan(1.2);
  });

  it("[HZ8] along a strip it lies by the mark", () => {
    const strip = largestCircle(corners([-1, -0.2], [1, -0.2], [1, 0.2], [-1, 0.2]), { x: 0.3, y: 0.1 });
    expect(strip).toEqual({
      x: expect.closeTo(0.3, 2),
      y: expect.closeTo(0, 2),
      radius_m: expect.closeTo(0.2, 2),
    });
  });

  it("[HZ8] is nothing where the outline is a point or a line", () => {
    expect(largestCircle(corners([1, 1], [1, 1], [1, 1])).radius_m).toBe(0);
    expect(largestCircle(corners([0, 0], [1, 0], [2, 0])).radius_m).toBe(0);
  });
});
