/** What a meter is pointed at, by name. */
import { directionOf, type Plan, type Vec3 } from "../plan/index.ts";
import type { Nose } from "./place.ts";

/** A point this near to a thing's middle means the thing, metres. */
const NEAR = 0.25;
/** An angle is given to a degree or so: a thing this near to its line is meant. */
const WITHIN_DEG = 2;

export function aimedAt(
  plan: Plan,
  from: Readonly<Vec3>,
  direction: Plan["camera"]["direction"],
  noses: readonly Nose[],
): string | null {
  const targets: { name: string; at: Readonly<Vec3> }[] = [
    ...plan.lights.map((l) => ({ name: l.name, at: l.position })),
    { name: "the camera", at: plan.camera.position },
    ...noses.map((n) => ({ name: `${n.name}'s face`, at: n.tip })),
    ...plan.panels.map((p) => ({ name: p.name, at: p.position })),
  ].filter(({ at }) => distance(at, from) > 0.02);
  const way = wayOf(from, direction);
  let best: { name: string; off: number } | null = null;
  for (const { name, at } of targets) {
    const off = "at" in direction ? distance(at, direction.at) / NEAR : angle(from, way, at) / WITHIN_DEG;
    if (off <= 1 && (best === null || off < best.off)) best = { name, off };
  }
  if (best !== null) return best.name;
  return meetsBackdrop(plan, from, way) ? `the ${plan.backdrop?.kind}` : null;
}

function wayOf(from: Readonly<Vec3>, direction: Plan["camera"]["direction"]): Vec3 {
  const { bearing_deg, tilt_deg } = directionOf(direction, from);
  const [b, t] = [(bearing_deg * Math.PI) / 180, (tilt_deg * Math.PI) / 180];
  return [Math.cos(t) * Math.sin(b), Math.cos(t) * Math.cos(b), Math.sin(t)];
}

function distance(a: Readonly<Vec3>, b: Readonly<Vec3>): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

function angle(from: Readonly<Vec3>, way: Vec3, at: Readonly<Vec3>): number {
  const d = [0, 1, 2].map((k) => at[k] - from[k]);
  const length = Math.hypot(d[0], d[1], d[2]);
  const cosine = (d[0] * way[0] + d[1] * way[1] + d[2] * way[2]) / length;
  return (Math.acos(Math.max(-1, Math.min(1, cosine))) * 180) / Math.PI;
}

/** Whether a line meets the hanging part of the backdrop. */
function meetsBackdrop({ backdrop: b }: Plan, from: Readonly<Vec3>, way: Vec3): boolean {
  if (b === null) return false;
  const bearing = (b.bearing * Math.PI) / 180;
  const [nx, ny] = [Math.sin(bearing), Math.cos(bearing)];
  const toward = way[0] * nx + way[1] * ny;
  if (toward >= 0) return false;
  const t = ((b.position[0] - from[0]) * nx + (b.position[1] - from[1]) * ny) / toward;
  const across = (from[0] + t * way[0] - b.position[0]) * ny - (from[1] + t * way[1] - b.position[1]) * nx;
  const up = from[2] + t * way[2];
  return t > 0 && Math.abs(across) <= b.width / 2 && up >= 0 && up <= b.top;
}
