import { expect, test } from "vitest";
import type { Plan } from "../plan/index.ts";
import type { FrameComparison } from "../testframe/index.ts";
import { Comparisons, driftById } from "./shoot-compare.ts";
import { FACE, frameOf } from "./shoot-testing.ts";

const COMPARISON: FrameComparison = { summary: "as planned", lines: [], causes: [] };
const plan = { title: "one" } as Plan;

function byHand() {
  const asked: { name: string; resolve: (c: FrameComparison) => void; signal: AbortSignal }[] = [];
  const comparisons = new Comparisons({
    compare: (_plan, { photo }, options) =>
      new Promise((resolve) => {
        asked.push({ name: photo.image.name, resolve, signal: options?.signal as AbortSignal });
      }),
  });
  return { asked, comparisons };
}

test("[AP98] once for a plan, a frame, a face and a person; another plan asks anew", async () => {
  const { asked, comparisons } = byHand();
  const one = { plan, person: 0, frame: frameOf(1), face: 0 };
  comparisons.ask(one);
  comparisons.ask({ ...one });
  expect(asked).toHaveLength(1);
  asked[0]?.resolve(COMPARISON);
  await Promise.resolve();
  expect(comparisons.get(one)).toBe(COMPARISON);
  comparisons.ask(one);
  expect(asked).toHaveLength(1);
  const other = { ...one, plan: { title: "two" } as Plan };
  expect(comparisons.get(other)).toBeNull();
  comparisons.ask(other);
  comparisons.ask({ ...one, face: 1 });
  expect(asked).toHaveLength(3);
});

test("[AP98] what is no longer asked is let go, and its answer is not kept", async () => {
  const { asked, comparisons } = byHand();
  const one = { plan, person: 0, frame: frameOf(1), face: 0 };
  comparisons.ask(one);
  comparisons.ask({ ...one, frame: frameOf(2) });
  expect(asked.map(({ signal }) => signal.aborted)).toEqual([true, false]);
  asked[0]?.resolve(COMPARISON);
  await Promise.resolve();
  expect(comparisons.get(one)).toBeNull();
});

test("[AP94] drift is told against the run's first frame with a face", () => {
  const darker = { ...FACE, litCheekStops: 3 };
  const drift = driftById([frameOf(1, []), frameOf(2), frameOf(3, [darker])]);
  expect(drift.get("f2")?.flags).toEqual([]);
  expect(drift.get("f3")?.exposureStops).toBeCloseTo(-0.6, 10);
  expect(drift.get("f3")?.flags.join()).toContain("0.6 stop darker");
});
