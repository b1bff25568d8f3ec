/** Flat outlines: clipped, measured, wrapped. Corners are [x, y]; the last joins the first. */

export type Polygon = [number, number][];

/** What of `subject` lies inside a convex outline that runs counter-clockwise. The subject may be any shape; parts that
 * the clip leaves apart stay joined along its edge.
 * Source  Sutherland and Hodgman 1974 */
export function clipConvex(subject: Polygon, clip: Polygon): Polygon {
  let kept = subject;
  for (let i = 0; i < clip.length && kept.length > 0; i++) {
    const a = clip[i];
    const b = clip[(i + 1) % clip.length];
    const ax = a[0];
    const ay = a[1];
    const ux = b[0] - ax;
    const uy = b[1] - ay;
    let cut = false;
    for (let k = 0; k < kept.length && !cut; k++) cut = ux * (kept[k][1] - ay) < uy * (kept[k][0] - ax);
    if (cut) kept = leftOf(kept, ax, ay, ux, uy);
  }
  return kept;
}

/** What lies on the left of a line through (ax, ay) along (ux, uy). */
function leftOf(subject: Polygon, ax: number, ay: number, ux: number, uy: number): Polygon {
  const out: Polygon = [];
  let p = subject[subject.length - 1];
  let from = ux * (p[1] - ay) - uy * (p[0] - ax);
  for (const q of subject) {
    const to = ux * (q[1] - ay) - uy * (q[0] - ax);
    if (from >= 0 !== to >= 0) {
      const t = from / (from - to);
      out.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])]);
    }
    if (to >= 0) out.push(q);
    p = q;
    from = to;
  }
  return out;
}

/** Area, counted negative where the corners run clockwise.
 * Source  shoelace formula */
export function signedArea(p: Polygon): number {
  let twice = 0;
  for (let i = 0; i < p.length; i++) {
    const a = p[i];
    const b = p[(i + 1) % p.length];
    twice += a[0] * b[1] - b[0] * a[1];
  }
  return twice / 2;
}

/** Middle of the area; of the corners where there is no area. */
export function middleOf(p: Polygon): [number, number] {
  const area = signedArea(p);
  let x = 0;
  let y = 0;
  if (Math.abs(area) < NO_AREA) {
    for (const q of p) {
      x += q[0] / p.length;
      y += q[1] / p.length;
    }
    return [x, y];
  }
  for (let i = 0; i < p.length; i++) {
    const [a, b] = p[i];
    const [u, v] = p[(i + 1) % p.length];
    const w = (a * v - u * b) / (6 * area);
    x += w * (a + u);
    y += w * (b + v);
  }
  return [x, y];
}

/** A point that has been drawn as an outline. */
const NO_AREA = 1e-14;

/** The lowest and the highest corner of the box round an outline. */
export function boxOf(p: Polygon): [[number, number], [number, number]] {
  const low: [number, number] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high: [number, number] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const q of p)
    for (const k of [0, 1] as const) {
      low[k] = Math.min(low[k], q[k]);
      high[k] = Math.max(high[k], q[k]);
    }
  return [low, high];
}

/** Width and height of that box; nothing for no outline. */
export function sizeOf(p: Polygon): [number, number] {
  if (p.length === 0) return [0, 0];
  const [low, high] = boxOf(p);
  return [high[0] - low[0], high[1] - low[1]];
}

/** The smallest convex outline round points, counter-clockwise.
 * Source  Andrew 1979, monotone chain */
export function hullOf(points: readonly (readonly [number, number])[]): Polygon {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const chain = (list: readonly (readonly [number, number])[]) => {
    const out: Polygon = [];
    for (const [x, y] of list) {
      while (out.length > 1) {
        const [ax, ay] = out[out.length - 2];
        const [bx, by] = out[out.length - 1];
        if ((bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0) break;
        out.pop();
      }
      out.push([x, y]);
    }
    out.pop();
    return out;
  };
  return [...chain(sorted), ...chain(sorted.reverse())];
}
