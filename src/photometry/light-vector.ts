/** Where light comes from at a point and how one-sided it is, in closed form.
 * Source  Gershun 1936, tr. Moon and Timoshenko 1939; Lynes et al. 1966: vector |integral of L w|, scalar a quarter of
 *         the integral of L over all directions */
import { lengthOf, type Vec3, writeUnit } from "../math/index.ts";

/** |Light vector| of a uniform cone. Units cd/m2, rad -> lx */
export function coneVector(luminance: number, halfAngle_rad: number): number {
  return Math.PI * luminance * Math.sin(halfAngle_rad) ** 2;
}

/** Scalar illuminance of a uniform cone. Units cd/m2, rad -> lx */
export function coneScalar(luminance: number, halfAngle_rad: number): number {
  return (Math.PI * luminance * (1 - Math.cos(halfAngle_rad))) / 2;
}

/** Vector over scalar of a uniform cone: 4 for a point, 2 for a half-space, 0 for light from everywhere. */
export function coneVectorScalar(halfAngle_rad: number): number {
  return 2 * (1 + Math.cos(halfAngle_rad));
}

export interface PointLight {
  /** on a plane that faces it, lx or lx.s */
  readonly illuminance: number;
  /** where it comes from, any length */
  readonly direction: Vec3;
}

export interface PointField {
  /** points to where the light comes from, as long as the light vector */
  readonly vector: Vec3;
  readonly length: number;
  readonly scalar: number;
  /** null where there is no light */
  readonly vectorScalarRatio: number | null;
}

/** The field of small sources, and of light that comes alike from everywhere.
 * Units   lx, or lx.s throughout; ambientScalar is what that light adds to the scalar
 * Domain  a source without direction adds to the scalar alone */
export function fieldOfPoints(points: readonly PointLight[], ambientScalar = 0): PointField {
  const vector: [number, number, number] = [0, 0, 0];
  const way: [number, number, number] = [0, 0, 0];
  let scalar = ambientScalar;
  for (const { illuminance, direction } of points) {
    scalar += illuminance / 4;
    writeUnit(way, direction);
    for (let k = 0; k < 3; k++) vector[k] += illuminance * way[k];
  }
  const length = lengthOf(vector);
  return { vector, length, scalar, vectorScalarRatio: scalar > 0 ? length / scalar : null };
}

/** Mean over an upright cylinder of a small source at this elevation. Units lx, rad -> lx */
export function cylindricalIlluminance(facing: number, elevation_rad: number): number {
  return (facing * Math.cos(elevation_rad)) / Math.PI;
}

/** Mean over the upright half-cylinder that faces this far, in azimuth, away from the source.
 * Source  E cos e (1 + cos a) / pi */
export function semicylindricalIlluminance(
  facing: number,
  elevation_rad: number,
  azimuth_rad: number,
): number {
  return (facing * Math.cos(elevation_rad) * (1 + Math.cos(azimuth_rad))) / Math.PI;
}

/** Mean over the surface of a half-sphere whose axis points this far away from the source. */
export function hemisphericalIlluminance(facing: number, angle_rad: number): number {
  return (facing * (1 + Math.cos(angle_rad))) / 4;
}
