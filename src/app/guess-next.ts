/** The next question: the same set-up with its light carried to another place round the sitter. */
import type { Edit, Plan, Vec3 } from "../plan/index.ts";
import { stagePerson } from "../staging/index.ts";
import { bridgeOf } from "./layer-height.ts";

/** Degrees round to own left and up, as the nose points: one of each pattern, and from both sides, so that each question
 * differs from the last. */
const PLACES: readonly (readonly [round: number, up: number])[] = [
  [-30, 30],
  [0, 45],
  [50, 40],
  [-55, 25],
  [20, 20],
  [-45, 45],
  [35, 55],
  [0, 25],
  [-20, 40],
  [85, 15],
];
const RADIANS = Math.PI / 180;
const centimetre = (value: number) => Math.round(value * 100) / 100;

/** The light that is carried: the first that is on. */
export function carriedLight(plan: Plan): number {
  return plan.lights.findIndex((light) => light.on);
}

/** Edits for question `from`, `from + 1` …, each as far from the face as the light stands now and aimed at it. Some may
 * not fit into the room. */
export function nextQuestions(plan: Plan, person: number, from: number): { edit: Edit; question: number }[] {
  const index = carriedLight(plan);
  const light = plan.lights[index];
  const who = plan.people[person];
  const bridge = bridgeOf(plan, person);
  if (light === undefined || who === undefined || bridge === null) return [];
  const { headRotation } = stagePerson(who, plan);
  const away = Math.hypot(...bridge.map((v, k) => (light.position[k] as number) - v));
  return PLACES.map((_, k) => {
    const question = from + k;
    const [round, up] = PLACES[question % PLACES.length] as (typeof PLACES)[number];
    const position = placeAt(bridge, headRotation, round, up, away);
    const direction = { at: bridge.map(centimetre) as Vec3 };
    const edit: Edit = {
      kind: "set",
      label: `next question: ${light.name} carried round`,
      fields: [
        { path: ["lights", index, "position"], value: position },
        { path: ["lights", index, "direction"], value: direction },
      ],
    };
    return { edit, question };
  });
}

/** A place by angles from where the nose points, to the centimetre. */
export function placeAt(
  bridge: Readonly<Vec3>,
  headRotation: Float64Array,
  round_deg: number,
  up_deg: number,
  away_m: number,
): Vec3 {
  const [a, e] = [round_deg * RADIANS, up_deg * RADIANS];
  const way = [Math.cos(e) * Math.cos(a), Math.cos(e) * Math.sin(a), Math.sin(e)];
  const along = (k: 0 | 1 | 2) =>
    centimetre(
      bridge[k] + away_m * way.reduce((sum, v, c) => sum + (headRotation[3 * k + c] as number) * v, 0),
    );
  return [along(0), along(1), along(2)];
}
