/** Things carried round an upright axis. */
import type { Direction, Vec3 } from "./parts.ts";

const DEGREE = Math.PI / 180;

/** A point carried round an upright axis, clockwise as seen from above: same height, same distance. */
export function carriedRound(point: Readonly<Vec3>, axis: Readonly<Vec3>, clockwise_deg: number): Vec3 {
  const [c, s] = [Math.cos(clockwise_deg * DEGREE), Math.sin(clockwise_deg * DEGREE)];
  const [x, y] = [point[0] - axis[0], point[1] - axis[1]];
  return [axis[0] + c * x + s * y, axis[1] + c * y - s * x, point[2]];
}

/** A bearing turned clockwise, within the bounds of a plan. */
export function turnedBearing(bearing_deg: number, clockwise_deg: number): number {
  const turned = bearing_deg + clockwise_deg;
  return turned > 360 ? turned - 360 : turned < -360 ? turned + 360 : turned;
}

/** The aim carried round together with what has it: what stood in the middle of the picture stays there. */
export function aimCarriedRound(aim: Direction, axis: Readonly<Vec3>, clockwise_deg: number): Direction {
  if ("at" in aim) return { at: carriedRound(aim.at, axis, clockwise_deg) };
  return { bearing: turnedBearing(aim.bearing, clockwise_deg), tilt: aim.tilt };
}
