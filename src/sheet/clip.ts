/** Cuts outlines off at the rim of a drawing. */
import type { Extent, PaperPoint } from "./drawing.ts";

/** A closed outline within the extent (Sutherland-Hodgman); empty where nothing is left. */
export function clipOutline(points: readonly PaperPoint[], extent: Extent): PaperPoint[] {
  let out = [...points];
  for (const [axis, limit, sign] of rims(extent)) {
    const inside = (p: PaperPoint) => sign * (p[axis] - limit) <= 0;
    const cut: PaperPoint[] = [];
    out.forEach((p, i) => {
      const q = out[(i + 1) % out.length];
      if (inside(p)) cut.push(p);
      if (inside(p) !== inside(q)) cut.push(between(p, q, axis, limit));
    });
    out = cut;
  }
  return out;
}

/** The part of a straight line within the extent, or null. */
export function clipLine([from, to]: readonly PaperPoint[], extent: Extent): [PaperPoint, PaperPoint] | null {
  let [p, q] = [from, to];
  for (const [axis, limit, sign] of rims(extent)) {
    const outside = [p, q].map((r) => sign * (r[axis] - limit) > 0);
    if (outside[0] && outside[1]) return null;
    if (outside[0]) p = between(p, q, axis, limit);
    if (outside[1]) q = between(p, q, axis, limit);
  }
  return [p, q];
}

function rims(e: Extent): [axis: 0 | 1, limit: number, sign: 1 | -1][] {
  return [
    [0, e.across0, -1],
    [0, e.across1, 1],
    [1, e.up0, -1],
    [1, e.up1, 1],
  ];
}

function between(p: PaperPoint, q: PaperPoint, axis: 0 | 1, limit: number): PaperPoint {
  const share = (limit - p[axis]) / (q[axis] - p[axis]);
  const other = p[1 - axis] + share * (q[1 - axis] - p[1 - axis]);
  return axis === 0 ? [limit, other] : [other, limit];
}
