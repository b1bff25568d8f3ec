import type { Edit, Plan, Vec3 } from "../plan/index.ts";
import { aimObject, moveObject, type PlanObject, SNAP_DEG, SNAP_M, snap } from "./objects.ts";

/** Which of x, y, z lie across and up the paper. */
export interface Sheet {
  readonly name: "Floor" | "Side";
  readonly across: 0 | 1;
  readonly up: 1 | 2;
}

/** From above: x across, y up the paper. From the side, as seen from the right wall: y across, z up. */
export const FLOOR: Sheet = { name: "Floor", across: 0, up: 1 };
export const SIDE: Sheet = { name: "Side", across: 1, up: 2 };

export interface PaperPoint {
  readonly across: number;
  readonly up: number;
}

const RADIANS = Math.PI / 180;

/** Move to a point of the paper, on the 5 cm grid unless free. What stands on the floor stays on it. */
export function dragEdit(plan: Plan, object: PlanObject, sheet: Sheet, to: PaperPoint, free: boolean): Edit {
  const position: Vec3 = [...object.position];
  position[sheet.across] = snap(to.across, SNAP_M, free);
  if (sheet.up !== 2 || object.lifts) position[sheet.up] = snap(to.up, SNAP_M, free);
  return moveObject(plan, object, position);
}

/** Turn so that the aim passes through a point of the paper: bearing on the Floor, tilt on the Side. */
export function turnEdit(
  plan: Plan,
  object: PlanObject,
  sheet: Sheet,
  to: PaperPoint,
  free: boolean,
): Edit | null {
  const across = to.across - object.position[sheet.across];
  const up = to.up - object.position[sheet.up];
  if (Math.hypot(across, up) < 1e-6) return null;
  if (sheet.up === 1) {
    const bearing = Math.atan2(across, up) / RADIANS;
    return aimObject(plan, object, snap(bearing, SNAP_DEG, free), object.tilt_deg);
  }
  if (!object.lifts) return null;
  return aimObject(
    plan,
    object,
    object.bearing_deg,
    snap(tiltThrough(object.bearing_deg, across, up), SNAP_DEG, free),
  );
}

/** The tilt whose picture on the Side passes through (across, up): its level part is foreshortened by cos bearing.
 * An aim square to the paper has no such picture; it is treated as 78° off. */
function tiltThrough(bearing_deg: number, across: number, up: number): number {
  const cosine = Math.cos(bearing_deg * RADIANS);
  const seen = (cosine < 0 ? -1 : 1) * Math.max(Math.abs(cosine), 0.2);
  const tilt = Math.atan2(up, across / seen) / RADIANS;
  return Math.min(90, Math.max(-90, tilt));
}

/** The aim on the paper, as long as it is seen there: 1 where it lies in the paper, 0 where it is square to it. */
export function aimOnPaper(object: PlanObject, sheet: Sheet): PaperPoint {
  const bearing = object.bearing_deg * RADIANS;
  const tilt = object.tilt_deg * RADIANS;
  const aim = [Math.cos(tilt) * Math.sin(bearing), Math.cos(tilt) * Math.cos(bearing), Math.sin(tilt)];
  return { across: aim[sheet.across] as number, up: aim[sheet.up] as number };
}

const ARROWS: Readonly<Record<string, readonly [across: number, up: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

const NUDGE_M = 0.01;
const LARGE_NUDGE_M = 0.1;

/** Arrows move 1 cm, with Shift 10 cm; Alt and arrows, or comma and full stop, turn 1°. Null for other keys. */
export function keyEdit(
  plan: Plan,
  object: PlanObject,
  sheet: Sheet,
  key: { key: string; shiftKey: boolean; altKey: boolean },
): Edit | null {
  const turn = key.key === "," || key.key === "<" ? -1 : key.key === "." || key.key === ">" ? 1 : 0;
  const arrow = ARROWS[key.key];
  if (turn !== 0) return turnBy(plan, object, sheet, turn);
  if (arrow === undefined) return null;
  if (key.altKey)
    return turnBy(plan, object, sheet, sheet.up === 2 && arrow[1] !== 0 ? arrow[1] : arrow[0] || arrow[1]);
  const step = key.shiftKey ? LARGE_NUDGE_M : NUDGE_M;
  const position: Vec3 = [...object.position];
  position[sheet.across] += arrow[0] * step;
  if (sheet.up !== 2 || object.lifts) position[sheet.up] += arrow[1] * step;
  return moveObject(plan, object, position);
}

function turnBy(plan: Plan, object: PlanObject, sheet: Sheet, degrees: number): Edit {
  if (sheet.up === 2 && object.lifts) {
    return aimObject(
      plan,
      object,
      object.bearing_deg,
      Math.min(90, Math.max(-90, object.tilt_deg + degrees)),
    );
  }
  return aimObject(plan, object, object.bearing_deg + degrees, object.tilt_deg);
}
