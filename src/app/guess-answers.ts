/** What is asked, what hides while it is asked, and what the right answer is. */
import type { Meter, Plan } from "../plan/index.ts";
import { stagePerson } from "../staging/index.ts";
import type { Results } from "./results.ts";

/** The results without anything that gives an answer away. What is still computed is there again at once. */
export function withoutAnswers(results: Results): Results {
  return { ...results, reading: null, readingOf: null, frame: null, floorMap: null, sideMap: null };
}

/** The meter whose f-number is asked for. */
export interface AskedMeter {
  readonly index: number;
  /** the plan with that meter: where it has none for light that arrives, a dome is held before the face */
  readonly plan: Plan;
  /** "the chin, a flat receptor" */
  readonly words: string;
}

/** How far before the tip of the nose the dome is held, metres: as near as a hand holds one. */
const BEFORE_NOSE = 0.04;

export function askedMeter(plan: Plan, person: number): AskedMeter {
  const index = plan.meters.findIndex((meter) => meter.receptor !== "spot");
  const meter = plan.meters[index];
  if (meter !== undefined) {
    const receptor = meter.receptor === "flat" ? "a flat receptor" : "a dome";
    return { index, plan, words: `at the ${meter.name}, ${receptor}` };
  }
  const who = plan.people[person];
  if (who === undefined) throw new Error("nobody to ask about");
  const { shape, headRotation: r, headOffset } = stagePerson(who, plan);
  const [x, y, z] = shape.head.landmarks.noseTip;
  const before = [x + BEFORE_NOSE, y, z];
  const along = (k: 0 | 1 | 2) =>
    before.reduce((sum, v, c) => sum + (r[3 * k + c] as number) * v, headOffset[k] as number);
  const dome: Meter = {
    name: "face",
    position: [along(0), along(1), along(2)],
    direction: { at: [...plan.camera.position] },
    receptor: "dome",
    pinned: false,
  };
  return {
    index: plan.meters.length,
    plan: { ...plan, meters: [...plan.meters, dome] },
    words: "at the face, a dome turned to the camera",
  };
}
