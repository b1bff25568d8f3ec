/** Bearings, tilts and rolls as vectors, and the outlines of fronts. Axes as in the plan format: x right, y into the
 * set, z up. */
import type { Direction, Vec3 } from "./parts.ts";
import type { Face, Light, Panel } from "./schema.ts";

const DEGREE = Math.PI / 180;

/** Bearing and tilt of a direction, as seen from a position.
 * Units   degrees; bearing 0 = +y, 90 = +x; tilt +90 = up
 * Domain  bearing 0 up to, not including, 360 where it follows from a point; as written otherwise. A point exactly
 *         above or below counts as bearing 0
 * @example at [1, 0, 0] from the origin -> bearing 90, tilt 0 */
export function directionOf(
  direction: Direction,
  position: Readonly<Vec3>,
): { bearing_deg: number; tilt_deg: number } {
  if ("bearing" in direction) return { bearing_deg: direction.bearing, tilt_deg: direction.tilt };
  const x = direction.at[0] - position[0];
  const y = direction.at[1] - position[1];
  const z = direction.at[2] - position[2];
  const bearing = x === 0 && y === 0 ? 0 : Math.atan2(x, y) / DEGREE;
  return {
    bearing_deg: bearing < 0 ? (bearing + 360) % 360 : bearing,
    tilt_deg: Math.atan2(z, Math.hypot(x, y)) / DEGREE,
  };
}

/** The unit vector along a bearing and tilt.
 * @example bearing 90, tilt 0 -> [1, 0, 0] */
export function bearingVector(bearing_deg: number, tilt_deg: number): Vec3 {
  const b = bearing_deg * DEGREE;
  const t = tilt_deg * DEGREE;
  return [Math.cos(t) * Math.sin(b), Math.cos(t) * Math.cos(b), Math.sin(t)];
}

/** Unit axes of an object: where it points, its width axis and its height axis, up = right x forward.
 * At roll 0 the width runs along (cos b, -sin b, 0), b the bearing, also straight up or down; roll turns clockwise
 * as seen from behind.
 * Units   degrees
 * @example 0, 0, 0 -> forward [0, 1, 0], right [1, 0, 0], up [0, 0, 1] */
export function axesOf(
  bearing_deg: number,
  tilt_deg: number,
  roll_deg: number,
): { forward: Vec3; right: Vec3; up: Vec3 } {
  const b = bearing_deg * DEGREE;
  const t = tilt_deg * DEGREE;
  const right: Vec3 = [Math.cos(b), -Math.sin(b), 0];
  const up: Vec3 = [-Math.sin(t) * Math.sin(b), -Math.sin(t) * Math.cos(b), Math.cos(t)];
  const c = Math.cos(roll_deg * DEGREE);
  const s = Math.sin(roll_deg * DEGREE);
  return {
    forward: bearingVector(bearing_deg, tilt_deg),
    right: [c * right[0] - s * up[0], c * right[1] - s * up[1], c * right[2] - s * up[2]],
    up: [c * up[0] + s * right[0], c * up[1] + s * right[1], c * up[2] + s * right[2]],
  };
}

/** Enough that a drawn disc looks round; calculations use the disc itself. */
const DISC_POINTS = 48;

/** Outline of a light's front in its own (width, height) axes, counter-clockwise in those axes, metres.
 * A polygon has a side on top, level; a point has no outline.
 * @example square polygon 2 wide -> corners at (+-1, +-1) */
export function faceOutline(face: Face): [number, number][] {
  switch (face.shape) {
    case "point":
      return [];
    case "rectangle": {
      const [h, v] = [face.width / 2, face.height / 2];
      return [
        [-h, -v],
        [h, -v],
        [h, v],
        [-h, v],
      ];
    }
    case "disc":
      return ring(DISC_POINTS, face.width / 2, 0);
    case "polygon":
      // the first corner is the top side's left one, so that the last side is the top one
      return ring(
        face.sides,
        polygonCircumradius(face.sides, face.width),
        Math.PI / 2 + Math.PI / face.sides,
      );
  }
}

function ring(count: number, radius: number, first_rad: number): [number, number][] {
  return Array.from({ length: count }, (_, k) => {
    const a = first_rad + (2 * Math.PI * k) / count;
    return [radius * Math.cos(a), radius * Math.sin(a)];
  });
}

/** From the centre to the corners of a regular polygon, from its inscribed circle's diameter. */
export function polygonCircumradius(sides: number, width_m: number): number {
  return width_m / 2 / Math.cos(Math.PI / sides);
}

/** Area of a front, m2; a point has none.
 * @example octagon 1.5 across the flats -> 1.8640 */
export function faceArea(face: Face): number {
  switch (face.shape) {
    case "point":
      return 0;
    case "rectangle":
      return face.width * face.height;
    case "disc":
      return Math.PI * (face.width / 2) ** 2;
    case "polygon":
      return face.sides * (face.width / 2) ** 2 * Math.tan(Math.PI / face.sides);
  }
}

/** A front where it hangs. */
export type Held = Pick<Light, "direction" | "face" | "position" | "roll">;

/** A panel as a front of its size: its outline and its top are found the same way. */
export function panelFront({
  direction,
  height,
  position,
  roll,
  width,
}: Pick<Panel, "direction" | "height" | "position" | "roll" | "width">): Held {
  return { direction, position, roll, face: { shape: "rectangle", width, height } };
}

/** The front's outline in space, xyz per corner; a point has none. */
export function frontCorners({ direction, face, position, roll }: Held): Vec3[] {
  const { bearing_deg, tilt_deg } = directionOf(direction, position);
  const { right, up } = axesOf(bearing_deg, tilt_deg, roll);
  return faceOutline(face).map(([w, h]) => [
    position[0] + w * right[0] + h * up[0],
    position[1] + w * right[1] + h * up[1],
    position[2] + w * right[2] + h * up[2],
  ]);
}

/** Height of the highest point of a front, its tilt and roll counted; a disc's own round, not the drawn one.
 * @example disc 1 m wide, centre 2 m up, tilted 60 down -> 2.25 */
export function frontTop(held: Held): number {
  const { direction, face, position, roll } = held;
  if (face.shape !== "disc") return Math.max(position[2], ...frontCorners(held).map(([, , z]) => z));
  const { bearing_deg, tilt_deg } = directionOf(direction, position);
  const { right, up } = axesOf(bearing_deg, tilt_deg, roll);
  return position[2] + (face.width / 2) * Math.hypot(right[2], up[2]);
}
