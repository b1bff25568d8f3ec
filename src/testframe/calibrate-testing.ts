/** Plans with readings whose truth is known. */
import { METER_CONSTANT } from "../photometry/index.ts";
import { checkPlan, type Plan, placeOf } from "../plan/index.ts";
import { gauge, Memory } from "../reading/index.ts";

export const FACE = [3, 4.02, 1.5];
export const base = (readings: object[], more: object = {}) => ({
  format: "tapemark/plan",
  version: 1,
  room: { width: 6, depth: 7, height: 3 },
  lights: [
    {
      name: "key",
      position: [1.4, 2.6, 2.2],
      direction: { at: FACE },
      face: { shape: "polygon", sides: 8, width: 1.2 },
      output: { wattSeconds: 400, stopsDown: 2 },
    },
    {
      name: "fill",
      position: [4.8, 2.2, 1.7],
      direction: { at: FACE },
      face: { shape: "disc", width: 0.6 },
      output: { wattSeconds: 250, stopsDown: 4 },
    },
  ],
  people: [{ name: "cellist", position: [3, 4.2] }],
  camera: { position: [3, 1.2, 1.5], direction: { at: FACE } },
  readings,
  ...more,
});

export function planOf(document: object): Plan {
  const checked = checkPlan(document);
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}

/** Round the face, toward the light that is read. */
export const PLACES = [
  [3, 4.02, 1.5],
  [2.9, 4.05, 1.55],
  [3.1, 4.05, 1.45],
  [3, 3.9, 1.3],
];
export const KEY = [1.4, 2.6, 2.2];
export const FILL = [4.8, 2.2, 1.7];
export const reading = (light: string, position: number[], at: number[], receptor = "flat") => ({
  light,
  position,
  direction: { at },
  receptor,
  fNumber: 8,
});
/** Four of each light alone, two of both: one toward the camera, one from behind the head. */
export const TEN = [
  ...PLACES.map((place) => reading("key", place, KEY)),
  ...PLACES.map((place) => reading("fill", place, FILL)),
  reading("all", PLACES[0], [3, 1.2, 1.5], "dome"),
  reading("all", [3, 4.6, 1.5], [3, 7, 1.6]),
];

/** What the readings of a plan would be if this were the truth, log2 of lx.s. */
export function trulyRead(plan: Plan, truth: Plan): number[] {
  const meters = plan.readings.map((r, i) => ({ name: `m ${i}`, ...placeOf(plan, r), pinned: false }));
  const read = gauge({ ...truth, meters }, [], "fine", new Memory());
  return plan.readings.map(({ light }, i) => {
    const shares = Object.entries(read.meters[i].byLight).filter(
      ([name]) => light === "all" || name === light,
    );
    return Math.log2(shares.reduce((sum, [, s]) => sum + s.direct + s.bounced, 0));
  });
}

/** The plan with what its readings would be in truth. */
export function readIn(truth: object, readings: object[] = TEN, more: object = {}): Plan {
  const asked = planOf(base(readings, more));
  const stops = trulyRead(asked, planOf(base(readings, truth)));
  return planOf(
    base(
      readings.map((r, i) => {
        const { receptor } = placeOf(asked, asked.readings[i]);
        const constant = METER_CONSTANT[receptor === "dome" ? "dome" : "flat"];
        return { ...r, fNumber: Math.sqrt((2 ** stops[i] * 100) / constant) };
      }),
      more,
    ),
  );
}

export const stronger = (...stops: number[]) => ({
  lights: base([]).lights.map((l, i) => ({ ...l, calibration: { stops: stops[i], uncertaintyStops: 1 } })),
});
export const OPTIONS = { quality: "coarse" } as const;
