/** Taking a found set-up, and whether an answer is still one to what is asked. */
import type { SetUp } from "../finder/index.ts";
import { applyEdit, type Edit, type Plan } from "../plan/index.ts";

/** What a search goes by and no set-up changes. */
function askedOf({ ambient, backdrop, brief, people, room }: Plan): string {
  const looks = people.map(({ clothing, glasses, hair, headSize, name, skin, stature }) => [
    { clothing, glasses, hair, headSize, name, skin, stature },
  ]);
  return JSON.stringify([ambient, backdrop, brief, looks, room]);
}

/** Whether an answer to `asked` answers `now`. A set-up that was taken since is no new question. */
export function isSameQuestion(asked: Plan, now: Plan): boolean {
  return askedOf(asked) === askedOf(now);
}

const TAKEN = ["lights", "panels", "people", "camera", "meters", "photometry"] as const;

/** Puts a set-up in the plan's place, as one step. Title, marks on the floor, room, the finished size and the brief that
 * was asked stay. */
export function takeEdit(asked: Plan, setUp: SetUp): Edit {
  return {
    kind: "set",
    label: `set-up: ${setUp.title}`,
    fields: [...fieldsOf(setUp), { path: ["brief"], value: asked.brief }],
  };
}

function fieldsOf({ plan }: SetUp) {
  return TAKEN.filter((key) => plan[key] !== undefined).map((key) => ({ path: [key], value: plan[key] }));
}

/** Whether a set-up stands in the plan as it was found. */
export function isTaken(plan: Plan, setUp: SetUp): boolean {
  const again = applyEdit(plan, { kind: "set", label: setUp.title, fields: fieldsOf(setUp) });
  return again.ok && again.plan === plan;
}
