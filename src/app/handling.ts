import type { Edit, Plan, Vec3 } from "../plan/index.ts";
import { aimObject, moveObjects, namesOf, type PlanObject, SNAP_DEG, SNAP_M, snap } from "./objects.ts";

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

/** How near to a mark somebody is dropped to stand on it. */
const ONTO_MARK_M = 0.08;

/** Move so that an object's middle comes to a point of the paper, on the 5 cm grid unless free; the others that are
 * held go along. What stands on the floor stays on it, and a person who comes near a mark steps onto it. */
export function dragEdit(
  plan: Plan,
  object: PlanObject,
  sheet: Sheet,
  to: PaperPoint,
  free: boolean,
  along: readonly PlanObject[] = [],
): Edit {
  const by: Vec3 = [0, 0, 0];
  const mark = free || object.kind !== "person" || sheet.up !== 1 ? null : markNear(plan, to);
  const [across, up] = mark ?? [snap(to.across, SNAP_M, free), snap(to.up, SNAP_M, free)];
  by[sheet.across] = across - object.position[sheet.across];
  if (sheet.up !== 2 || object.lifts) by[sheet.up] = up - object.position[sheet.up];
  return moveObjects(plan, [object, ...along], by);
}

function markNear(plan: Plan, { across, up }: PaperPoint): readonly [number, number] | null {
  let nearest: readonly [number, number] | null = null;
  let least = ONTO_MARK_M;
  for (const { position } of plan.marks) {
    const away = Math.hypot(position[0] - across, position[1] - up);
    if (away > least) continue;
    least = away;
    nearest = position;
  }
  return nearest;
}

/** Turn so that the aim passes through a point of the paper: bearing on the Floor, tilt on the Side. */
export function turnEdit(
  plan: Plan,
  object: PlanObject,
  sheet: Sheet,
  to: PaperPoint,
  free: boolean,
): Edit | null {
  if (!object.turns) return null;
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
const LARGE_TURN_DEG = 10;

interface Key {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

/** Arrows move 1 cm; Alt and arrows, or comma and full stop, turn 1°; with Shift ten of each. Null for other keys. */
export function keyEdit(plan: Plan, held: readonly PlanObject[], sheet: Sheet, key: Key): Edit | null {
  const arrow = ARROWS[key.key];
  // with Shift the same two keys say < and >, on some keyboards ; and :
  const way = ",<;".includes(key.key) ? -1 : ".>:".includes(key.key) ? 1 : 0;
  const many = key.shiftKey ? LARGE_TURN_DEG : 1;
  if (way !== 0) return turnBy(plan, held, sheet, way * many);
  if (arrow === undefined) return null;
  const [across, up] = arrow;
  if (key.altKey) return turnBy(plan, held, sheet, many * (sheet.up === 2 ? up || across : across || up));
  return nudge(plan, held, sheet, across, up, key.shiftKey);
}

/** One step of a centimetre, or of ten, along the paper. */
export function nudge(
  plan: Plan,
  held: readonly PlanObject[],
  sheet: Sheet,
  across: number,
  up: number,
  large: boolean,
): Edit {
  const step = large ? LARGE_NUDGE_M : NUDGE_M;
  const by: Vec3 = [0, 0, 0];
  by[sheet.across] = across * step;
  by[sheet.up] = up * step;
  return moveObjects(plan, held, by);
}

/** Each turns where it stands: on the Side what lifts is tilted, everything else is turned round. */
function turnBy(plan: Plan, held: readonly PlanObject[], sheet: Sheet, degrees: number): Edit | null {
  const edits = held
    .filter((object) => object.turns)
    .map((object) => {
      const { bearing_deg, tilt_deg } = object;
      return sheet.up === 2 && object.lifts
        ? aimObject(plan, object, bearing_deg, tilt_deg + degrees)
        : aimObject(plan, object, bearing_deg + degrees, tilt_deg);
    });
  return edits.length > 0 ? { kind: "several", label: `turn ${namesOf(held)}`, edits } : null;
}
