/** What is said to differ between two plans: something where they differ, nothing where they do not, and the opposite the
 * other way round. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyEdit, checkPlan, type Plan } from "../src/plan/index.ts";
import { type PlanChange, planChanges } from "../src/shoots/index.ts";
import { amount } from "./amount.ts";
import { anyEdit, planDocument } from "./plan-arbitrary.ts";

/** Who may sit: bodies take long to make, so that there are few of them. */
const LOOKS = [
  { stature: 1.7, headSize: 50, hair: { length: "none" }, glasses: null, pose: "standing" },
  { stature: 1.64, headSize: 50, hair: { length: "none" }, glasses: null, pose: "seated", eyeHeight: 1.21 },
  { stature: 1.641, headSize: 20.5, hair: { length: "none" }, glasses: { tilt: 9 }, pose: "standing" },
  {
    stature: 1.8,
    headSize: 50,
    hair: { length: "short", reflectance: 0.2 },
    glasses: null,
    pose: "standing",
  },
] as const;

const plan = planDocument.map((document): Plan => {
  const people = (document.people ?? []) as readonly { readonly stature?: number }[];
  const looking = people.map((person) => ({
    ...person,
    ...LOOKS[Math.floor(1e4 * (person.stature ?? 0)) % LOOKS.length],
  }));
  const checked = checkPlan({ ...document, people: looking });
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
});

/** A plan, and what somebody made of it in a few steps. */
const edited = fc.tuple(plan, fc.array(anyEdit, { minLength: 1, maxLength: 6 })).map(([before, edits]) => {
  const after = edits.reduce((now, edit) => {
    const outcome = applyEdit(now, edit);
    return outcome.ok ? outcome.plan : now;
  }, before);
  return [before, after] as const;
});
const two = fc.oneof(fc.tuple(plan, plan), edited);
const units = fc.constantFrom("metric" as const, "feet" as const);

const isEqual = (a: unknown, b: unknown) => JSON.stringify(sorted(a)) === JSON.stringify(sorted(b));
function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, own]) => [key, sorted(own)]),
  );
}

/** Words that stand for each other's opposite. */
const OPPOSITES = [
  ["farther", "nearer"],
  ["further round", "less far round"],
  ["steeper", "flatter"],
  ["higher", "lower"],
  ["to the right", "to the left"],
  ["into the set", "to the camera side"],
  ["toward own left", "toward own right"],
  ["to own left", "to own right"],
  ["up", "down"],
  ["clockwise", "anticlockwise"],
  ["from nothing", "to nothing"],
  ["switched on", "switched off"],
  ["larger", "smaller"],
  ["wider open", "smaller"],
  ["wider", "narrower"],
  ["wider", "tighter"],
  ["longer", "shorter"],
  ["deeper", "shallower"],
  ["taller", "shorter"],
  ["lighter", "darker"],
  ["brighter", "darker"],
  ["brighter at the rim", "darker at the rim"],
  ["warmer", "cooler"],
  ["rougher", "smoother"],
  ["more", "less"],
  ["put on", "taken off"],
  ["added", "taken away"],
  ["walls given", "walls taken away"],
  ["listed", "list taken away"],
  ["measured", "forgotten"],
  ["measured", "no longer measured"],
  ["held in its place", "let go"],
  ["sits", "stands"],
  ["follows from now on", "stays from now on"],
  ["counted again", "no longer counted"],
  ["let in", "shut out"],
  ["settled", "open again"],
  ["asked for", "no longer asked for"],
] as const;

/** Whether each amount is the same and each word its own or its opposite. */
function areOpposite(one: string, other: string): boolean {
  const parts = [one.split(", "), other.split(", ")] as const;
  if (parts[0].length !== parts[1].length) return false;
  const has = (words: string, of: string) => words === of || words.endsWith(` ${of}`);
  const isPair = (a: string, b: string): boolean =>
    a === b ||
    OPPOSITES.some(([more, less]) =>
      [
        [more, less],
        [less, more],
      ].some(([x = "", y = ""]) => has(a, x) && has(b, y) && a.slice(0, -x.length) === b.slice(0, -y.length)),
    );
  const rest = [...parts[1]];
  return parts[0].every((part) => {
    const index = rest.findIndex((own) => isPair(part, own));
    if (index >= 0) rest.splice(index, 1);
    return index >= 0;
  });
}

/** All but whose it is: a thing that was renamed is told under the name that it has afterwards. */
const key = ({ which, before, after }: Omit<PlanChange, "what">) => JSON.stringify([which, before, after]);

describe("what differs between plans, seed 81", () => {
  it("[SO1] two plans that differ give at least one change, the same plan none", () => {
    fc.assert(
      fc.property(two, units, ([before, after], tape) => {
        expect(planChanges(before, after, tape).length > 0).toBe(!isEqual(before, after));
        expect(planChanges(before, structuredClone(before), tape)).toEqual([]);
      }),
      { numRuns: amount(600), seed: 81 },
    );
  });

  it("[SO2] the other way round every change is its opposite", () => {
    fc.assert(
      fc.property(two, units, ([before, after], tape) => {
        const there = planChanges(before, after, tape);
        const back = planChanges(after, before, tape);
        const mirror = new Map<string, PlanChange[]>();
        for (const each of back) {
          const own = key({ ...each, before: each.after, after: each.before });
          mirror.set(own, [...(mirror.get(own) ?? []), each]);
        }
        for (const change of there) {
          const candidates = mirror.get(key(change)) ?? [];
          const index = candidates.findIndex((other) => areOpposite(change.change, other.change));
          expect(index, JSON.stringify({ change, candidates })).toBeGreaterThanOrEqual(0);
          candidates.splice(index, 1);
        }
        expect(back.length).toBe(there.length);
      }),
      { numRuns: amount(600), seed: 82 },
    );
  });

  it("[SO3] every change says what, which and how, and no number in it is no number", () => {
    fc.assert(
      fc.property(two, units, ([before, after], tape) => {
        for (const change of planChanges(before, after, tape)) {
          expect(change.what).not.toBe("");
          expect(change.which).not.toBe("");
          expect(change.change).not.toBe("");
          expect(`${change.before} ${change.after} ${change.change}`).not.toMatch(
            /NaN|undefined|Infinity|\[object/,
          );
        }
      }),
      { numRuns: amount(300), seed: 83 },
    );
  });
});
