import { expect, test } from "vitest";
import { checkPlan } from "../plan/index.ts";
import type { View } from "./bench.ts";
import { bridgeOf, mapsFor, references } from "./layer-height.ts";

const meter = (name: string, receptor: string) => ({
  name,
  position: [3, 3.8, 1.4],
  direction: { bearing: 180, tilt: 0 },
  receptor,
});
const checked = checkPlan({
  format: "tapemark/plan",
  version: 1,
  room: { width: 6, depth: 7, height: 3 },
  people: [{ name: "cellist", position: [3, 4] }],
  meters: [meter("chin", "flat"), meter("dome", "dome"), meter("paper", "spot")],
  camera: { position: [3, 1, 1.5], direction: { bearing: 0, tilt: 0 } },
});
if (!checked.ok) throw new Error(checked.problems[0]?.what);
const { plan } = checked;
const UNTOUCHED = {
  person: 0,
  showPower: true,
  showHold: false,
  showDirection: true,
  layerHeight_m: null,
  layerAcross_m: null,
  reference: null,
};
// of all that is on screen the maps ask for these alone
const seen = (change: Partial<View>) => ({ ...UNTOUCHED, ...change }) as View;

test("[AP30] the maps lie at the face's height and through the chosen person, until they are put elsewhere", () => {
  const asked = mapsFor(plan, seen({}));
  expect(asked.floor).toMatchObject({ plane: "floor", person: 0 });
  expect(asked.floor?.at).toBeCloseTo(bridgeOf(plan, 0)?.[2] ?? 0, 2);
  expect(asked.side).toMatchObject({ plane: "side", at: plan.people[0]?.position[0] });
  const moved = mapsFor(plan, seen({ layerHeight_m: 1, layerAcross_m: 2 }));
  expect([moved.floor?.at, moved.side?.at]).toEqual([1, 2]);
  expect(mapsFor(plan, seen({ showPower: false, showDirection: false }))).toEqual({
    floor: null,
    side: null,
  });
});

test("[AP31] stops are from the face or from a meter that reads where it stands; what is gone counts as the face", () => {
  expect(references(plan, seen({})).map(({ name }) => name)).toEqual([
    "the cellist's face",
    "the chin meter",
    "the dome meter",
  ]);
  const from = (reference: string | null) => mapsFor(plan, seen({ reference })).side?.reference;
  expect(from(null)).toEqual({ kind: "person", index: 0 });
  expect(from("meters[1]")).toEqual({ kind: "meter", index: 1 });
  // the third is a spot meter, there is no tenth
  expect(plan.meters[2]?.receptor).toBe("spot");
  expect(from("meters[2]")).toEqual({ kind: "person", index: 0 });
  expect(from("meters[9]")).toEqual({ kind: "person", index: 0 });
});
