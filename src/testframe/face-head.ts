/** How a head is held, from facing the lens. */
import type { PhotoFace } from "./types.ts";

const DEGREE = Math.PI / 180;

/** Angles of Rz(turn) Ry(-tip) Rx(-tilt) as in the plan's `head`, taken out of camera axes from head axes: a head that
 * faces the lens has x ahead toward the camera, y own left to picture right, z up.
 * Shape   3 x 3 row-major */
export function headAngles(cameraFromHead: ArrayLike<number>): PhotoFace["head"] {
  // rows of the turned head: ahead is the camera's z, left its x, up its y
  const m = (row: number, column: number) => cameraFromHead[3 * ((row + 2) % 3) + column];
  return {
    turn: Math.atan2(m(1, 0), m(0, 0)) / DEGREE,
    tip: Math.asin(Math.max(-1, Math.min(1, m(2, 0)))) / DEGREE,
    tilt: -Math.atan2(m(2, 1), m(2, 2)) / DEGREE + 0,
  };
}
