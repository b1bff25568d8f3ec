/** Who has something above them. */
import { frontCorners, type Light, type Plan } from "../plan/index.ts";

/** A person of the plan, staged, in the plan's order: what is above the ears is above the person. */
export interface Standing {
  readonly staged: { readonly shape: { readonly earHeight: number } };
}

/** What comes this near to a mark, on the floor plan, hangs over the person. */
const OVERHEAD_REACH = 0.6;

/** Who stands beneath a light: its front is over the ears and within reach on the floor plan. */
export function overPeople(plan: Plan, light: number, people: readonly Standing[]): string[] {
  return beneath(plan, plan.lights[light], people);
}

/** The same for a panel. */
export function underPanel(plan: Plan, panel: number, people: readonly Standing[]): string[] {
  const { height, width, ...held } = plan.panels[panel];
  return beneath(plan, { ...held, face: { shape: "rectangle", width, height } }, people);
}

function beneath(
  plan: Plan,
  held: Pick<Light, "direction" | "face" | "position" | "roll">,
  people: readonly Standing[],
): string[] {
  const { position } = held;
  const outline = [...frontCorners(held), position].map(([x, y]) => [x, y] as const);
  return plan.people
    .filter((person, i) => {
      if (position[2] < people[i].staged.shape.earHeight) return false;
      return distanceToOutline(outline, person.position) <= OVERHEAD_REACH;
    })
    .map((person) => person.name);
}

/** Whom a light's arm may reach over, whichever way its column stands: the arm is over the ears, and the mark lies no
 * farther than the whole arm is long, its back with the counterweight counted. Nobody where it has no arm. */
export function underArm(plan: Plan, light: number, people: readonly Standing[]): string[] {
  const { position, support } = plan.lights[light];
  const arm = support?.arm ?? null;
  if (arm === null) return [];
  const whole = arm.reach + arm.counterReach + OVERHEAD_REACH;
  return plan.people
    .filter(({ position: [x, y] }, i) => {
      if (position[2] < people[i].staged.shape.earHeight) return false;
      return Math.hypot(position[0] - x, position[1] - y) <= whole;
    })
    .map(({ name }) => name);
}

/** From a point to the hull of an outline seen from above; 0 inside. The outlines are convex. */
function distanceToOutline(
  corners: readonly (readonly [number, number])[],
  [x, y]: readonly [number, number],
): number {
  const outline = corners.slice(0, -1);
  if (outline.length === 0) return Math.hypot(corners[0][0] - x, corners[0][1] - y);
  let nearest = Infinity;
  let [lefts, rights] = [0, 0];
  outline.forEach(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length];
    const [ux, uy] = [bx - ax, by - ay];
    const turn = ux * (y - ay) - uy * (x - ax);
    if (turn > 0) lefts++;
    if (turn < 0) rights++;
    const along = Math.min(1, Math.max(0, ((x - ax) * ux + (y - ay) * uy) / (ux * ux + uy * uy || 1)));
    nearest = Math.min(nearest, Math.hypot(ax + along * ux - x, ay + along * uy - y));
  });
  const isInside = lefts === 0 || rights === 0;
  return isInside && lefts + rights > 0 ? 0 : nearest;
}
