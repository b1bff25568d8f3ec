import type { Projection } from "./projection.ts";

/** A smooth curve along a line: from middle to middle of its stretches, each of its points pulling (a quadratic
 * B-spline). It stays within the triangles of neighbouring points, so within a quarter of a cell of the line. */
export function curve(points: Float64Array, projection: Projection): string {
  const n = points.length / 2;
  const at = (k: number) => projection.toScreen(points[2 * k] as number, points[2 * k + 1] as number);
  const text = ({ x, y }: { x: number; y: number }) => `${x.toFixed(1)},${y.toFixed(1)}`;
  const middle = (a: number, b: number) => {
    const [p, q] = [at(a), at(b)];
    return { x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 };
  };
  const closed = n > 3 && points[0] === points[2 * n - 2] && points[1] === points[2 * n - 1];
  let data = `M${text(closed ? middle(n - 2, 0) : at(0))}`;
  for (let k = closed ? 0 : 1; k + 1 < n; k++) data += `Q${text(at(k))} ${text(middle(k, k + 1))}`;
  return closed ? `${data}Z` : `${data}L${text(at(n - 1))}`;
}
