/** The camera and the edges of what it sees, at true angles. */
import { axesOf, type Camera, directionOf, type Vec3 } from "../plan/index.ts";
import type { Extent, PaperPoint, View } from "./drawing.ts";

/** An ordinary body and lens, metres: half-widths across and up, and how far behind the entrance pupil they run.
 * Only the pupil's place is in the plan; the rest shows which way the camera looks. */
const BODY = { across: 0.07, up: 0.05, from: -0.2, to: -0.13 } as const;
const LENS = { across: 0.04, up: 0.04, from: -0.13, to: 0.03 } as const;

export interface CameraShapes {
  readonly body: PaperPoint[];
  readonly lens: PaperPoint[];
  /** two lines from the pupil to the rim of the drawing; none where the lens looks at the reader or away from him */
  fieldEdges(extent: Extent): PaperPoint[][];
}

export function cameraShapes(camera: Camera, view: View): CameraShapes {
  const { bearing_deg, tilt_deg } = directionOf(camera.direction, camera.position);
  const { forward, right, up } = axesOf(bearing_deg, tilt_deg, camera.roll);
  const [a, u] = view === "floor" ? [0, 1] : [1, 2];
  const at = (f: number, r: number, h: number): PaperPoint => [
    camera.position[a] + f * forward[a] + r * right[a] + h * up[a],
    camera.position[u] + f * forward[u] + r * right[u] + h * up[u],
  ];
  const portrait = camera.orientation === "portrait";
  const box = (size: typeof BODY | typeof LENS) => {
    const [r, h] = portrait ? [size.up, size.across] : [size.across, size.up];
    const corners = [size.from, size.to].flatMap((f) =>
      [-r, r].flatMap((x) => [-h, h].map((y) => at(f, x, y))),
    );
    return hull(corners);
  };
  return {
    body: box(BODY),
    lens: box(LENS),
    fieldEdges: (extent) => {
      const from: PaperPoint = [camera.position[a], camera.position[u]];
      return outermost(
        cornerRays(camera, { forward, right, up }).map((ray) => [ray[a], ray[u]] as PaperPoint),
      )
        .map((way) => reach(from, way, extent))
        .filter((end) => end !== null)
        .map((end) => [from, end]);
    },
  };
}

/** The four rays through the corners of the picture. */
function cornerRays(camera: Camera, axes: { forward: Vec3; right: Vec3; up: Vec3 }): Vec3[] {
  const { width, height } = camera.sensor;
  const [across, upward] = camera.orientation === "portrait" ? [height, width] : [width, height];
  const tanX = across / (2 * camera.focalLength);
  const tanY = upward / (2 * camera.focalLength);
  return [-1, 1].flatMap((i) =>
    [-1, 1].map((j) =>
      [0, 1, 2].map((k) => axes.forward[k] + i * tanX * axes.right[k] + j * tanY * axes.up[k]),
    ),
  ) as Vec3[];
}

/** The two of four directions that hold the others between them; none where they go all round. */
function outermost(ways: readonly PaperPoint[]): PaperPoint[] {
  const angles = ways.map(([a, u]) => Math.atan2(u, a)).sort((p, q) => p - q);
  let widest = 0;
  let after = 0;
  angles.forEach((angle, i) => {
    const next = i + 1 < angles.length ? angles[i + 1] : angles[0] + 2 * Math.PI;
    if (next - angle > widest) {
      widest = next - angle;
      after = i;
    }
  });
  if (widest <= Math.PI) return [];
  return [angles[after], angles[(after + 1) % angles.length]].map(
    (x): PaperPoint => [Math.cos(x), Math.sin(x)],
  );
}

/** Where a line leaves the drawing; null where it starts outside. */
function reach(from: PaperPoint, way: PaperPoint, extent: Extent): PaperPoint | null {
  const { across0, across1, up0, up1 } = extent;
  if (from[0] < across0 || from[0] > across1 || from[1] < up0 || from[1] > up1) return null;
  const far = (at: number, step: number, low: number, high: number) =>
    step > 0 ? (high - at) / step : step < 0 ? (low - at) / step : Infinity;
  const t = Math.min(far(from[0], way[0], across0, across1), far(from[1], way[1], up0, up1));
  return [from[0] + t * way[0], from[1] + t * way[1]];
}

/** Convex hull, counter-clockwise (monotone chain). */
function hull(points: readonly PaperPoint[]): PaperPoint[] {
  const sorted = [...points].sort((p, q) => p[0] - q[0] || p[1] - q[1]);
  const chain = (order: readonly PaperPoint[]) => {
    const out: PaperPoint[] = [];
    for (const p of order) {
      while (out.length > 1 && turn(out[out.length - 2], out[out.length - 1], p) <= 1e-12) out.pop();
      out.push(p);
    }
    return out.slice(0, -1);
  };
  return [...chain(sorted), ...chain(sorted.reverse())];
}

function turn(o: PaperPoint, p: PaperPoint, q: PaperPoint): number {
  return (p[0] - o[0]) * (q[1] - o[1]) - (p[1] - o[1]) * (q[0] - o[0]);
}
