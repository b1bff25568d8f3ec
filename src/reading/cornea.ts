/** The front of one eye as the camera sees it: where on it a point of the world is mirrored, and where in the picture
 * of the iris that lies. */
import type { Eye } from "../figure/index.ts";
import { cross, dot, subtract } from "../math/index.ts";
import type { StagedPerson } from "../staging/index.ts";
import type { Viewfinder } from "./camera-rays.ts";
import { hullOf, type Polygon } from "./cornea-polygons.ts";
import { alongHead, toWorld } from "./head-axes.ts";

export interface Cornea {
  /** centre of the sphere, in the world, metres */
  readonly centre: readonly number[];
  readonly radius: number;
  /** where the eye looks */
  readonly axis: readonly number[];
  /** cosine of the angle from the axis to the iris' rim, as far as the cornea reaches */
  readonly reach: number;
  /** middle of the circle in which iris and white meet: what a picture shows as the middle of the iris */
  readonly iris: readonly number[];
  readonly irisRadius: number;
  readonly camera: readonly number[];
  /** along the line of sight to the iris, and the picture's right and up turned square to it */
  readonly sight: readonly number[];
  readonly right: readonly number[];
  readonly up: readonly number[];
  readonly distance: number;
}

export function corneaOf(
  person: Pick<StagedPerson, "headRotation" | "headOffset">,
  eye: Eye,
  view: Viewfinder,
): Cornea {
  const centre = toWorld(person, eye.corneaCentre);
  const axis = alongHead(person, unit(subtract(eye.corneaCentre, eye.centre)));
  const deep = Math.sqrt(eye.corneaRadius ** 2 - eye.irisRadius ** 2);
  const iris = centre.map((c, k) => c + deep * axis[k]);
  const way = subtract(iris, view.position);
  const sight = unit(way);
  const slant = dot(view.right, sight);
  const right = unit(view.right.map((x, k) => x - slant * sight[k]));
  return {
    centre,
    radius: eye.corneaRadius,
    axis,
    reach: deep / eye.corneaRadius,
    iris,
    irisRadius: eye.irisRadius,
    camera: view.position,
    sight,
    right,
    up: cross(right, sight),
    distance: dot(way, sight),
  };
}

/** Normal of a sphere at the point that mirrors `to` into `from`, into out: it halves the angle between the two ways.
 * Each round starts from the point that the last one found, beginning at the sphere's centre; the error shrinks by
 * radius / distance a round. Both points lie outside the sphere and do not see each other through its middle.
 * Units   metres
 * Accuracy 1e-12 from 5 radii up; reference/section10-catchlights.checks.ts
 * Source  Alhazen's problem, by fixed-point iteration of the law of reflection */
export function writeMirrorNormal(
  centre: ArrayLike<number>,
  radius: number,
  from: ArrayLike<number>,
  to: ArrayLike<number>,
  out: Float64Array | number[],
) {
  const ax = from[0] - centre[0];
  const ay = from[1] - centre[1];
  const az = from[2] - centre[2];
  const bx = to[0] - centre[0];
  const by = to[1] - centre[1];
  const bz = to[2] - centre[2];
  let x = 0;
  let y = 0;
  let z = 0;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const px = ax - radius * x;
    const py = ay - radius * y;
    const pz = az - radius * z;
    const qx = bx - radius * x;
    const qy = by - radius * y;
    const qz = bz - radius * z;
    const p = 1 / Math.sqrt(px * px + py * py + pz * pz);
    const q = 1 / Math.sqrt(qx * qx + qy * qy + qz * qz);
    const sx = p * px + q * qx;
    const sy = p * py + q * qy;
    const sz = p * pz + q * qz;
    const s = Math.sqrt(sx * sx + sy * sy + sz * sz);
    if (!(s > 0)) break;
    const moved = Math.abs(sx / s - x) + Math.abs(sy / s - y) + Math.abs(sz / s - z);
    x = sx / s;
    y = sy / s;
    z = sz / s;
    if (moved < SETTLED) break;
  }
  out[0] = x;
  out[1] = y;
  out[2] = z;
}

const MOST_ROUNDS = 60;
const SETTLED = 1e-13;

/** Where a point shows round the middle of the iris: picture right and up, in iris radii. */
export function onIris(c: Cornea, p: ArrayLike<number>): [number, number] {
  const x = p[0] - c.camera[0];
  const y = p[1] - c.camera[1];
  const z = p[2] - c.camera[2];
  const deep = x * c.sight[0] + y * c.sight[1] + z * c.sight[2];
  const scale = c.distance / (deep * c.irisRadius);
  return [
    scale * (x * c.right[0] + y * c.right[1] + z * c.right[2]),
    scale * (x * c.up[0] + y * c.up[1] + z * c.up[2]),
  ];
}

/** The other way: the normal of the cornea's sphere at a place of the picture, into out; false beside the sphere. */
export function writeNormalAt(
  c: Cornea,
  across: number,
  upward: number,
  out: Float64Array | number[],
): boolean {
  const { camera, centre, iris, right, up, radius } = c;
  const a = across * c.irisRadius;
  const b = upward * c.irisRadius;
  const dx = iris[0] + a * right[0] + b * up[0] - camera[0];
  const dy = iris[1] + a * right[1] + b * up[1] - camera[1];
  const dz = iris[2] + a * right[2] + b * up[2] - camera[2];
  const mx = camera[0] - centre[0];
  const my = camera[1] - centre[1];
  const mz = camera[2] - centre[2];
  const square = dx * dx + dy * dy + dz * dz;
  const along = mx * dx + my * dy + mz * dz;
  const under = along * along - square * (mx * mx + my * my + mz * mz - radius * radius);
  if (!(under >= 0)) return false;
  const t = (-along - Math.sqrt(under)) / square;
  out[0] = (mx + t * dx) / radius;
  out[1] = (my + t * dy) / radius;
  out[2] = (mz + t * dz) / radius;
  return true;
}

const AROUND = 48;

/** The edge of the cornea in the picture: its rim, and where an eye looks far aside the dome that stands over it.
 * Convex, for it is the shadow of a dome that is. */
export function corneaEdge(c: Cornea): Polygon {
  const points: [number, number][] = [];
  const add = (n: readonly number[]) =>
    points.push(
      onIris(
        c,
        [0, 1, 2].map((k) => c.centre[k] + c.radius * n[k]),
      ),
    );
  ring(c.axis, c.reach, add);
  limb(c, (n) => {
    if (dot(n, c.axis) > c.reach) add(n);
  });
  return hullOf(points);
}

/** The outline of the whole sphere in the picture, counter-clockwise. */
export function sphereEdge(c: Cornea): Polygon {
  const points: [number, number][] = [];
  limb(c, (n) =>
    points.push(
      onIris(
        c,
        [0, 1, 2].map((k) => c.centre[k] + c.radius * n[k]),
      ),
    ),
  );
  return hullOf(points);
}

/** Normals of the sphere's outline: seen from near, it lies a little before the circle square to the sight. */
function limb(c: Cornea, each: (n: number[]) => void) {
  const toCamera = subtract(c.camera, c.centre);
  ring(unit(toCamera), c.radius / Math.hypot(...toCamera), each);
}

/** Unit vectors round an axis, at an angle to it of the given cosine. */
function ring(axis: readonly number[], cosine: number, each: (n: number[]) => void) {
  const u = unit(cross(axis, Math.abs(axis[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  const v = cross(axis, u);
  const sine = Math.sqrt(1 - cosine * cosine);
  for (let i = 0; i < AROUND; i++) {
    const x = sine * Math.cos((2 * Math.PI * i) / AROUND);
    const y = sine * Math.sin((2 * Math.PI * i) / AROUND);
    each([
      cosine * axis[0] + x * u[0] + y * v[0],
      cosine * axis[1] + x * u[1] + y * v[1],
      cosine * axis[2] + x * u[2] + y * v[2],
    ]);
  }
}

export function unit(v: readonly number[]): number[] {
  const length = Math.hypot(v[0], v[1], v[2]);
  return length > 0 ? v.map((x) => x / length) : [0, 0, 0];
}
