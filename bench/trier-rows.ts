/** What the small moves wait for: twelve variations of the demo plan, each read the fast way, all of them together. */
import { checkPlan, type Plan } from "../src/plan/index.ts";
import { Memory, quickTrier, readPlan, type Trier } from "../src/reading/index.ts";
import type { Row } from "./work.ts";

/** Milliseconds for all twelve, once the base is known. */
const ASKED = 300;
/** Whole readings take long: so many of the twelve stand for all. */
const WHOLE = 3;

export function trierRows(demoText: unknown): Row[] {
  const checked = checkPlan(demoText);
  if (!checked.ok) throw new Error(checked.problems[0].what);
  const base = checked.plan;
  const warm = new Memory();
  readPlan(base, "coarse", warm);
  let run = 0;
  const trier: Trier = quickTrier(base, 0, warm);
  trier.read(base);
  return [
    {
      name: "twelve moves of the demo, each a whole set-up the fast way",
      against: "the same in coarse readings",
      asked: ASKED,
      runs: 9,
      once: (c) => {
        // no two runs alike, so that nothing is remembered of the one before
        const moves = twelveMoves(base, 1 + 0.001 * ++run);
        const start = c();
        for (const plan of moves) trier.read(plan);
        const ours = c() - start;
        const whole = moves.filter((_, i) => i % (moves.length / WHOLE) === 0);
        const from = c();
        for (const plan of whole) readPlan(plan, "coarse", warm);
        return { ours, other: ((c() - from) * moves.length) / whole.length };
      },
    },
  ];
}

/** Of the first light, the first panel, the first person and the camera; `size` of each step, 1 as on set. */
function twelveMoves(base: Plan, size: number): Plan[] {
  const [x, y] = base.people[0].position;
  const round = (p: readonly number[], degrees: number) => {
    const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
    return [x + c * (p[0] - x) - s * (p[1] - y), y + s * (p[0] - x) + c * (p[1] - y), p[2]];
  };
  type Draft = {
    lights: { position: number[]; direction: { at: number[] }; output: { stopsDown: number } }[];
    people: { position: number[]; head: { turn: number; tip: number } }[];
    panels: { position: number[] }[];
    camera: { position: number[] };
  };
  const moves: readonly ((plan: Draft) => void)[] = [
    ({ camera }) => {
      camera.position = round(camera.position, 10 * size);
    },
    ({ camera }) => {
      camera.position = round(camera.position, -10 * size);
    },
    ({ lights: [key] }) => {
      key.position = round(key.position, 10 * size);
    },
    ({ lights: [key] }) => {
      key.position[2] += 0.15 * size;
    },
    ({ lights: [key] }) => {
      key.position = key.position.map((p, k) => p + 0.2 * size * ([x, y, p][k] - p));
    },
    ({ lights: [key] }) => {
      key.output.stopsDown += 0.5 * size;
    },
    ({ lights: [key] }) => {
      key.direction.at[0] += 0.3 * size;
    },
    ({ people: [who] }) => {
      who.head.turn += 10 * size;
    },
    ({ people: [who] }) => {
      who.head.tip += 5 * size;
    },
    ({ people: [who] }) => {
      who.position[1] -= 0.2 * size;
    },
    ({ people: [who] }) => {
      who.position[0] += 0.2 * size;
    },
    ({ panels: [panel] }) => {
      panel.position[0] += 0.15 * size;
    },
  ];
  return moves.map((move) => {
    const plan = structuredClone(base);
    move(plan as unknown as Draft);
    return plan;
  });
}
