/** What the mask leaves out: cranium, underside of the jaw and neck, as rings of the cage that follow a smooth solid.
 * Centimetres, head axes. */
import { blend, bothSides, ellipsoid, type Field, inwardHit, limb } from "./fields.ts";
import type { Point } from "./measures.ts";

/** Head length 195, breadth 151, tragion to top 129 mm (ANSUR II means of women and men). */
const skull = ellipsoid(-0.35, 0, 4.2, 9.85, 7.62, 9.08);
const occiput = ellipsoid(-3.4, 0, 2.6, 6.4, 6.7, 6.7);
/** Mandible: from the chin round to its angle, from there up to the joint before the ear, and the floor of the mouth
 * between. Its ends lie where the mask's rim is a finger's thickness of flesh away. */
const jawFront = limb([7.0, 0.8, -7.9], 1.4, [5.0, 3.6, -6.8], 1.12);
const jawSide = limb([5.0, 3.6, -6.8], 1.12, [1.8, 4.9, -4.9], 1.15);
const ramus = limb([1.8, 4.9, -4.9], 1.15, [0.9, 5.6, -1.0], 1.25);
const mouthFloor = ellipsoid(3.4, 0, -4.4, 5.2, 4.9, 5.0);
/** Neck circumference about 36 cm; the muscle from behind the ear to the breastbone rounds its sides. */
const neck = limb([-1.9, 0, -3], 5.3, [-2.9, 0, -18], 5.5);
const neckMuscle = limb([-2.0, 5.0, -2.6], 1.1, [1.7, 2.0, -17], 0.9);

/** The neck alone, as the body has it. */
export const neckField: Field = (x, y, z) => blend(neck(x, y, z), neckMuscle(x, bothSides(y, 0.3), z), 1.6);

export const headField: Field = (x, y, z) => {
  const side = bothSides(y, 0.3);
  let f = blend(skull(x, y, z), occiput(x, y, z), 1.5);
  let jaw = Math.min(jawFront(x, side, z), jawSide(x, side, z), ramus(x, side, z));
  jaw = blend(jaw, mouthFloor(x, y, z), 1.6);
  f = blend(f, jaw, 1.4);
  return blend(f, neckField(x, y, z), 1.8);
};

/** Each ring lies in a plane across the head, bent back at the sides: lowest point (under the jaw, down the throat),
 * highest point (over the crown, down the nape), both as ahead and up; and how far ahead its sides lie, at rest level.
 * The ray that finds the ring starts between them. */
const RINGS: readonly (readonly [number, number, number, number, number])[] = [
  [7.2, -9.8, 7.2, 9.6, 0.5],
  [5.9, -9.8, 4.6, 11.8, -0.5],
  [4.8, -9.9, 1.0, 12.9, -1.3],
  [3.9, -10.1, -3.4, 12.4, -2.0],
  [3.4, -10.6, -7.2, 9.6, -2.7],
  [3.2, -11.1, -9.6, 5.6, -3.3],
  [3.1, -11.7, -9.7, 1.4, -3.3],
  [3.0, -12.4, -8.6, -3.0, -3.0],
  [2.9, -13.3, -8.0, -7.0, -2.7],
  [2.75, -14.5, -8.2, -11.2, -2.7],
];
/** The first ring's base: where the mask's rim has its own lowest and highest points. */
const RIM_BASE = [8.43, -9.3, 8.63, 7.1] as const;
/** How much of the rim's own distance from the solid the next rings keep, so that no step shows at the rim. */
const KEPT = [0.6, 0.25, 0.08];
/** How evenly each ring's points are spread, from the rim's own spread at 0. The first rings draw in under the jaw
 * first, so that they run across its edge and not along it. */
const EVENNESS = [-0.6, -0.8, -0.7, -0.4, 0, 0.3, 0.6, 0.8, 0.9, 1];
/** The rim bends back by more or less than the rings do: how far each ring has gone over from its bend to their own. */
const OWN_BEND = [0.1, 0.45, 0.75, 0.95];

/** Rings of points from the mask's rim (which is not repeated) to the neck's foot; each as long as the rim. */
export function craniumRings(rim: readonly Point[]): Point[][] {
  const middleUp = (RIM_BASE[1] + RIM_BASE[3]) / 2;
  const rimAhead = (RIM_BASE[0] + RIM_BASE[2]) / 2;
  const own = rim.map(([, y, z]) => Math.atan2(y, middleUp - z));
  const off = rim.map(([x, y, z]) => headField(x, y, z));
  const rings = RINGS.map(([lowX, lowZ, highX, highZ, sideX], k) => {
    const middle = [(lowX + highX) / 2, (lowZ + highZ) / 2];
    const half = Math.hypot(lowX - highX, lowZ - highZ) / 2;
    const down = [(lowX - highX) / (2 * half), (lowZ - highZ) / (2 * half)];
    // the plane's own way back: across `down`
    const back = [down[1], -down[0]];
    const bow = (middle[0] - sideX) / -back[0];
    return rim.map((_, i): Point => {
      const even = turnOf(i, rim.length);
      const angle = own[i] + EVENNESS[k] * (even - own[i]);
      const c = Math.cos(angle);
      const s = Math.sin(angle);
      const bend = OWN_BEND[k] ?? 1;
      const bent = bend * bow * s * s + (1 - bend) * (rimAhead - rim[i][0]);
      const origin: Point = [middle[0] + bent * back[0], 0, middle[1] + bent * back[1]];
      const way: Point = [down[0] * c, s, down[1] * c];
      const t = inwardHit(headField, origin, way, (KEPT[k] ?? 0) * off[i], FAR);
      return [origin[0] + t * way[0], t * way[1], origin[2] + t * way[2]];
    });
  });
  for (let round = 0; round < RELAXED; round++) relax(rim, rings);
  rings.forEach((ring, k) => {
    rings[k] = ring.map((p, i) => settled(p, (KEPT[k] ?? 0) * off[i]));
  });
  relax(rim, rings);
  return rings;
}

/** Rounds of evening out: where the solids meet at an angle, rays leave neighbouring points far apart. */
const RELAXED = 2;

/** Moves each point half-way to the mean of its four neighbours; the rim and the last ring stay. */
function relax(rim: readonly Point[], rings: Point[][]) {
  const before = [rim, ...rings.map((ring) => [...ring])];
  for (let k = 1; k < rings.length; k++) {
    const n = rim.length;
    rings[k - 1] = before[k].map((p, i): Point => {
      const around = [before[k - 1][i], before[k + 1][i], before[k][(i + 1) % n], before[k][(i + n - 1) % n]];
      const even = (axis: number) => p[axis] / 2 + around.reduce((sum, q) => sum + q[axis], 0) / 8;
      return [even(0), even(1), even(2)];
    });
  }
}

const NUDGE = 1e-3;

/** The nearest point, to first order, at which the field has the value `level`: evening out draws curves in. */
function settled([x, y, z]: Point, level: number): Point {
  const f = headField(x, y, z);
  const gx = (headField(x + NUDGE, y, z) - f) / NUDGE;
  const gy = (headField(x, y + NUDGE, z) - headField(x, y - NUDGE, z)) / (2 * NUDGE);
  const gz = (headField(x, y, z + NUDGE) - f) / NUDGE;
  const step = (f - level) / (gx * gx + gy * gy + gz * gz);
  return [x - step * gx, y - step * gy, z - step * gz];
}

/** The angle of a place on the rim if all were evenly spread, between -pi and pi. */
function turnOf(i: number, count: number): number {
  const turn = (2 * Math.PI * i) / count;
  return turn > Math.PI ? turn - 2 * Math.PI : turn;
}

/** Far outside every ring. */
const FAR = 16;
