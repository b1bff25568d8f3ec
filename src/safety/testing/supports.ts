import { checkPlan, type Plan, type Support } from "../../plan/index.ts";

export function planOf(fields: object): Plan {
  const checked = checkPlan({ format: "tapemark/plan", version: 1, ...fields });
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}

/** The worked stand of the published list, section 14. */
export const WORKED: Support = {
  name: "boom",
  legs: 3,
  footRadius: 0.55,
  mass: 4,
  bag: 0,
  load: 3,
  legUnderLoad: false,
  arm: { reach: 1.2, mass: 0, counterReach: 0.6, counterweight: 4.5, bearing: null },
  isWheeled: false,
};

export const KEY = {
  name: "key",
  position: [4.4, 3.6, 2.4],
  direction: { at: [3.5, 4.5, 1.55] },
  face: { shape: "rectangle", width: 0.3, height: 1.2 },
  output: { wattSeconds: 400, stopsDown: 1 },
};
export const ROOM = { width: 7, depth: 9, height: 3.4 };
export const CELLIST = { name: "cellist", position: [3.5, 4.6], stature: 1.72 };
export const CAMERA = { position: [3.5, 1.9, 1.5], direction: { at: [3.5, 4.6, 1.5] }, focalLength: 135 };
