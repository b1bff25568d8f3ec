/** Where a receptor is held at the backdrop: behind the head, and toward the four corners of the picture. */
import { axesOf, type Backdrop, directionOf, type Plan, type Vec3 } from "../plan/index.ts";
import type { Nose } from "./place.ts";

export interface BackgroundPoint {
  /** as the camera sees it */
  readonly name: string;
  readonly position: Vec3;
  readonly bearing_deg: number;
}

/** The receptor's own thickness off the paper, metres: it must not lie in it. */
const OFF_PAPER = 0.02;
/** Toward a corner: this share of the way from the middle of the picture, so that a hand-held meter finds it. */
const TOWARD_CORNER = 0.8;
/** Nearer to an edge of the paper than this nobody measures, metres. */
const INSET = 0.1;

const CORNERS = [
  ["top left", -1, 1],
  ["top right", 1, 1],
  ["bottom left", -1, -1],
  ["bottom right", 1, -1],
] as const;

/** Five points of the hanging part of the backdrop, or none where there is no backdrop before the camera. A corner of the
 * picture that looks past the paper is measured at the paper's edge. */
export function backgroundPoints(plan: Plan, noses: readonly Nose[], person: number): BackgroundPoint[] {
  const { backdrop, camera } = plan;
  if (backdrop === null) return [];
  const aim = directionOf(camera.direction, camera.position);
  const { forward, right, up } = axesOf(aim.bearing_deg, aim.tilt_deg, camera.roll);
  const [wide, high] =
    camera.orientation === "portrait"
      ? [camera.sensor.height, camera.sensor.width]
      : [camera.sensor.width, camera.sensor.height];
  const ways: [string, Vec3][] = CORNERS.map(([name, x, y]) => {
    const [a, b] = [wide, high].map((side) => (TOWARD_CORNER * side) / 2 / camera.focalLength);
    return [name, along(forward, right, up, x * a, y * b)];
  });
  const head = noses[person]?.tip;
  ways.unshift([
    head === undefined ? "middle" : "behind the head",
    head === undefined ? forward : (camera.position.map((c, k) => head[k] - c) as Vec3),
  ]);
  const points = ways.map(([name, way]) => ({ name, position: onPaper(backdrop, camera.position, way) }));
  return points.flatMap(({ name, position }) =>
    position === null ? [] : [{ name, position, bearing_deg: backdrop.bearing }],
  );
}

function along(forward: Vec3, right: Vec3, up: Vec3, x: number, y: number): Vec3 {
  return forward.map((f, k) => f + x * right[k] + y * up[k]) as Vec3;
}

/** Where a line of sight meets the hanging paper, kept on it; null where it never comes to its lit side. */
function onPaper(b: Backdrop, from: Readonly<Vec3>, way: Readonly<Vec3>): Vec3 | null {
  const bearing = (b.bearing * Math.PI) / 180;
  const [nx, ny] = [Math.sin(bearing), Math.cos(bearing)];
  const toward = way[0] * nx + way[1] * ny;
  if (toward >= 0) return null;
  const t = ((b.position[0] - from[0]) * nx + (b.position[1] - from[1]) * ny) / toward;
  if (t <= 0) return null;
  const across = (from[0] + t * way[0] - b.position[0]) * ny - (from[1] + t * way[1] - b.position[1]) * nx;
  const half = Math.max(0, b.width / 2 - INSET);
  const kept = Math.min(half, Math.max(-half, across));
  // over the curve, where the paper hangs
  const low = Math.min(b.sweepRadius + INSET, b.top / 2);
  return [
    b.position[0] + kept * ny + OFF_PAPER * nx,
    b.position[1] - kept * nx + OFF_PAPER * ny,
    Math.max(low, Math.min(b.top - INSET, from[2] + t * way[2])),
  ];
}
