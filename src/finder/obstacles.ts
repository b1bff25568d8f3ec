/** What stands in the way of a move: walls, paper, people. Bodies are kept apart by what a person takes up; the plan
 * itself only asks that things are inside the room. */
import {
  axesOf,
  bearingVector,
  directionOf,
  type Light,
  type Panel,
  type Plan,
  type Vec3,
} from "../plan/index.ts";

/** Half the width of a person at the shoulders with a hand's breadth to spare, metres (common practice, no source). */
export const PERSON_REACH_M = 0.3;
/** Nearer than this a panel touches shoulder or hair, metres (common practice, no source). */
export const PANEL_CLEAR_M = 0.25;
/** Points along each edge of a panel at which its distance is taken: 15 cm apart at the widest common board. */
const PANEL_POINTS = 9;

/** The wall, floor or ceiling beyond which a point lies; null inside, and where there is no room. */
export function wallBefore({ room }: Plan, [x, y, z]: Readonly<Vec3>, clear_m = 0): string | null {
  if (room === null) return null;
  if (x < clear_m) return "the left wall is in the way";
  if (x > room.width - clear_m) return "the right wall is in the way";
  if (y < clear_m) return "the near wall is in the way";
  if (y > room.depth - clear_m) return "the far wall is in the way";
  if (z < 0) return "the floor is in the way";
  return z > room.height ? "the ceiling is in the way" : null;
}

/** Who stands so near to a place on the floor that nothing more fits there; `except` is not asked. */
export function personAt(plan: Plan, [x, y]: Readonly<Vec3>, except = -1): string | null {
  const near = plan.people.find(
    ({ position }, i) => i !== except && Math.hypot(position[0] - x, position[1] - y) < PERSON_REACH_M,
  );
  return near === undefined ? null : `${near.name} is in the way`;
}

/** Why a person cannot stand at a place. */
export function standingRoom(plan: Plan, person: number, x: number, y: number): string | null {
  const wall = wallBefore(plan, [x, y, 0], PERSON_REACH_M);
  if (wall !== null) return wall;
  const { backdrop } = plan;
  if (backdrop !== null) {
    const [ahead, aside] = bearingVector(backdrop.bearing, 0);
    const [dx, dy] = [x - backdrop.position[0], y - backdrop.position[1]];
    const [before, along] = [dx * ahead + dy * aside, dx * aside - dy * ahead];
    if (Math.abs(before) < PERSON_REACH_M && Math.abs(along) < backdrop.width / 2 + PERSON_REACH_M)
      return "the backdrop is in the way";
  }
  const other = personAt(plan, [x, y, 0], person);
  if (other !== null) return other;
  const [cx, cy] = plan.camera.position;
  if (Math.hypot(cx - x, cy - y) < PERSON_REACH_M) return "the camera is in the way";
  const touched = plan.panels.find(
    (panel) => panelDistance(panel, x, y, plan.people[person].stature) < PANEL_CLEAR_M,
  );
  return touched === undefined ? null : `${touched.name} is in the way`;
}

/** What is flat and in the way: a panel, or the front of a light. */
export interface Plate extends Pick<Panel, "position" | "direction" | "roll"> {
  readonly width: number;
  readonly height: number;
}

/** Who would be touched by a panel; null where it clears everybody. One that touches already may go, but no nearer. */
export function touchedBy(plan: Plan, panel: Plate, from: Plate | null = null): string | null {
  const touched = plan.people.find(({ position: [x, y], stature }) => {
    const away = panelDistance(panel, x, y, stature);
    return away < PANEL_CLEAR_M && (from === null || away < panelDistance(from, x, y, stature));
  });
  return touched === undefined ? null : `no room: it would touch ${touched.name}`;
}

/** The same of the front of a light that goes from one place to another. */
export function frontTouches(plan: Plan, from: Light, to: Light): string | null {
  return touchedBy(plan, plateOf(to), plateOf(from));
}

function plateOf({ position, direction, roll, face }: Light): Plate {
  const place = { position, direction, roll };
  if (face.shape === "point") return { ...place, width: 0, height: 0 };
  return { ...place, width: face.width, height: face.shape === "rectangle" ? face.height : face.width };
}

/** From a panel to the upright through a place on the floor, up to a height: metres. */
export function panelDistance(panel: Plate, x: number, y: number, height_m: number): number {
  const { bearing_deg, tilt_deg } = directionOf(panel.direction, panel.position);
  const { right, up } = axesOf(bearing_deg, tilt_deg, panel.roll);
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < PANEL_POINTS; i++) {
    for (let j = 0; j < PANEL_POINTS; j++) {
      const a = panel.width * (i / (PANEL_POINTS - 1) - 0.5);
      const b = panel.height * (j / (PANEL_POINTS - 1) - 0.5);
      const [px, py, pz] = [0, 1, 2].map((k) => panel.position[k] + a * right[k] + b * up[k]);
      least = Math.min(least, Math.hypot(px - x, py - y, Math.max(0, pz - height_m)));
    }
  }
  return least;
}
