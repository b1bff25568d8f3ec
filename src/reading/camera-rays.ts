/** The camera as a pinhole: which way the ray of a picture point goes. */
import { axesOf, type Camera, directionOf } from "../plan/index.ts";
import type { PictureRegion } from "./types.ts";

export interface Viewfinder {
  readonly width: number;
  readonly height: number;
  readonly position: readonly [number, number, number];
  readonly forward: readonly number[];
  readonly right: readonly number[];
  readonly up: readonly number[];
  /** tangent of half the field across and up, of what is looked at */
  readonly tanX: number;
  readonly tanY: number;
  /** tangents of its middle, right and up from the axis: 0 for the whole picture */
  readonly midX: number;
  readonly midY: number;
}

export const WHOLE_PICTURE: PictureRegion = { left: 0, top: 0, right: 1, bottom: 1 };

/** The picture, or the part of it that is asked for, `width` pixels wide, height the nearest whole number; field =
 * sensor / focal length. */
export function viewfinder(camera: Camera, width: number, region = WHOLE_PICTURE): Viewfinder {
  const portrait = camera.orientation === "portrait";
  const across = portrait ? camera.sensor.height : camera.sensor.width;
  const upward = portrait ? camera.sensor.width : camera.sensor.height;
  const d = directionOf(camera.direction, camera.position);
  const axes = axesOf(d.bearing_deg, d.tilt_deg, camera.roll);
  const [shareX, shareY] = [region.right - region.left, region.bottom - region.top];
  const tanX = across / (2 * camera.focalLength);
  const tanY = upward / (2 * camera.focalLength);
  return {
    width,
    height: Math.max(1, Math.round((width * upward * shareY) / (across * shareX))),
    position: camera.position,
    forward: axes.forward,
    right: axes.right,
    up: axes.up,
    tanX: tanX * shareX,
    tanY: tanY * shareY,
    midX: tanX * (region.left + region.right - 1),
    midY: tanY * (1 - region.top - region.bottom),
  };
}

/** Unit direction through picture point (x, y) in pixels from the top left, into out. */
export function writeCameraRay(v: Viewfinder, x: number, y: number, out: Float64Array) {
  const a = v.midX + ((2 * x) / v.width - 1) * v.tanX;
  const b = v.midY + (1 - (2 * y) / v.height) * v.tanY;
  const scale = 1 / Math.sqrt(1 + a * a + b * b);
  for (let k = 0; k < 3; k++) out[k] = scale * (v.forward[k] + a * v.right[k] + b * v.up[k]);
}

/** Where a point of the world falls in the picture, pixels; null behind the camera. */
export function project(v: Viewfinder, p: ArrayLike<number>): [number, number] | null {
  const d = [0, 1, 2].map((k) => p[k] - v.position[k]);
  const dot = (axis: readonly number[]) => d[0] * axis[0] + d[1] * axis[1] + d[2] * axis[2];
  const depth = dot(v.forward);
  if (!(depth > 0)) return null;
  return [
    (v.width / 2) * (1 + (dot(v.right) / depth - v.midX) / v.tanX),
    (v.height / 2) * (1 - (dot(v.up) / depth - v.midY) / v.tanY),
  ];
}
