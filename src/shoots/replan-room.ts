/** What of a set-up needs room, and by how much it keeps clear of floor, walls and ceiling. */
import {
  type Brief,
  bearingVector,
  emptyBrief,
  frontCorners,
  type Light,
  type Panel,
  type Plan,
  panelFront,
  type Room,
  type Vec3,
} from "../plan/index.ts";

/** A thing by what it takes up: the corners of the box round it, with the air that it keeps. */
export interface Taken {
  readonly low: Vec3;
  readonly high: Vec3;
}

export type Axis = 0 | 1 | 2;
export const SIZES = ["width", "depth", "height"] as const satisfies readonly (keyof Room)[];

/** Behind a camera stands whoever looks through it, and somebody on a mark turns round (common practice, no source). */
const BESIDE_CAMERA_M = 0.3;
const BESIDE_PERSON_M = 0.3;

/** Air as the brief has it; the format's own where there is none. */
export function airOf({ brief }: Plan): Brief["clear"] {
  return (brief ?? emptyBrief()).clear;
}

export function lightTaken(light: Light, plan: Plan): Taken {
  const { walls, ceiling } = airOf(plan);
  return boxOf([light.position, ...frontCorners(light)], walls, ceiling);
}

export function panelTaken(panel: Panel): Taken {
  return boxOf(frontCorners(panelFront(panel)), 0, 0);
}

export function cameraTaken({ position }: Plan["camera"]): Taken {
  return boxOf([position], BESIDE_CAMERA_M, 0);
}

/** As high as somebody stands; a seat is under every ceiling that a person is. */
export function personTaken({ pose, position, seatHeight, stature }: Plan["people"][number]): Taken {
  const top = pose === "standing" ? stature : Math.min(stature, seatHeight + stature / 2);
  return boxOf([[position[0], position[1], top]], BESIDE_PERSON_M, 0);
}

/** The line that it hangs from. */
export function backdropTaken({ bearing, position, top, width }: NonNullable<Plan["backdrop"]>): Taken {
  const [x, y] = bearingVector(bearing + 90, 0);
  const end = (way: number): Vec3 => [
    position[0] + way * x * (width / 2),
    position[1] + way * y * (width / 2),
    top,
  ];
  return boxOf([end(-1), end(1)], 0, 0);
}

export function pointTaken([x, y, z = 0]: readonly number[]): Taken {
  return boxOf([[x ?? 0, y ?? 0, z]], 0, 0);
}

function boxOf(points: readonly Readonly<Vec3>[], beside: number, above: number): Taken {
  const along = (axis: Axis) => points.map((point) => point[axis]);
  return {
    low: [Math.min(...along(0)) - beside, Math.min(...along(1)) - beside, Math.min(...along(2))],
    high: [Math.max(...along(0)) + beside, Math.max(...along(1)) + beside, Math.max(...along(2)) + above],
  };
}

/** How far a thing reaches out of a room along one axis; below 0 by how much it stays inside, and in open space always. */
export function overhang({ high, low }: Taken, room: Room | null, axis: Axis): number {
  if (room === null) return Number.NEGATIVE_INFINITY;
  const over = high[axis] - room[SIZES[axis]];
  return axis === 2 ? over : Math.max(over, -low[axis]);
}
