/** A light moved along its own line to or from the face: what that gives, and how far the room lets it. */
import type { Face, Light, Plan, Vec3 } from "../plan/index.ts";
import { axisShareOf, distanceOf, nearestNose } from "./at-face.ts";
import { stopsText } from "./words.ts";

/** A front this near is in the picture, whatever it is (common practice, no source). */
const NEAREST_M = 0.4;
/** Where nothing stands in the way. */
const OPEN_M = 30;
/** Halvings of the way: to a millimetre. */
const HALVINGS = 16;
/** Left free between a front and wall, floor or ceiling. */
const AIR_M = 0.05;

export interface Moved {
  readonly from_m: number;
  readonly to_m: number;
  /** above 0: stops more at the face */
  readonly gives: number;
  readonly effect: string;
}

/** The light on the line from nose to front, where the face gets so many stops more (or less, below 0), or as near to that as
 * room and picture let it; null where nobody sits there.
 * Accuracy the front's own exposure on its axis, to a millimetre of the way: an aim that misses the nose is not counted */
export function movedAlong(plan: Plan, light: Light, stopsMore: number): Moved | null {
  const nose = nearestNose(plan, light.position);
  if (nose === null) return null;
  const from_m = distanceOf(light.position, nose);
  const now = axisShareOf(light, plan, from_m);
  const gain = (to_m: number) => Math.log2(axisShareOf(light, plan, to_m) / now);
  const end = stopsMore > 0 ? Math.min(from_m, NEAREST_M) : farthest(plan, light, nose, from_m);
  const to_m = Math.abs(gain(end)) <= Math.abs(stopsMore) ? end : between(gain, from_m, end, stopsMore);
  const gives = gain(to_m);
  return { from_m, to_m, gives, effect: effectOf(plan, light, nose, { from_m, to_m, gives }) };
}

function between(gain: (d: number) => number, from: number, end: number, wanted: number): number {
  let [a, b] = [from, end];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (a + b) / 2;
    if (Math.abs(gain(middle)) < Math.abs(wanted)) a = middle;
    else b = middle;
  }
  return b;
}

/** As far from the nose as walls, floor and ceiling let the front go. */
function farthest({ room }: Plan, { face, position }: Light, nose: Readonly<Vec3>, from_m: number): number {
  if (room === null) return OPEN_M;
  const half = halfSize(face) + AIR_M;
  const size = [room.width, room.depth, room.height];
  let far = OPEN_M;
  for (const [k, length] of size.entries()) {
    const per_m = (position[k] - nose[k]) / from_m;
    if (per_m > 0) far = Math.min(far, (length - half - nose[k]) / per_m);
    if (per_m < 0) far = Math.min(far, (half - nose[k]) / per_m);
  }
  return Math.max(from_m, far);
}

function halfSize(face: Face): number {
  if (face.shape === "point") return 0;
  return (face.shape === "rectangle" ? Math.max(face.width, face.height) : face.width) / 2;
}

function effectOf(
  plan: Plan,
  { face, position }: Light,
  nose: Readonly<Vec3>,
  { from_m, gives, to_m }: Pick<Moved, "from_m" | "gives" | "to_m">,
): string {
  const wide = (d: number) => Math.round((360 / Math.PI) * Math.atan(halfSize(face) / d));
  const softness =
    face.shape === "point"
      ? "edges stay hard"
      : `the front looks ${wide(to_m)}° wide instead of ${wide(from_m)}°, ${to_m > from_m ? "harder" : "softer"}`;
  const behind = paperBehind(plan, position, nose);
  // what lights the face from before it lights the paper from so much further off
  const paper = behind === null ? 0 : 2 * Math.log2((from_m + behind) / (to_m + behind)) - gives;
  const ground =
    Math.abs(paper) < 0.1
      ? ""
      : `; what it gives the background ${paper > 0 ? "comes up" : "falls"} by about ${stopsText(Math.abs(paper))} against the face`;
  return `direction stays; ${softness}${ground}`;
}

/** From the nose back to the paper, m; null where there is none, or where the light is not before the sitter. */
function paperBehind({ backdrop }: Plan, light: Readonly<Vec3>, nose: Readonly<Vec3>): number | null {
  if (backdrop === null) return null;
  const [x, y] = backdrop.position;
  const bearing = (backdrop.bearing * Math.PI) / 180;
  const before = (at: Readonly<Vec3>) => (at[0] - x) * Math.sin(bearing) + (at[1] - y) * Math.cos(bearing);
  return before(nose) > 0 && before(light) > before(nose) ? before(nose) : null;
}
