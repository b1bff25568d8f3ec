/** Where a light may stand: round the head, and clear of room, stand, people and picture. */
import { bearingVector, frontCorners, type Light, type Panel, type Plan, type Vec3 } from "../plan/index.ts";
import { type Viewfinder, viewfinder } from "../reading/camera-rays.ts";
import { toWorld } from "../reading/head-axes.ts";
import type { StagedPerson } from "../staging/index.ts";
import { showsIn } from "./in-picture.ts";
import type { Head } from "./search-brief.ts";

const DEGREE = Math.PI / 180;

/** A place round the face, from the bridge of the nose in the head's own axes; `past_m`: how far beside the face it aims,
 * + to the left of its line as it looks. */
export interface Spot {
  readonly azimuth_deg: number;
  readonly elevation_deg: number;
  readonly distance_m: number;
  readonly past_m: number;
}

/** What keeps a light from standing somewhere. */
export type Obstacle = "ceiling" | "floor" | "wall" | "stand" | "person" | "backdrop" | "frame";

export function bridgeOf(staged: StagedPerson): Vec3 {
  const [x, y, z] = toWorld(staged, staged.shape.head.landmarks.noseBridge);
  return [x, y, z];
}

/** Unit vector in the world of a direction in head axes. */
export function worldWay(
  { headRotation: r }: StagedPerson,
  azimuth_deg: number,
  elevation_deg: number,
): Vec3 {
  const [a, e] = [azimuth_deg * DEGREE, elevation_deg * DEGREE];
  const h = [Math.cos(e) * Math.cos(a), Math.cos(e) * Math.sin(a), Math.sin(e)];
  return [0, 1, 2].map((k) => r[3 * k] * h[0] + r[3 * k + 1] * h[1] + r[3 * k + 2] * h[2]) as Vec3;
}

/** As read off a tape: whole centimetres. */
const centimetre = (x: number) => Math.round(100 * x) / 100;

/** A front set up at a spot, in the digits that a person can set. */
export function placedAt(staged: StagedPerson, front: Light, spot: Spot): Light {
  const face = bridgeOf(staged);
  const way = worldWay(staged, spot.azimuth_deg, spot.elevation_deg);
  const position = face.map((x, k) => centimetre(x + spot.distance_m * way[k])) as Vec3;
  const flat = Math.hypot(way[0], way[1]);
  const aside: Vec3 = flat > 1e-6 ? [way[1] / flat, -way[0] / flat, 0] : [1, 0, 0];
  const at = face.map((x, k) => centimetre(x + spot.past_m * aside[k])) as Vec3;
  return { ...front, position, direction: { at } };
}

/** Where a light stands and aims, as a spot. */
export function spotOf(staged: StagedPerson, { position, direction }: Light): Spot {
  const face = bridgeOf(staged);
  const r = staged.headRotation;
  const d = [0, 1, 2].map((k) => position[k] - face[k]);
  const [ahead, left, up] = [0, 1, 2].map((k) => r[k] * d[0] + r[3 + k] * d[1] + r[6 + k] * d[2]);
  const distance_m = Math.hypot(ahead, left, up);
  const flat = Math.hypot(d[0], d[1]);
  const at = "at" in direction ? direction.at : face;
  const past_m = flat > 1e-6 ? ((at[0] - face[0]) * d[1] - (at[1] - face[1]) * d[0]) / flat : 0;
  return {
    azimuth_deg: Math.atan2(left, ahead) / DEGREE,
    elevation_deg: Math.asin(Math.max(-1, Math.min(1, up / distance_m))) / DEGREE,
    distance_m,
    past_m,
  };
}

/** Air round a person is measured from the upright through the mark, up to the crown. */
export class Clearances {
  private readonly view: Viewfinder;

  constructor(private readonly plan: Plan) {
    this.view = viewfinder(plan.camera, 1000);
  }

  /** The first thing in the way of a light; null where it may stand. */
  obstacle(light: Light, stand: Head["stand"]): Obstacle | null {
    const z = light.position[2];
    if (z < stand.lowest - SLACK || z > stand.highest + SLACK) return "stand";
    const outline = outlineOf(light);
    return (
      this.roomInTheWay(outline) ??
      this.personInTheWay(outline, light, stand) ??
      (this.isBehindBackdrop(light) ? "backdrop" : null) ??
      (this.isInFrame(light) ? "frame" : null)
    );
  }

  private roomInTheWay(outline: readonly Vec3[]): Obstacle | null {
    const { room, brief } = this.plan;
    const clear = brief?.clear ?? NO_AIR;
    for (const [x, y, z] of outline) {
      if (z < 0) return "floor";
      if (room === null) continue;
      if (z > room.height - clear.ceiling) return "ceiling";
      const wall = clear.walls;
      if (x < wall || x > room.width - wall || y < wall || y > room.depth - wall) return "wall";
    }
    return null;
  }

  private personInTheWay(outline: readonly Vec3[], light: Light, stand: Head["stand"]): Obstacle | null {
    const air = this.plan.brief?.clear.people ?? 0;
    for (const { position: mark, stature } of this.plan.people) {
      for (const [x, y, z] of outline)
        if (Math.hypot(x - mark[0], y - mark[1], Math.max(0, z - stature)) < air) return "person";
      // the stand's own foot, as far away as its arm allows
      const foot = Math.hypot(light.position[0] - mark[0], light.position[1] - mark[1]) + stand.boom;
      if (foot < FOOT_M) return "person";
    }
    return null;
  }

  /** The paper hides a light that stands behind it. */
  private isBehindBackdrop({ position }: Light): boolean {
    const { backdrop } = this.plan;
    if (backdrop === null) return false;
    const n = bearingVector(backdrop.bearing, 0);
    const off = n[0] * (position[0] - backdrop.position[0]) + n[1] * (position[1] - backdrop.position[1]);
    return off < OFF_PAPER_M;
  }

  isInFrame(thing: Light | Panel): boolean {
    return showsIn(this.view, thing);
  }
}

const NO_AIR = { ceiling: 0, walls: 0 };
/** Heights are set to a centimetre. */
const SLACK = 0.005;
/** A stand's legs are half so wide, metres (common practice, no source). */
const FOOT_M = 0.25;
const OFF_PAPER_M = 0.1;
/** Corners of a front's rim that are looked at: every so many of its outline. */
const RIM_STEP = 4;

/** Its middle and its rim, in the room. */
function outlineOf(light: Light): Vec3[] {
  const corners = frontCorners(light);
  const kept = corners.length > 2 * RIM_STEP ? corners.filter((_, i) => i % RIM_STEP === 0) : corners;
  return [light.position, ...kept];
}
