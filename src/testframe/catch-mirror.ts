/** The cornea as a mirror: from where light comes that shows at a place of the iris. */
import { buildHead, type Eye, LEFT_EYE, RIGHT_EYE } from "../figure/index.ts";
import { angleBetween, type Vec3 } from "../math/index.ts";
import { type Cornea, writeNormalAt } from "../reading/index.ts";
import type { EyeCrop } from "./catch-eye.ts";
import type { FoundFace, Photograph, SeenFace } from "./types.ts";

/** A portrait's usual distance, metres; from one to four it moves a mirrored light by under half a degree. */
const CAMERA_DISTANCE = 2;
/** Whoever looks so nearly into the lens, degrees, looks into it: sitters do, and the guess is good to about that. */
const INTO_LENS = 9;
const DEGREE = Math.PI / 180;

/** Which way both eyes look, camera axes: by where the irises stand in front of the middles of the eyeballs. */
export function gazeOf(photo: Photograph, face: FoundFace, seen: SeenFace, eyes: readonly EyeFound[]): Vec3 {
  const { leftEye, rightEye, mesh } = buildHead();
  let x = 0;
  let y = 0;
  for (const { side, at } of eyes) {
    const eye = side === "left" ? leftEye : rightEye;
    const lids = side === "left" ? LEFT_EYE : RIGHT_EYE;
    // middle of the eyeball against the lids, on our own head, carried onto this one
    const middle = [0, 0, 0];
    let [px, py] = [0, 0];
    for (const v of lids) {
      for (let k = 0; k < 3; k++) middle[k] += mesh.positions[3 * v + k] / lids.length;
      px += face.points[3 * v] / lids.length;
      py += face.points[3 * v + 1] / lids.length;
    }
    const off = eye.centre.map((c, k) => c - middle[k]);
    const m = seen.cameraFromHead;
    const aside = m[0] * off[0] + m[1] * off[1] + m[2] * off[2];
    const up = m[3] * off[0] + m[4] * off[1] + m[5] * off[2];
    const grown = photo.picture.width / photo.width;
    const ahead = irisAhead(eye);
    x += ((grown * at[0] - px) / seen.pixelsPerMetre - aside) / ahead / eyes.length;
    y += (-(grown * at[1] - py) / seen.pixelsPerMetre - up) / ahead / eyes.length;
  }
  const off = Math.hypot(x, y);
  if (!(off > Math.sin(INTO_LENS * DEGREE))) return [0, 0, 1];
  const scale = Math.min(1, 0.9 / off);
  return [scale * x, scale * y, Math.sqrt(1 - (scale * off) ** 2)];
}

export interface EyeFound {
  readonly side: "left" | "right";
  /** middle of the iris in full-size pixels */
  readonly at: readonly [number, number];
}

/** From the middle of the eyeball to the plane of the iris. */
function irisAhead(eye: Eye): number {
  return eye.corneaCentre[0] - eye.centre[0] + irisDeep(eye);
}

/** From the cornea's centre to that plane. */
function irisDeep(eye: Eye): number {
  return Math.sqrt(eye.corneaRadius ** 2 - eye.irisRadius ** 2);
}

/** The front of an eye that looks along `gaze`, in camera axes with the middle of the iris at the origin. */
function corneaLooking(gaze: Vec3): Cornea {
  const eye = buildHead().leftEye;
  const deep = irisDeep(eye);
  return {
    centre: gaze.map((g) => -deep * g),
    radius: eye.corneaRadius,
    axis: gaze,
    reach: deep / eye.corneaRadius,
    iris: [0, 0, 0],
    irisRadius: eye.irisRadius,
    camera: [0, 0, CAMERA_DISTANCE],
    sight: [0, 0, -1],
    right: [1, 0, 0],
    up: [0, 1, 0],
    distance: CAMERA_DISTANCE,
  };
}

/** Unit, camera axes; null beside the cornea.
 * Shape   across, up: from the middle of the iris, iris radii
 * Source  law of reflection on a sphere of 7.8 mm (published-checks section 10), as the plan's own catchlights */
export function mirroredFrom(gaze: Vec3, across: number, up: number): Vec3 | null {
  const cornea = corneaLooking(gaze);
  const n = [0, 0, 0];
  if (!writeNormalAt(cornea, across, up, n)) return null;
  const { centre, radius, camera } = cornea;
  const to = [0, 1, 2].map((k) => camera[k] - (centre[k] + radius * n[k]));
  const length = Math.hypot(to[0], to[1], to[2]);
  const along = (to[0] * n[0] + to[1] * n[1] + to[2] * n[2]) / length;
  return [0, 1, 2].map((k) => 2 * along * n[k] - to[k] / length) as unknown as Vec3;
}

/** Degrees from one end to the other, as seen from the eye. */
export function widthSeen(
  gaze: Vec3,
  [x, y]: readonly [number, number],
  [dx, dy]: readonly [number, number],
): number | null {
  const a = mirroredFrom(gaze, x - dx, y - dy);
  const b = mirroredFrom(gaze, x + dx, y + dy);
  return a && b ? angleBetween(a, b) / DEGREE : null;
}

/** Where a spot lies on the iris: picture right and up, iris radii. */
export function onIris(eye: EyeCrop, x: number, y: number): [number, number] {
  return [(x - eye.x) / eye.radius, (eye.y - y) / eye.radius];
}
