import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, it } from "vitest";
import { checkPlan, parsePlan, serialisePlan } from "../src/plan/index.ts";
import { findFault } from "../src/plan/json-fault.ts";
import { amount } from "./amount.ts";
import { planDocument } from "./plan-arbitrary.ts";

const SEED = 20_260_131;
const runs = (whole: number) => ({ seed: SEED, numRuns: amount(whole) });
const demo = readFileSync("examples/cellist.json", "utf8");

/** Words of the checking library or the runtime: not for people who read plans. */
const NOT_FOR_PEOPLE = /invalid|expected|received|undefined|\[object|zod|error|\bat .*:\d+:\d+/i;

function checkTold(text: string) {
  const result = parsePlan(text);
  if (result.ok) return;
  expect(result.problems.length).toBeGreaterThan(0);
  expect(result.problems.length).toBeLessThanOrEqual(101);
  for (const { path, what } of result.problems) {
    expect(path).not.toBe("");
    // values from the file are quoted back; what is around them is ours
    expect(what.replace(/"(?:[^"\\]|\\.)*"/g, '""')).not.toMatch(NOT_FOR_PEOPLE);
    expect(`${path}${what}`).not.toMatch(/\n|\r/);
  }
}

it(`[PL16] a plan is the same after writing and reading back, to the byte (seed ${SEED})`, () => {
  fc.assert(
    fc.property(planDocument, (document) => {
      const parsed = checkPlan(document);
      if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
      const text = serialisePlan(parsed.plan);
      const back = parsePlan(text);
      expect(back).toEqual(parsed);
      if (back.ok) expect(serialisePlan(back.plan)).toBe(text);
    }),
    runs(5000),
  );
});

it(`[PL5] [PL8] letters changed, put in or taken out never throw, and are told for people (seed ${SEED})`, () => {
  const change = fc.record({
    at: fc.nat(demo.length - 1),
    cut: fc.integer({ min: 0, max: 12 }),
    put: fc.oneof(
      fc.constantFrom(..."{}[],:\"\\-0.9e \n\t'#/é\u0000", "null", "1e999", '"__proto__":', "//"),
      fc.string(),
    ),
  });
  fc.assert(
    fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), (changes) => {
      let text = demo;
      for (const { at, cut, put } of changes) text = text.slice(0, at) + put + text.slice(at + cut);
      let isJson = true;
      try {
        JSON.parse(text);
      } catch {
        isJson = false;
      }
      expect(findFault(text) === null).toBe(isJson);
      checkTold(text);
    }),
    runs(50_000),
  );
});

it(`[PL2] values put in anywhere never throw, and are told for people (seed ${SEED})`, () => {
  fc.assert(
    fc.property(
      planDocument,
      fc.array(fc.tuple(fc.nat(), fc.jsonValue({ maxDepth: 3 })), { minLength: 1, maxLength: 5 }),
      (document, puts) => {
        const changed = structuredClone(document);
        for (const [where, value] of puts) {
          const places = placesIn(changed);
          const [holder, key] = places[where % places.length];
          // a copy: the same value put in twice must not come to hold itself
          (holder as Record<string, unknown>)[key] = structuredClone(value);
        }
        checkTold(JSON.stringify(changed));
      },
    ),
    runs(20_000),
  );
});

/** Every place in a document where a value stands. */
function placesIn(value: unknown): [object, string][] {
  if (typeof value !== "object" || value === null) return [];
  return Object.keys(value).flatMap((key) => [
    [value, key] as [object, string],
    ...placesIn((value as Record<string, unknown>)[key]),
  ]);
}

it(`[PL7] any value at all is checked without failing (seed ${SEED})`, () => {
  const anything = fc.anything({ withBigInt: true, withDate: true, withMap: true, withNullPrototype: true });
  fc.assert(
    fc.property(planDocument, fc.string(), anything, (document, key, value) => {
      expect(() => checkPlan(value)).not.toThrow();
      expect(() => checkPlan({ ...document, [key]: value, camera: value })).not.toThrow();
    }),
    runs(10_000),
  );
});
