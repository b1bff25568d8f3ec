/** The work that users wait for, on fixed scenes. Each row is timed beside the one it is measured against. */
import { buildBvh, found, nearestByBruteForce, Walker } from "../src/engine/index.ts";
import { buildHead } from "../src/figure/index.ts";
import { checkPlan, type Plan } from "../src/plan/index.ts";
import {
  computeMap,
  GLANCE_WIDTH,
  glanceFrame,
  Memory,
  readPlan,
  renderFrame,
} from "../src/reading/index.ts";

export interface Times {
  readonly ours: number;
  readonly other: number;
}

export interface Row {
  readonly name: string;
  readonly against: string;
  /** one run of each, milliseconds by the clock given */
  readonly once: (clock: () => number) => Times | Promise<Times>;
  readonly runs: number;
  /** milliseconds that the work may take */
  readonly asked?: number;
  /** that what it is measured against may take, where it is a part of it */
  readonly askedOther?: number;
}

export function rows(demoText: unknown): Row[] {
  const checked = checkPlan(demoText);
  if (!checked.ok) throw new Error(checked.problems[0].what);
  const demo = checked.plan;
  const warm = new Memory();
  readPlan(demo, "coarse", warm);
  readPlan(demo, "fine", warm);
  let step = 0;
  const moved = (): Plan => {
    const plan = structuredClone(demo);
    plan.lights[0].position[0] += 0.001 * ++step;
    return plan;
  };
  const brighter = (): Plan => {
    const plan = structuredClone(demo);
    Object.assign(plan.lights[0].output, { stopsDown: 2 + 0.001 * ++step });
    return plan;
  };
  const timed = (clock: () => number, work: () => unknown): number => {
    const start = clock();
    work();
    return clock() - start;
  };
  const cold = (clock: () => number) => timed(clock, () => readPlan(demo, "fine", new Memory()));
  const dragged = new Memory();
  const picture = { width: GLANCE_WIDTH };
  const glance = (plan: Plan) => [readPlan(plan, "glance", dragged), glanceFrame(plan, picture, dragged)];
  const coarse = (plan: Plan) => [
    readPlan(plan, "coarse", warm),
    renderFrame(plan, { ...picture, quality: "coarse" }, warm),
  ];
  glance(demo);
  coarse(demo);
  return [
    {
      name: "reading and picture 60 wide at a glance, key moved",
      against: "the same, coarse",
      runs: 21,
      asked: 16,
      once: (c) => {
        const plan = moved();
        return { ours: timed(c, () => glance(plan)), other: timed(c, () => coarse(plan)) };
      },
    },
    {
      name: "coarse reading, key moved",
      against: "fine reading from nothing",
      runs: 5,
      once: (c) => ({ ours: timed(c, () => readPlan(moved(), "coarse", warm)), other: cold(c) }),
    },
    {
      name: "fine reading, power changed",
      against: "fine reading from nothing",
      runs: 5,
      once: (c) => ({ ours: timed(c, () => readPlan(brighter(), "fine", warm)), other: cold(c) }),
    },
    {
      name: "coarse frame 96 wide, key moved",
      against: "fine frame 480 wide",
      runs: 2,
      once: (c) => ({
        ours: timed(c, () => renderFrame(moved(), { width: 96, quality: "coarse" }, warm)),
        other: timed(c, () => renderFrame(moved(), { width: 480, quality: "fine" }, warm)),
      }),
    },
    {
      name: "coarse map, key moved",
      against: "fine map, key moved",
      runs: 5,
      once: (c) => {
        const map = (quality: "coarse" | "fine") => () =>
          computeMap(
            moved(),
            { plane: "floor", at: 1.5, person: 0, reference: { kind: "person", index: 0 }, quality },
            warm,
          );
        return { ours: timed(c, map("coarse")), other: timed(c, map("fine")) };
      },
    },
    rays(timed),
  ];
}

/** A thousand rays at the head through the hierarchy, ten of them by brute force (times a hundred). */
function rays(timed: (clock: () => number, work: () => unknown) => number): Row {
  const { positions, triangles } = buildHead().mesh;
  const walker = new Walker(buildBvh(positions, triangles));
  const ray = (k: number) => {
    const a = 2.399963 * k;
    const o = [Math.cos(a), Math.sin(a), 0.5 * Math.cos(0.7 * k)];
    const length = Math.hypot(...o);
    return { o, d: o.map((x) => -x / length) };
  };
  return {
    name: "1,000 rays at the head, hierarchy",
    against: "the same by brute force",
    runs: 5,
    once: (c) => ({
      ours: timed(c, () => {
        for (let k = 0; k < 1000; k++) {
          const { o, d } = ray(k);
          walker.closest(o[0], o[1], o[2], d[0], d[1], d[2], 10);
        }
        return found.t;
      }),
      other:
        100 *
        timed(c, () => {
          for (let k = 0; k < 10; k++) nearestByBruteForce(positions, triangles, ray(k).o, ray(k).d);
        }),
    }),
  };
}
