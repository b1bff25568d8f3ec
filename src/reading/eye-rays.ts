/** Rays between the camera, one cornea and what it mirrors. */
import type { Tracer } from "../engine/index.ts";
import { dot } from "../math/index.ts";
import { fresnelReflectance } from "../photometry/index.ts";
import { type Cornea, corneaEdge, writeNormalAt } from "./cornea.ts";
import { boxOf, hullOf, type Polygon } from "./cornea-polygons.ts";

/** Rays start this far off the eye, metres: the figure's facets lie less than 0.03 mm under the sphere. */
export const EYE_LIFT = 1e-4;
const FAR = 1e6;
/** Refractive index of a cornea, published-checks section 10. */
const CORNEA_INDEX = 1.376;

/** A place in the picture of an eye: right and up of the middle of the iris, in iris radii. */
export type Place = [number, number];

export class EyeRays {
  /** how far the cornea reaches in the picture */
  readonly edge: Polygon;
  private places: readonly Place[] | null = null;
  private readonly n = new Float64Array(3);
  private readonly way = new Float64Array(3);

  constructor(
    readonly tracer: Tracer,
    readonly cornea: Cornea,
    readonly cell: number,
  ) {
    this.edge = corneaEdge(cornea);
  }

  /** Places a `cell` apart, all over what the camera sees of the cornea; looked for when first asked for. */
  get grid(): readonly Place[] {
    if (this.places) return this.places;
    const { cell } = this;
    const grid: Place[] = [];
    const [low, high] = boxOf(this.edge);
    for (let y = low[1] + cell / 2; y < high[1]; y += cell)
      for (let x = low[0] + cell / 2; x < high[0]; x += cell) grid.push([x, y]);
    const seen = this.seenByCamera(grid);
    this.places = grid.filter((_, i) => seen[i]);
    return this.places;
  }

  /** Whether the camera sees places of the cornea: lids, nose, hair, others and lights' plates may stand before them. */
  seenByCamera(places: readonly Place[]): boolean[] {
    const { cornea: c, tracer, n } = this;
    const [ox, oy, oz] = [c.centre[0] - c.camera[0], c.centre[1] - c.camera[1], c.centre[2] - c.camera[2]];
    const seen = places.map(([x, y], i) => {
      const met = writeNormalAt(c, x, y, n) && dot(n, c.axis) >= c.reach;
      // beside the cornea any normal will do: its answer is not asked for
      tracer.aim(i, ox + c.radius * n[0], oy + c.radius * n[1], oz + c.radius * n[2]);
      return met;
    });
    tracer.look(places.length, c.camera[0], c.camera[1], c.camera[2], -1);
    for (let i = 0; i < seen.length; i++) seen[i] &&= tracer.seen[i] === 1;
    return seen;
  }

  /** What the camera sees of the cornea, as one convex outline: found outward from the middle of what it sees, along
   * rays, by halving. Empty where it sees nothing. */
  opening(): Polygon {
    if (this.grid.length === 0) return [];
    let x = 0;
    let y = 0;
    for (const [a, b] of this.grid) {
      x += a / this.grid.length;
      y += b / this.grid.length;
    }
    const ways = Array.from({ length: AROUND }, (_, i) => {
      const a = (2 * Math.PI * i) / AROUND;
      return { dx: Math.cos(a), dy: Math.sin(a), low: 0, high: FARTHEST };
    });
    for (let round = 0; round < ROUNDS; round++) {
      const places = ways.map((w): Place => {
        const r = (w.low + w.high) / 2;
        return [x + r * w.dx, y + r * w.dy];
      });
      const seen = this.seenByCamera(places);
      ways.forEach((w, i) => {
        const r = (w.low + w.high) / 2;
        if (seen[i]) w.low = r;
        else w.high = r;
      });
    }
    return hullOf(
      ways.map((w): Place => {
        const r = (w.low + w.high) / 2;
        return [x + r * w.dx, y + r * w.dy];
      }),
    );
  }

  /** Sends the ray that the camera sees mirrored at a normal of the sphere, to the nearest thing; the tracer holds what
   * it met. Share of its light that the cornea reflects; 0 where it meets nothing. */
  castMirrored(n: ArrayLike<number>): number {
    const { way } = this;
    const cosine = this.writeMirroredWay(n, way);
    const [x, y, z] = this.pointOf(n, EYE_LIFT);
    if (!(cosine > 0) || !this.tracer.closest(x, y, z, way[0], way[1], way[2], FAR, true)) return 0;
    return corneaReflectance(cosine);
  }

  /** Whether nothing stands between the eye and a bare point, and what the cornea reflects of it. */
  seesPoint(n: ArrayLike<number>, p: ArrayLike<number>, light: number): number {
    const [x, y, z] = this.pointOf(n, EYE_LIFT);
    const d = [p[0] - x, p[1] - y, p[2] - z];
    const length = Math.hypot(d[0], d[1], d[2]);
    const cosine = this.writeMirroredWay(n, this.way);
    if (!(cosine > 0)) return 0;
    const hidden = this.tracer.occluded(x, y, z, d[0] / length, d[1] / length, d[2] / length, length, light);
    return hidden ? 0 : corneaReflectance(cosine);
  }

  /** Where a mirrored ray starts, and the way of the last one. */
  pointOf(n: ArrayLike<number>, lift: number): [number, number, number] {
    const { centre, radius } = this.cornea;
    const r = radius + lift;
    return [centre[0] + r * n[0], centre[1] + r * n[1], centre[2] + r * n[2]];
  }

  lastWay(): Float64Array {
    return this.way;
  }

  /** Mirrors the way to the camera at a normal, into out; cosine between the two. */
  private writeMirroredWay(n: ArrayLike<number>, out: Float64Array): number {
    const [x, y, z] = this.pointOf(n, 0);
    const { camera } = this.cornea;
    const vx = camera[0] - x;
    const vy = camera[1] - y;
    const vz = camera[2] - z;
    const length = Math.sqrt(vx * vx + vy * vy + vz * vz);
    const cosine = (vx * n[0] + vy * n[1] + vz * n[2]) / length;
    out[0] = 2 * cosine * n[0] - vx / length;
    out[1] = 2 * cosine * n[1] - vy / length;
    out[2] = 2 * cosine * n[2] - vz / length;
    return cosine;
  }
}

/** An eye that looks far aside shows its dome beyond the rim of the iris; it is never so wide, in iris radii. */
const FARTHEST = 2.56;
const AROUND = 24;
/** Leaves the opening known to a fiftieth of an iris radius. */
const ROUNDS = 7;

function corneaReflectance(cosine: number): number {
  return fresnelReflectance(Math.acos(Math.min(1, cosine)), CORNEA_INDEX);
}
