import { describe, expect, it } from "vitest";
import { nearestSo, nearestToWish } from "./remedy-amount.ts";

/** Counts what is asked, so that a search that tries everything is seen. */
function counted<T>(answer: (parts: number) => T) {
  const asked: number[] = [];
  return {
    asked,
    at: (parts: number) => {
      asked.push(parts);
      return answer(parts);
    },
  };
}

describe("how much is needed", () => {
  it("[MV34] the whole part nearest to the wish, to the side that leads there", () => {
    for (const wish of [-97, -31, -3, 2, 14, 15, 63, 100]) {
      const { at, asked } = counted((parts: number) => (parts - wish - 0.3) / 20);
      expect(nearestToWish(at, (-wish - 0.3) / 20, 20, 100)).toBe(wish);
      expect(asked.length).toBeLessThan(20);
    }
  });

  it("[MV34] where the law is curved it is still the nearest part", () => {
    // nearer by whole centimetres from 1.7 m: a stop takes 1.7 (1 − 1/√2) m
    const gain = (parts: number) => 2 * Math.log2(1.7 / (1.7 - parts / 100));
    for (const stops of [0.1, 0.5, 1, 2]) {
      const found = nearestToWish((parts) => gain(parts) - stops, -stops, 20, 150);
      expect(found).toBe(Math.round(170 * (1 - 2 ** (-stops / 2))));
    }
  });

  it("[MV34] what is blocked is gone up to, and no farther", () => {
    const blockedFrom = (limit: number, wish: number) =>
      nearestToWish((parts) => (parts >= limit ? null : (parts - wish) / 20), -wish / 20, 20, 100);
    expect(blockedFrom(30, 28)).toBe(28);
    expect(blockedFrom(7, 5)).toBe(5);
    // the wish lies behind the wall: the last part before it is offered, and left to be refused as too little
    expect(blockedFrom(30, 60)).toBe(29);
  });

  it("[MV34] nothing where neither way leads there, or it turns back before", () => {
    expect(nearestToWish(() => -0.5, -0.5, 10, 100)).toBeNull();
    expect(nearestToWish(() => null, -0.5, 10, 100)).toBeNull();
    const turning = (parts: number) => -1 + 0.4 * Math.exp(-(((parts - 20) / 10) ** 2));
    const found = nearestToWish(turning, turning(0), 10, 100);
    expect(found === null || Math.abs(turning(found)) > 0.1).toBe(true);
  });

  it("[MV34] a yes or no: the smallest part of either sign at which it is so", () => {
    for (const border of [1, 3, 4, 5, 17, 40]) {
      const { at, asked } = counted((parts: number) => parts >= border);
      expect(nearestSo(at, 4, 40)).toBe(border);
      expect(asked.length).toBeLessThan(2 * (40 / 4) + 4);
      expect(nearestSo((parts) => parts <= -border, 4, 40)).toBe(-border);
    }
    expect(nearestSo((parts) => parts <= -6 || parts >= 9, 4, 40)).toBe(-6);
    expect(nearestSo(() => false, 4, 40)).toBeNull();
    expect(nearestSo((parts) => (parts > 10 ? null : parts > 30), 4, 40)).toBeNull();
  });
});
