/** Bearings, tilts and rolls as vectors. Axes as in the plan format: x right, y into the set, z up. */
import type { Direction, Vec3 } from "./parts.ts";
import type { Face } from "./schema.ts";

const DEGREE = Math.PI / 180;

/** Bearing (0 = +y, 90 = +x) and tilt (+90 = up), degrees. A point exactly above or below counts as bearing 0. */
export function directionOf(
  direction: Direction,
  position: Readonly<Vec3>,
): { bearing_deg: number; tilt_deg: number } {
  if ("bearing" in direction) return { bearing_deg: direction.bearing, tilt_deg: direction.tilt };
  const x = direction.at[0] - position[0];
  const y = direction.at[1] - position[1];
  const z = direction.at[2] - position[2];
  return { bearing_deg: Math.atan2(x, y) / DEGREE, tilt_deg: Math.atan2(z, Math.hypot(x, y)) / DEGREE };
}

/** Unit axes of an object: where it points, its width axis and its height axis.
 * At roll 0 the width runs along (cos b, -sin b, 0), b the bearing, also straight up or down; roll turns
 * clockwise as seen from behind. */
export function axesOf(
  bearing_deg: number,
  tilt_deg: number,
  roll_deg: number,
): { forward: Vec3; right: Vec3; up: Vec3 } {
  const b = bearing_deg * DEGREE;
  const t = tilt_deg * DEGREE;
  const forward: Vec3 = [Math.cos(t) * Math.sin(b), Math.cos(t) * Math.cos(b), Math.sin(t)];
  const right: Vec3 = [Math.cos(b), -Math.sin(b), 0];
  const up: Vec3 = [-Math.sin(t) * Math.sin(b), -Math.sin(t) * Math.cos(b), Math.cos(t)];
  const c = Math.cos(roll_deg * DEGREE);
  const s = Math.sin(roll_deg * DEGREE);
  return {
    forward,
    right: [c * right[0] - s * up[0], c * right[1] - s * up[1], c * right[2] - s * up[2]],
    up: [c * up[0] + s * right[0], c * up[1] + s * right[1], c * up[2] + s * right[2]],
  };
}

/** Outline of a light's front in its own (width, height) axes, metres; a polygon has a side on top. */
export function faceOutline(face: Face): [number, number][] {
  if (face.shape === "point") return [];
  const h = face.width / 2;
  if (face.shape === "rectangle") {
    const v = face.height / 2;
    return [
      [-h, -v],
      [h, -v],
      [h, v],
      [-h, v],
    ];
  }
  const sides = face.shape === "disc" ? 64 : face.sides;
  const radius = face.shape === "disc" ? h : h / Math.cos(Math.PI / sides);
  return Array.from({ length: sides }, (_, k) => {
    const a = Math.PI / 2 + ((2 * k + 1) * Math.PI) / sides;
    return [radius * Math.cos(a), radius * Math.sin(a)];
  });
}
