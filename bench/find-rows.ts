/** The speed that a search of set-ups is held to: all parts one after the other in one thread, traced, holds left out. */
import {
  ANSWERED,
  type Candidate,
  chooseCandidates,
  runSearch,
  searchTasks,
  settleCandidate,
} from "../src/finder/index.ts";
import { checkPlan, type Plan } from "../src/plan/index.ts";
import { fullTrier, Memory } from "../src/reading/index.ts";
import { studio } from "./studio.ts";
import type { Row } from "./work.ts";

const READ = 5;

const octa = { name: "octa 120", face: { shape: "polygon", sides: 8, width: 1.2 } };
const strip = { name: "strip", face: { shape: "rectangle", width: 0.3, height: 1.2 } };
const head = (name: string, front: object) => ({ name, full: { wattSeconds: 400 }, fronts: [front] });
const want = {
  pattern: "loop",
  litSide: "left",
  ratioStops: { from: 1, to: 2 },
  fNumber: { from: 5.6, to: 8 },
  catchlight: { clock: 1.5 },
};

export function findRows(): Row[] {
  const one = asked({ want, gear: { lights: [head("key", octa)] } });
  const two = asked({ want, gear: { lights: [head("key", octa), head("fill", strip)] } });
  return [row("one light", one, 2000), row("two lights", two, 6000)];
}

/** The studio with its lights and panels put away. */
function asked(brief: object): Plan {
  const checked = checkPlan({ ...studio(), lights: [], panels: [], meters: [], brief });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

function row(name: string, plan: Plan, limit_ms: number): Row {
  const goOn = () => true;
  const search = () => {
    const found = searchTasks(plan).map((task) => runSearch(plan, task, goOn));
    const candidates = chooseCandidates(plan, found).slice(0, ANSWERED);
    const memory = new Memory();
    for (const candidate of candidates) settleCandidate(plan, candidate, memory, goOn);
    return { candidates, tried: found.reduce((sum, result) => sum + result.tried, 0) };
  };
  return {
    name: `a whole search, ${name}, the sitter known, one thread`,
    against: "as many set-ups, each traced coarsely",
    runs: 3,
    asked: limit_ms,
    once: (clock) => {
      let start = clock();
      const { candidates, tried } = search();
      const ours = clock() - start;
      const trier = fullTrier(0, "coarse", new Memory());
      trier.read((candidates[0] as Candidate).plan);
      start = clock();
      for (let k = 0; k < READ; k++) trier.read(moved(candidates[0] as Candidate, k));
      return { ours, other: ((clock() - start) * tried) / READ };
    },
  };
}

function moved({ plan }: Candidate, k: number): Plan {
  return {
    ...plan,
    lights: plan.lights.map((light) => {
      const [x, y, z] = light.position;
      return { ...light, position: [x + 0.01 * (k + 1), y, z] };
    }),
  };
}
