/** What is said of weights and watts, whatever the plan. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../src/plan/index.ts";
import { cautionsFor, safetyRows, sumWords } from "../src/safety/index.ts";
import { amount } from "./amount.ts";
import { planDocument } from "./plan-arbitrary.ts";

const SEED = 1414;
/** Names are the user's own, and may say anything. */
const NAME = "thing";

function named<Thing extends { name: string }>(things: readonly Thing[]): Thing[] {
  return things.map((thing, i) => ({ ...thing, name: `${NAME} ${i}` }));
}

const plan = planDocument.map((document): Plan => {
  const checked = checkPlan({ ...document, people: [] });
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  const { circuits, lights, panels } = checked.plan;
  const own = named(lights).map((light) => ({
    ...light,
    head: light.head && { ...light.head, circuit: null },
  }));
  return { ...checked.plan, circuits: named(circuits), lights: own, panels: named(panels) };
});

const LETS_PASS = /\b(safe|safely|ok|okay|fine|good|allowed|green|enough|sufficient|approved|secure)\b/i;

describe("[SF8] nothing lets a thing pass", () => {
  it(`rows and cautions of random plans, seed ${SEED}`, () => {
    let sums = 0;
    fc.assert(
      fc.property(plan, fc.constantFrom("metric" as const, "feet" as const), (each, units) => {
        const rows = safetyRows(each, units);
        const said = [
          ...rows.flatMap((row) => [row.heading, row.about, ...row.sums.map(sumWords), ...row.asks]),
          ...cautionsFor(each, [], units).map(({ text }) => text),
        ];
        for (const text of said) {
          expect(text).not.toMatch(LETS_PASS);
          expect(text).not.toMatch(/NaN|Infinity|undefined|null/);
        }
        sums += rows.flatMap((row) => row.sums).length;
        const unweighed = [...each.lights, ...each.panels].filter(({ support }) => support === null);
        expect(rows.some(({ heading }) => heading === "Not weighed")).toBe(unweighed.length > 0);
        expect(rows.filter(({ kind, owner }) => kind === "support" && owner !== null)).toHaveLength(
          each.lights.length + each.panels.length - unweighed.length,
        );
      }),
      { seed: SEED, numRuns: amount(600) },
    );
    expect(sums).toBeGreaterThan(100);
  });
});
