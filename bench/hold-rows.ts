/** The hold zone of the demo, beside the same places read by whole coarse readings. */
import { holdZone } from "../src/finder/index.ts";
import { checkPlan } from "../src/plan/index.ts";
import { Memory, readPlan } from "../src/reading/index.ts";
import type { Row } from "./work.ts";

/** Readings of the face that a zone of the demo takes: counted. */
const PLACES = 240;
const READ = 3;

export function holdZoneRows(demoText: unknown): Row[] {
  const checked = checkPlan(demoText);
  if (!checked.ok) throw new Error(checked.problems[0].what);
  const demo = checked.plan;
  const warm = new Memory();
  readPlan(demo, "coarse", warm);
  holdZone(demo, 0, warm, () => true);
  let step = 0;
  const drifted = () => {
    const plan = structuredClone(demo);
    plan.people[0].position[0] += 0.01 * ++step;
    return plan;
  };
  return [
    {
      name: "hold zone of the demo, its light known",
      against: `${PLACES} places by coarse readings`,
      asked: 1000,
      runs: 3,
      once: (c) => {
        const start = c();
        holdZone(demo, 0, warm, () => true);
        const middle = c();
        for (let k = 0; k < READ; k++) readPlan(drifted(), "coarse", warm);
        return { ours: middle - start, other: ((c() - middle) * PLACES) / READ };
      },
    },
  ];
}
