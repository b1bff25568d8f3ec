import { describe, expect, it } from "vitest";
import { angleBetween, cross, dot, lengthOf, Pcg32, subtract, writeCross, writeUnit } from "./index.ts";

const rng = new Pcg32(11);
const draw = (): [number, number, number] => [rng.next() - 0.5, rng.next() - 0.5, rng.next() - 0.5];

describe("[MA1] vectors", () => {
  it("axes follow the right hand", () => {
    expect(cross([1, 0, 0], [0, 1, 0])).toEqual([0, 0, 1]);
    expect(cross([0, 1, 0], [0, 0, 1])).toEqual([1, 0, 0]);
  });
  it("a cross product stands upright on both, as long as their parallelogram is large", () => {
    for (let i = 0; i < 100; i++) {
      const [a, b] = [draw(), draw()];
      const c = cross(a, b);
      expect(Math.abs(dot(a, c)) + Math.abs(dot(b, c))).toBeLessThan(1e-15);
      expect(lengthOf(c) ** 2).toBeCloseTo(dot(a, a) * dot(b, b) - dot(a, b) ** 2, 14);
    }
  });
  it("may write over what it reads", () => {
    const [a, b] = [draw(), draw()];
    const expected = [...cross(a, b)];
    const first: [number, number, number] = [...a];
    writeCross(first, first, b);
    expect(first).toEqual(expected);
    const second: [number, number, number] = [...b];
    writeCross(second, a, second);
    expect(second).toEqual(expected);
  });
  it("a unit vector has its length returned; no length stays no length", () => {
    const v: [number, number, number] = [3, 0, 4];
    expect(writeUnit(v, v)).toBe(5);
    expect(v).toEqual([0.6000000000000001, 0, 0.8]);
    const none: [number, number, number] = [0, 0, 0];
    expect(writeUnit(none, none)).toBe(0);
    expect(none).toEqual([0, 0, 0]);
  });
  it("subtracts", () => expect(subtract([3, 2, 1], [1, 1, 1])).toEqual([2, 1, 0]));
  it("angles keep their digits where an arc cosine has lost them", () => {
    expect(angleBetween([1, 0, 0], [0, 2, 0])).toBeCloseTo(Math.PI / 2, 15);
    expect(angleBetween([1, 0, 0], [1, 1e-10, 0]) / 1e-10).toBeCloseTo(1, 12);
    expect(angleBetween([1, 0, 0], [-3, 0, 0])).toBeCloseTo(Math.PI, 15);
    expect(angleBetween([0, 0, 0], [1, 0, 0])).toBe(0);
  });
});
