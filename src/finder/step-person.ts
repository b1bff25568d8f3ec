/** The sitter by an amount: a step, a turn of the body, the head. Somebody who is pinned stays on the mark and may still
 * move the head. */
import { bearingVector, type FieldPath, type Head, type Plan, turnedBearing } from "../plan/index.ts";
import { standingRoom } from "./obstacles.ts";
import { type Made, made, put, refused } from "./step-made.ts";

/** As far as a head is turned, tipped and tilted for a picture (common practice, no source). */
const NECK = {
  turn: { most_deg: 80, why: "the neck turns no further" },
  tip: { most_deg: 40, why: "the neck bends no further" },
  tilt: { most_deg: 40, why: "the neck bends no further" },
} as const;

export type NeckAxis = keyof typeof NECK & keyof Head;

/** + to the own left, chin up, toward the own left shoulder. */
export function headBy(plan: Plan, person: number, axis: NeckAxis, by_deg: number, label: string): Made {
  const to = plan.people[person].head[axis] + by_deg;
  if (Math.abs(to) > NECK[axis].most_deg) return refused(NECK[axis].why);
  return made(plan, put(label, ["people", person, "head"], { [axis]: to }));
}

/** The whole body, head and all, to the own left; clockwise as seen from above is to the own right. */
export function bodyTurnedBy(plan: Plan, person: number, left_deg: number, label: string): Made {
  const { facing, pinned, name } = plan.people[person];
  if (pinned) return refused(`${name} is pinned`);
  return made(plan, put(label, ["people", person], { facing: turnedBearing(facing, -left_deg) }));
}

/** Meters this near to a person's middle go with the person, as they do in the hand: metres. */
const HELD_WITHIN_M = 0.5;

/** Forward as the body faces and to its own left; what measures the face goes along. */
export function steppedBy(
  plan: Plan,
  person: number,
  by: { readonly ahead_m: number; readonly left_m: number },
  label: string,
): Made {
  const [fx, fy] = bearingVector(plan.people[person].facing, 0);
  // the own left lies a right angle anticlockwise of where the body faces
  const [dx, dy] = [by.ahead_m * fx - by.left_m * fy, by.ahead_m * fy + by.left_m * fx];
  return shiftedBy(plan, person, dx, dy, label);
}

/** Along the floor of the room. */
export function shiftedBy(plan: Plan, person: number, dx_m: number, dy_m: number, label: string): Made {
  const { position, pinned, name } = plan.people[person];
  if (pinned) return refused(`${name} is pinned`);
  const [x, y] = [position[0] + dx_m, position[1] + dy_m];
  const why = standingRoom(plan, person, x, y);
  if (why !== null) return refused(why);
  const fields: { path: FieldPath; value: unknown }[] = [
    { path: ["people", person, "position"], value: [x, y] },
  ];
  plan.meters.forEach(({ position: [mx, my, mz] }, i) => {
    if (Math.hypot(mx - position[0], my - position[1]) > HELD_WITHIN_M) return;
    fields.push({ path: ["meters", i, "position"], value: [mx + dx_m, my + dy_m, mz] });
  });
  return made(plan, { kind: "set", label, fields });
}
