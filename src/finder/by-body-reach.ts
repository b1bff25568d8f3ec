/** How the sitter finds a distance again with their own body: by an arm from the mark, or by soles along the floor. No light
 * is asked. */
import { armLength } from "../figure/index.ts";
import type { Person, Plan, Vec3 } from "../plan/index.ts";
import { type StagedPerson, stagePerson } from "../staging/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";
import { onArm, shouldersOf, type Way } from "./by-body-arm.ts";
import { onFloor } from "./by-body-floor.ts";
import { plumbOf, type Target, targetsOf, touchesOf } from "./by-body-target.ts";

export interface BodyReach {
  /** path of what stands there: "lights[0]" */
  readonly owner: string;
  /** whose body it is: the one whose mark is nearest */
  readonly person: number;
  /** "left arm raised: fingertips just touch the near rim"; among several people with the name before it; where the body
   * cannot reach it says so */
  readonly text: string;
  /** how far off the mark people of that stature end by it, along the floor, metres: one standard deviation;
   * 0 where there is no reach */
  readonly spread_m: number;
  /** along the floor to what is touched: unit length; 0, 0 where there is no reach */
  readonly toward: readonly [number, number];
}

/** Lights, panels and camera in the plan's order, each from the person who stands nearest.
 * Shape    one for each; nothing where nobody stands
 * Units    metres; lengths in words in `units`
 * Errors   none for a plan that was checked
 * Accuracy spread of arm, shoulder and half a finger together [BY4] [BY5] */
export function bodyReaches(plan: Plan, units: LengthUnits): BodyReach[] {
  if (plan.people.length === 0) return [];
  const staged = plan.people.map((person) => stagePerson(person, plan));
  return targetsOf(plan).map((target) => {
    const index = nearest(plan.people, target.at);
    const person = plan.people[index];
    const way = wayTo(target, person, staged[index]);
    const { words, spread_m, toward } = way ?? {
      words: noReach(target, person, staged[index], units),
      spread_m: 0,
      toward: [0, 0] as const,
    };
    // among several it is one's own arm that counts
    const whose = plan.people.length > 1 && spread_m > 0 ? `${person.name}, ` : "";
    return { owner: target.owner, person: index, text: `${whose}${words}`, spread_m, toward };
  });
}

function nearest(people: readonly Person[], [x, y]: Readonly<Vec3>): number {
  const far = people.map(({ position }) => Math.hypot(position[0] - x, position[1] - y));
  return far.indexOf(Math.min(...far));
}

function wayTo(target: Target, person: Person, staged: StagedPerson): Way | null {
  const ways = shouldersOf(person, staged, target.at).flatMap((shoulder) =>
    touchesOf(target, shoulder.at).map((touch) => onArm(person.stature, shoulder, touch)),
  );
  ways.push(onFloor(person, plumbOf(target, person.position)));
  let best: Way | null = null;
  for (const way of ways) if (way !== null && (best === null || way.cost < best.cost)) best = way;
  return best;
}

/** What is missing, in lengths: only then is the tape the one way. */
function noReach(target: Target, person: Person, staged: StagedPerson, units: LengthUnits): string {
  const arm = armLength(person.stature, "fingertips", 0).length;
  let far = Infinity;
  let name = "";
  for (const { at } of shouldersOf(person, staged, target.at)) {
    for (const touch of touchesOf(target, at)) {
      const d = Math.hypot(...touch.point.map((x, k) => x - at[k]));
      if (d < far) [far, name] = [d, touch.name];
    }
  }
  if (far === Infinity) return "no reach: a bare lamp is not touched";
  if (far <= arm) return `no reach: the ${name} is too steep or too near for a straight arm`;
  return `no reach: ${formatLength(far, units)} from the shoulder to the ${name}`;
}
