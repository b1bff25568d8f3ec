/** The other side of an upright plane: what stands to the left stands as far to the right. */
import { round6 } from "./decimals.ts";
import type { Direction, Vec3 } from "./parts.ts";
import type { Support } from "./schema-support.ts";

/** An upright plane, by a point of the floor that it goes through and the bearing along which it runs. */
export interface Upright {
  readonly through: readonly [x: number, y: number];
  readonly bearing_deg: number;
}

interface Thing {
  readonly position: readonly number[];
  readonly direction?: Direction;
  readonly roll?: number;
  readonly support?: Support | null;
}

/** The fields of a thing that are other ones on the other side: where it is, where it points, how it is rolled, which way the
 * arm that holds it points.
 * Accuracy  a plan keeps micrometres: mirrored twice, everything is back within two of them */
export function mirrored(
  thing: Thing,
  plane: Upright,
): Pick<Thing, "direction" | "roll" | "support"> & { position: number[] } {
  const { support } = thing;
  const arm = support?.arm ?? null;
  return {
    position: mirroredPoint(thing.position, plane),
    ...(thing.direction === undefined ? {} : { direction: mirroredDirection(thing.direction, plane) }),
    ...(thing.roll === undefined ? {} : { roll: round6(-thing.roll) }),
    ...(!support || arm === null || arm.bearing === null
      ? {}
      : { support: { ...support, arm: { ...arm, bearing: mirroredBearing(arm.bearing, plane) } } }),
  };
}

function mirroredPoint(point: readonly number[], { through, bearing_deg }: Upright): number[] {
  const bearing = (bearing_deg * Math.PI) / 180;
  const square = [Math.cos(bearing), -Math.sin(bearing)] as const;
  const off = (point[0] - through[0]) * square[0] + (point[1] - through[1]) * square[1];
  return [round6(point[0] - 2 * off * square[0]), round6(point[1] - 2 * off * square[1]), ...point.slice(2)];
}

function mirroredDirection(direction: Direction, plane: Upright): Direction {
  if ("at" in direction) return { at: mirroredPoint(direction.at, plane) as Vec3 };
  return { bearing: mirroredBearing(direction.bearing, plane), tilt: direction.tilt };
}

/** 0 up to, not including, 360. */
export function mirroredBearing(bearing_deg: number, plane: Upright): number {
  const turned = (2 * plane.bearing_deg - bearing_deg) % 360;
  return round6(turned < 0 ? turned + 360 : turned) % 360;
}
