/** Distance fields of rounded solids and their smooth union: negative inside. Any one unit of length.
 * Source: sphere-traceable bounds; near the surface they are distances to first order. */
export type Field = (x: number, y: number, z: number) => number;

export function ellipsoid(cx: number, cy: number, cz: number, rx: number, ry: number, rz: number): Field {
  return (x, y, z) => {
    const u = (x - cx) / rx;
    const v = (y - cy) / ry;
    const w = (z - cz) / rz;
    const k0 = Math.sqrt(u * u + v * v + w * w);
    const k1 = Math.sqrt((u * u) / (rx * rx) + (v * v) / (ry * ry) + (w * w) / (rz * rz));
    return k1 > 0 ? (k0 * (k0 - 1)) / k1 : -Math.min(rx, ry, rz);
  };
}

/** A limb: a rod between two points whose radius runs from `ra` to `rb`. */
export function limb(a: readonly number[], ra: number, b: readonly number[], rb: number): Field {
  const [ax, ay, az] = a;
  const dx = b[0] - ax;
  const dy = b[1] - ay;
  const dz = b[2] - az;
  const dd = dx * dx + dy * dy + dz * dz;
  return (x, y, z) => {
    const px = x - ax;
    const py = y - ay;
    const pz = z - az;
    const t = Math.min(1, Math.max(0, (px * dx + py * dy + pz * dz) / dd));
    const qx = px - t * dx;
    const qy = py - t * dy;
    const qz = pz - t * dz;
    return Math.sqrt(qx * qx + qy * qy + qz * qz) - (ra + t * (rb - ra));
  };
}

/** The smaller of two, rounded over where they differ by less than `k`. */
export function blend(a: number, b: number, k: number): number {
  const h = Math.max(0, k - Math.abs(a - b)) / k;
  return Math.min(a, b) - (h * h * k) / 4;
}

/** |y| without the kink at 0, so that two mirrored halves meet smoothly. */
export function bothSides(y: number, roundness: number): number {
  return Math.sqrt(y * y + roundness * roundness);
}

const CLOSE = 1e-5;
const MOST_STEPS = 80;
/** Blended fields fall a little faster than distance: steps are shortened by this. */
const CAUTION = 0.8;

/** How far along a ray (unit `way`) the outermost place with the value `level` lies, walking in from `far`. */
export function inwardHit(
  field: Field,
  origin: readonly number[],
  way: readonly number[],
  level: number,
  far: number,
): number {
  let t = far;
  for (let step = 0; step < MOST_STEPS; step++) {
    const f = field(origin[0] + t * way[0], origin[1] + t * way[1], origin[2] + t * way[2]) - level;
    if (f < CLOSE * far) break;
    t -= CAUTION * f;
  }
  return t;
}
