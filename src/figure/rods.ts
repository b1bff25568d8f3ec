/** Rods along smooth paths, for frames. Metres. */
import type { Point } from "./measures.ts";
import { catmullRom, skinOver } from "./solids.ts";
import { MATERIAL, type Mesh } from "./types.ts";

/** Points round a rod. */
const SECTION = 10;

/** An oval round a point, given its two half-axes. */
export function section(middle: Point, a: readonly number[], b: readonly number[]): Point[] {
  return Array.from({ length: SECTION }, (_, j) => {
    const way = (2 * Math.PI * j) / SECTION;
    const [c, s] = [Math.cos(way), Math.sin(way)];
    const at = (k: 0 | 1 | 2) => middle[k] + c * a[k] + s * b[k];
    return [at(0), at(1), at(2)];
  });
}

/** A path steeper than this, as the sine of its angle to the upright, has no level of its own. */
const LEVEL_ENOUGH = 0.05;

/** A rod along a smooth path: half its thickness across (aside where it runs ahead, up where it runs aside) and tall. */
export function rod(
  path: readonly Point[],
  halfAcross: (t: number) => number,
  halfTall: (t: number) => number,
): Mesh {
  const n = path.length;
  const loops = path.map((p, i) => {
    const [a, b] = [path[Math.max(0, i - 1)], path[Math.min(n - 1, i + 1)]];
    const d = unit([b[0] - a[0], b[1] - a[1], b[2] - a[2]]);
    // square to the path: level first, then what is left
    const level = Math.hypot(d[0], d[1]) > LEVEL_ENOUGH ? unit([-d[1], d[0], 0]) : ([0, 1, 0] as Point);
    const tall = unit(cross(d, level));
    const aside = cross(tall, d);
    const t = i / (n - 1);
    return section(
      p,
      aside.map((x) => halfAcross(t) * x),
      tall.map((x) => halfTall(t) * x),
    );
  });
  return skinOver(path[0], loops, path[n - 1], () => MATERIAL.spectacleFrame);
}

export function unit(v: Point): Point {
  const length = Math.hypot(v[0], v[1], v[2]);
  return [v[0] / length, v[1] / length, v[2] / length];
}

export function cross(a: Point, b: Point): Point {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

/** Points on a Catmull-Rom curve through points, `between` of them to each piece. */
export function curve(through: readonly Point[], between: number): Point[] {
  const last = through.length - 1;
  const out: Point[] = [];
  for (let i = 0; i < last; i++) {
    const [a, b, c, d] = [i - 1, i, i + 1, i + 2].map((k) => through[Math.min(last, Math.max(0, k))]);
    for (let s = 0; s < between; s++) {
      const at = (k: 0 | 1 | 2) => catmullRom(a[k], b[k], c[k], d[k], s / between);
      out.push([at(0), at(1), at(2)]);
    }
  }
  return [...out, through[last]];
}
