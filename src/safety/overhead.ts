/** Who has something above them. */
import {
  frontCorners,
  type Held,
  type Light,
  type Plan,
  panelFront,
  type Support,
  type Vec3,
} from "../plan/index.ts";

/** A person of the plan, staged, in the plan's order: what is above the ears is above the person. */
export interface Standing {
  readonly staged: { readonly shape: { readonly earHeight: number } };
}

/** What comes this near to a mark, on the floor plan, hangs over the person. */
const OVERHEAD_REACH = 0.6;

/** A light or panel, and who has it above them. */
export interface Overhead {
  /** "lights[0]", "panels[1]" */
  readonly path: string;
  readonly held: Armed;
  readonly name: string;
  /** "hangs over" */
  readonly does: string;
  readonly cure: string;
  /** who stands beneath, and how far the mark lies from its outline on the floor plan: 0 under it */
  readonly over: readonly { readonly name: string; readonly away_m: number }[];
}

const HANGING =
  "counterweight and bag, a tether line from head to grid or stand, and nobody beneath while it is raised, lowered or " +
  "swung";
const TIED = "tied at two points and bagged, and nobody beneath while it is moved";

/** Every light and panel, with whoever stands beneath it: over the ears, and within reach on the floor plan. The one rule of
 * what is over somebody: cautions, sheet and readings tell it from here.
 * Shape   people: the plan's, in its order */
export function overheads(plan: Plan, people: readonly Standing[]): Overhead[] {
  return [
    ...plan.lights.map((held, i): Overhead => {
      const own = { path: `lights[${i}]`, name: held.name, does: "hangs over", cure: HANGING, held };
      return { ...own, over: beneath(held, plan, people) };
    }),
    ...plan.panels.map((held, i): Overhead => {
      const own = { path: `panels[${i}]`, name: held.name, does: "is over", cure: TIED, held };
      return { ...own, over: beneath(panelFront(held), plan, people) };
    }),
  ];
}

function beneath(held: Held, plan: Plan, people: readonly Standing[]): Overhead["over"] {
  const { position } = held;
  const outline = [...frontCorners(held), position].map(([x, y]) => [x, y] as const);
  return plan.people.flatMap(({ name, position: mark }, i) => {
    if (position[2] < people[i].staged.shape.earHeight) return [];
    const away_m = distanceToOutline(outline, mark);
    return away_m <= OVERHEAD_REACH ? [{ name, away_m }] : [];
  });
}

/** Whom an arm reaches over, or may reach over: it is over the ears, and the mark lies within reach of it on the floor plan,
 * its back with the counterweight counted. Where its bearing is not known, no farther than the whole arm is long, whichever
 * way its column stands. Nobody where there is no arm. */
export function underArm(plan: Plan, { position, support }: Armed, people: readonly Standing[]): string[] {
  const arm = support?.arm ?? null;
  if (arm === null) return [];
  return plan.people
    .filter(({ position: mark }, i) => {
      if (position[2] < people[i].staged.shape.earHeight) return false;
      return awayFromArm(position, arm, mark) <= OVERHEAD_REACH;
    })
    .map(({ name }) => name);
}

type Armed = Pick<Light, "position" | "support">;
type Arm = NonNullable<Support["arm"]>;

/** From a mark to an arm, on the floor plan: the nearest that it may lie. */
function awayFromArm([x, y]: Vec3, { bearing, counterReach, reach }: Arm, mark: readonly number[]): number {
  const [dx, dy] = [mark[0] - x, mark[1] - y];
  const long = reach + counterReach;
  if (bearing === null) return Math.max(0, Math.hypot(dx, dy) - long);
  const way = (bearing * Math.PI) / 180;
  // from the load back over the column to the counterweight
  const [backX, backY] = [-Math.sin(way), -Math.cos(way)];
  const along = Math.min(long, Math.max(0, dx * backX + dy * backY));
  return Math.hypot(dx - along * backX, dy - along * backY);
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
