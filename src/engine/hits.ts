/** Where a ray meets a flat plate or comes near a ball: closed forms. */
import { type Emitter, type MeshInstance, type Quad, rimFraction } from "./scene.ts";

/** Sign of (ray direction . outward normal) on a triangle, in the mesh's own axes. */
export function facing(m: MeshInstance, triangle: number, dx: number, dy: number, dz: number): number {
  const p = m.positions;
  const a = 3 * m.triangles[3 * triangle];
  const b = 3 * m.triangles[3 * triangle + 1];
  const c = 3 * m.triangles[3 * triangle + 2];
  const ux = p[b] - p[a];
  const uy = p[b + 1] - p[a + 1];
  const uz = p[b + 2] - p[a + 2];
  const wx = p[c] - p[a];
  const wy = p[c + 1] - p[a + 1];
  const wz = p[c + 2] - p[a + 2];
  return dx * (uy * wz - uz * wy) + dy * (uz * wx - ux * wz) + dz * (ux * wy - uy * wx);
}

export function nearSphere(
  s: Float64Array,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMax: number,
): boolean {
  const x = s[0] - ox;
  const y = s[1] - oy;
  const z = s[2] - oz;
  const r2 = s[3] * s[3];
  const d2 = x * x + y * y + z * z;
  if (d2 <= r2) return true;
  const along = x * dx + y * dy + z * dz;
  if (along <= 0 || along - s[3] > tMax) return false;
  return d2 - along * along <= r2;
}

/** What a panel and a light's face have in common: a flat thing with axes of its own. */
export type Plate = Pick<Quad, "centre" | "right" | "up" | "forward" | "halfWidth" | "halfHeight">;

/** Whether a point of a plate's plane, a to its right and b up, lies on it. `face` is the light whose outline the plate
 * has; null for a panel, a plain rectangle. */
export function onPlate(p: Plate, face: Emitter | null, a: number, b: number): boolean {
  return face ? rimFraction(face, a, b) <= 1 : Math.abs(a) <= p.halfWidth && Math.abs(b) <= p.halfHeight;
}

/** Distance to a plate along the ray, 0 where it is missed or lies beyond tMax. */
export function hitPlate(
  p: Plate,
  face: Emitter | null,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMax: number,
): number {
  const f = p.forward;
  const c = p.centre;
  const slope = dx * f[0] + dy * f[1] + dz * f[2];
  if (slope === 0) return 0;
  const t = ((c[0] - ox) * f[0] + (c[1] - oy) * f[1] + (c[2] - oz) * f[2]) / slope;
  if (!(t > 1e-9 && t < tMax)) return 0;
  const x = ox + t * dx - c[0];
  const y = oy + t * dy - c[1];
  const z = oz + t * dz - c[2];
  const a = x * p.right[0] + y * p.right[1] + z * p.right[2];
  const b = x * p.up[0] + y * p.up[1] + z * p.up[2];
  return onPlate(p, face, a, b) ? t : 0;
}

/** The same for a light; a bare point has no plate. */
export function hitEmitter(
  e: Emitter,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMax: number,
): number {
  return e.shape === "point" ? 0 : hitPlate(e, e, ox, oy, oz, dx, dy, dz, tMax);
}
