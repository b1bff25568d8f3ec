/** Whether a flat thing shows in the picture: one rule for the search, for steps and for what is told of both. */
import { frontCorners, type Light, type Panel, panelFront } from "../plan/index.ts";
import type { Viewfinder } from "../reading/camera-rays.ts";

/** Whether any part of a front or panel lies in the camera's field; of a point, the point. */
export function showsIn(view: Viewfinder, thing: Light | Panel): boolean {
  const corners = frontCorners("face" in thing ? thing : panelFront(thing));
  return isInPicture(view, corners.length === 0 ? [thing.position] : corners);
}

/** Whether any part of a flat convex thing lies in the camera's field: its corners in the order of its outline. A board may
 * fill the picture with every corner of it, and every point that one would try, outside; so it is cut by the field's four
 * sides, and what is left over is what is seen. */
export function isInPicture(view: Viewfinder, corners: readonly (readonly number[])[]): boolean {
  let left = corners.map((corner) => seenFrom(view, corner));
  for (const side of SIDES) {
    left = cut(left, (p) => side(p, view));
    if (left.length === 0) return false;
  }
  return true;
}

/** From the lens: right, up, ahead. */
type Seen = readonly [right: number, up: number, ahead: number];

function seenFrom({ position, right, up, forward }: Viewfinder, p: readonly number[]): Seen {
  const [x, y, z] = [p[0] - position[0], p[1] - position[1], p[2] - position[2]];
  const along = (axis: readonly number[]) => x * axis[0] + y * axis[1] + z * axis[2];
  return [along(right), along(up), along(forward)];
}

/** How far inside each side of the field; all four together also mean ahead of the lens. */
const SIDES: readonly ((p: Seen, view: Viewfinder) => number)[] = [
  ([x, , deep], { midX, tanX }) => (midX + tanX) * deep - x,
  ([x, , deep], { midX, tanX }) => x - (midX - tanX) * deep,
  ([, y, deep], { midY, tanY }) => (midY + tanY) * deep - y,
  ([, y, deep], { midY, tanY }) => y - (midY - tanY) * deep,
];

/** What of an outline lies inside of one side. */
function cut(outline: readonly Seen[], inside: (p: Seen) => number): Seen[] {
  const out: Seen[] = [];
  outline.forEach((p, i) => {
    const q = outline[(i + 1) % outline.length];
    const [a, b] = [inside(p), inside(q)];
    if (a > 0) out.push(p);
    if (a > 0 !== b > 0) {
      const t = a / (a - b);
      out.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]), p[2] + t * (q[2] - p[2])]);
    }
  });
  return out;
}
