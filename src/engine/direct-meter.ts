/** Light that comes straight from a lamp, to the accuracy that a meter's reading is printed with. */
import { bothWays, directField, directFlat, type FieldAtPoint } from "./direct.ts";
import { cutFace, type FaceParts, PART_STRIDE, probeFace, scatterFace } from "./faces.ts";
import type { Emitter } from "./scene.ts";
import type { Tracer } from "./tracer.ts";

/** What is spent on a meter: points that tell whether anything stands between, rings of the face where something does, and
 * the most and the fewest where nothing does, more of them the nearer the light is. */
export interface MeterWork {
  readonly probe: number;
  readonly halfSeenRings: number;
  readonly leastRings: number;
  readonly mostRings: number;
  /** parts are no larger than the distance divided by this */
  readonly fineness: number;
}

/** Nearer than a twentieth of the front's half width more would not fit into a moment's work. Parts no larger than a
 * twentieth of the distance: the midpoint error is then under 1e-4 (measured). */
export const PRINTED: MeterWork = {
  probe: 256,
  halfSeenRings: 32,
  leastRings: 24,
  mostRings: 400,
  fineness: 20,
};

/** Flat exposure and field at a meter, to the accuracy that a reading is printed with.
 * A first look at 256 points finds out whether anything stands between; if nothing does, the integral is taken over as
 * many parts as the distance asks for, without rays. Half-seen faces keep their rays, 4,096 of them. */
export function directAtMeter(
  tracer: Tracer,
  light: number,
  p: ArrayLike<number>,
  n: ArrayLike<number>,
  out: FieldAtPoint,
  work = PRINTED,
): number {
  const e = tracer.scene.emitters[light];
  const seen = visibleParts(tracer, light, scatterFace(e, work.probe), p);
  if (seen === 0) return 0;
  const whole = seen === 1 && visibleParts(tracer, light, probeFace(e), p) === 1;
  const parts = cutFace(e, whole ? ringsFor(e, p, work) : work.halfSeenRings);
  directField(tracer, light, parts, p[0], p[1], p[2], !whole, out);
  return directFlat(tracer, light, parts, 0, 1, p[0], p[1], p[2], n[0], n[1], n[2], !whole);
}

/** Share of the points that a point sees, of those that could reach it at all; 0 where none could. */
function visibleParts(tracer: Tracer, light: number, parts: FaceParts, p: ArrayLike<number>): number {
  const e = tracer.scene.emitters[light];
  const f = e.forward;
  const d = parts.data;
  let asked = 0;
  for (let i = 0; i < parts.count; i++) {
    const k = PART_STRIDE * i;
    const x = d[k] - p[0];
    const y = d[k + 1] - p[1];
    const z = d[k + 2] - p[2];
    if (x * f[0] + y * f[1] + z * f[2] < 0 || bothWays(e)) tracer.aim(asked++, x, y, z);
  }
  if (asked === 0) return 0;
  tracer.look(asked, p[0], p[1], p[2], light);
  let seen = 0;
  for (let i = 0; i < asked; i++) seen += tracer.seen[i];
  return seen / asked;
}

function ringsFor(e: Emitter, p: ArrayLike<number>, work: MeterWork): number {
  if (e.shape === "point") return 1;
  const x = p[0] - e.centre[0];
  const y = p[1] - e.centre[1];
  const z = p[2] - e.centre[2];
  const height = Math.abs(x * e.forward[0] + y * e.forward[1] + z * e.forward[2]);
  const size = Math.max(e.halfWidth, e.halfHeight);
  const wanted = Math.ceil((work.fineness * size) / Math.max(height, 1e-6));
  return Math.min(work.mostRings, Math.max(work.leastRings, wanted));
}
