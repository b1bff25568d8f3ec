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

/** Distance to the rectangle along the ray, 0 where it is missed or lies beyond tMax. */
export function hitQuad(
  q: Quad,
  ox: number,
  oy: number,
  oz: number,
  dx: number,
  dy: number,
  dz: number,
  tMax: number,
): number {
  const f = q.forward;
  const c = q.centre;
  const slope = dx * f[0] + dy * f[1] + dz * f[2];
  if (slope === 0) return 0;
  const t = ((c[0] - ox) * f[0] + (c[1] - oy) * f[1] + (c[2] - oz) * f[2]) / slope;
  if (!(t > 1e-9 && t < tMax)) return 0;
  const x = ox + t * dx - c[0];
  const y = oy + t * dy - c[1];
  const z = oz + t * dz - c[2];
  if (Math.abs(x * q.right[0] + y * q.right[1] + z * q.right[2]) > q.halfWidth) return 0;
  if (Math.abs(x * q.up[0] + y * q.up[1] + z * q.up[2]) > q.halfHeight) return 0;
  return t;
}

/** The same for the plate of a light; a point light has no plate. */
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
  if (e.shape === "point") return 0;
  const f = e.forward;
  const c = e.centre;
  const slope = dx * f[0] + dy * f[1] + dz * f[2];
  if (slope === 0) return 0;
  const t = ((c[0] - ox) * f[0] + (c[1] - oy) * f[1] + (c[2] - oz) * f[2]) / slope;
  if (!(t > 1e-9 && t < tMax)) return 0;
  const x = ox + t * dx - c[0];
  const y = oy + t * dy - c[1];
  const z = oz + t * dz - c[2];
  const a = x * e.right[0] + y * e.right[1] + z * e.right[2];
  const b = x * e.up[0] + y * e.up[1] + z * e.up[2];
  return rimFraction(e, a, b) <= 1 ? t : 0;
}
