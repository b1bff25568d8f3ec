import { expect, it } from "vitest";
import { placeToward } from "./moves-keys.ts";

/** Four on each side of an upright print, row by row; the lower ones not quite level. */
const BESIDE = [0, 1, 2, 3].flatMap((row) => [
  { x: 50, y: 180 * row },
  { x: 480, y: 180 * row + 12 },
]);
/** Four above a level print and four below. */
const ABOVE = [0, 500].flatMap((y) => [0, 1, 2, 3].map((i) => ({ x: 60 + 125 * i, y })));

it("[MV15] arrows lead along the sides and straight across the print", () => {
  expect(placeToward(BESIDE, 0, "ArrowDown")).toBe(2);
  expect(placeToward(BESIDE, 4, "ArrowRight")).toBe(5);
  expect(placeToward(BESIDE, 5, "ArrowLeft")).toBe(4);
  expect(placeToward(BESIDE, 7, "ArrowUp")).toBe(5);
  expect(placeToward(BESIDE, 0, "ArrowLeft")).toBeNull();
  expect(placeToward(BESIDE, 6, "ArrowDown")).toBeNull();
});

it("[MV15] arrows lead along the rows and from above the print to below it", () => {
  expect(placeToward(ABOVE, 0, "ArrowRight")).toBe(1);
  expect(placeToward(ABOVE, 2, "ArrowDown")).toBe(6);
  expect(placeToward(ABOVE, 6, "ArrowUp")).toBe(2);
  expect(placeToward(ABOVE, 3, "ArrowRight")).toBeNull();
});

it("[MV15] Home and End lead to the ends, other keys nowhere", () => {
  expect([placeToward(ABOVE, 3, "Home"), placeToward(ABOVE, 3, "End")]).toEqual([0, 7]);
  expect(placeToward(ABOVE, 3, "a")).toBeNull();
});
