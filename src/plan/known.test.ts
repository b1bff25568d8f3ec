import { expect, it } from "vitest";
import { knownFields, nearestWord } from "./known.ts";
import { plan } from "./schema.ts";

it("[PL2] the fields that are known at a place, of every form", () => {
  expect(knownFields(plan, ["lights", 3, "direction"])).toEqual(["bearing", "tilt", "at"]);
  expect(knownFields(plan, ["room", "reflectance"])).toContain("ceiling");
  expect(knownFields(plan, ["title"])).toEqual([]);
  expect(knownFields(plan, ["nowhere", "at", 1])).toEqual([]);
});

it("[PL2] a mistyped word is taken for the nearest one, and for none where none is near", () => {
  expect(nearestWord("rolls", ["roll", "bolts"])).toBe("roll");
  expect(nearestWord("FNUMBER", ["iso", "fNumber"])).toBe("fNumber");
  expect(nearestWord("beem", ["beam"])).toBe("beam");
  expect(nearestWord("zz", ["on", "iso"])).toBeNull();
  expect(nearestWord("x".repeat(1000), ["on"])).toBeNull();
});
