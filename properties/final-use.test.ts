/** Whatever plan there is: what is told of its final use is in numbers that mean something, and in words. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { apparentPart, finalUse, notesOf, smearWords, useFacts, useTitle } from "../src/deliver/index.ts";
import { checkPlan } from "../src/plan/index.ts";
import { amount } from "./amount.ts";
import { planDocument } from "./plan-arbitrary.ts";
import { number } from "./plan-parts.ts";

const SEED = 1309;
const RUNS = amount(200);
const print = fc.record({ width: number(0.01, 20), height: number(0.01, 20), asksPpi: number(1, 2000) });

it(`[US7] no plan gives a number that is none, nor a word for it (seed ${SEED})`, () => {
  let told = 0;
  fc.assert(
    fc.property(planDocument, print, number(0.1, 20), (document, settled, sits) => {
      const checked = checkPlan({ ...document, print: { ...settled, ...(document.print ?? {}) } });
      if (!checked.ok) return;
      const use = finalUse(checked.plan, 0);
      if (use === null) throw new Error("the plan has a print");
      told++;
      expect(use.away_m).toBeGreaterThan(0);
      for (const smear of use.smears) {
        for (const value of [smear.mm, smear.sensor_mm, smear.timesEye, smear.unseenFrom_m]) {
          expect(value).toBeGreaterThanOrEqual(0);
          expect(value).toBeLessThan(Infinity);
        }
        // what is seen from where people stand is seen from nearer than where it ends
        expect(smear.timesEye > 1).toBe(smear.unseenFrom_m > use.away_m);
      }
      const { bottom, left, right, top } = apparentPart(
        use,
        { pxPerMm: 4, density: 1, away_m: sits },
        [0.5, 0.5],
        { width: 400, height: 300 },
      ).region;
      expect(right - left).toBeGreaterThan(0);
      expect(bottom - top).toBeGreaterThan(0);
      expect(left).toBeGreaterThanOrEqual(use.used.left - 1e-9);
      expect(right).toBeLessThanOrEqual(use.used.right + 1e-9);
      const words = (["metric", "feet"] as const).flatMap((units) => [
        useTitle(use, units),
        ...useFacts(use, units).flatMap(({ rest, strong }) => [strong, rest]),
        ...notesOf(use, units),
        ...use.smears.flatMap((smear) => Object.values(smearWords(use, smear, units)).map(String)),
      ]);
      expect(words.join("\n")).not.toMatch(/NaN|Infinity|undefined|no length|no time/);
    }),
    { numRuns: RUNS, seed: SEED },
  );
  expect(told).toBeGreaterThan(RUNS / 4);
});
