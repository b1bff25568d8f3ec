/** The camera that makes a named crop fill what is used of the picture. Either its distance follows or its lens. In both
 * the aim turns so that the crop lies in the middle; the camera's height stays, because it is what decides how a face
 * is seen. */
import { type Camera, directionOf, type Plan, type Vec3 } from "../plan/index.ts";
import { type StagedPerson, stagePerson } from "../staging/index.ts";
import { viewfinder } from "./camera-rays.ts";
import { type Crop, cropTangents, usedPart } from "./framing.ts";

/** What a camera takes, as the plan's own fields. */
export interface Framed {
  readonly position: Vec3;
  readonly direction: Camera["direction"];
  readonly focalLength: number;
  /** level, from the camera to the person's mark, metres */
  readonly distance_m: number;
}

export interface FramedFrom extends Framed {
  /** what kept the camera from going as far as the crop asks; null where nothing did */
  readonly stoppedBy: Wall | null;
}

export type Wall = "near wall" | "far wall" | "left wall" | "right wall";

/** The camera is held, with hands or a stand behind it, this far off a wall (common practice, no source). */
const OFF_WALL_M = 0.15;
/** Nearer than this to the mark the lens would touch the face. */
const NEAREST_M = 0.25;
const MOST_ROUNDS = 60;
/** Of tangents and metres: a thousandth of what is kept of them. */
const ENOUGH = 1e-6;

/** The focal length with which the crop fills what is used, from where the camera is; null where it cannot be seen. */
export function fitLens(plan: Plan, person: number, crop: Crop): Framed | null {
  let camera = facing(plan, person);
  const staged = stagePerson(plan.people[person], plan);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const next = look({ ...plan, camera }, staged, person, crop);
    if (next === null) return null;
    camera = { ...camera, direction: next.direction, focalLength: camera.focalLength * next.wider };
    if (Math.abs(next.wider - 1) < ENOUGH && next.off < ENOUGH) break;
  }
  return framed(plan, person, camera);
}

/** The place, on the level line through camera and mark, from which the crop fills what is used with the lens that is on
 * it; as far as the wall where the room is too small. Null where it cannot be seen. */
export function fitDistance(plan: Plan, person: number, crop: Crop): FramedFrom | null {
  const [x, y] = plan.people[person].position;
  const from = plan.camera.position;
  const start = Math.hypot(from[0] - x, from[1] - y);
  if (!(start > 0)) return null;
  const [ux, uy] = [(from[0] - x) / start, (from[1] - y) / start];
  const wall = wallOn(plan, x, y, ux, uy);
  let away = start;
  let camera = facing(plan, person);
  const who = plan.people[person];
  let staged = stagePerson(who, plan);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    if (who.head.follows === "camera") staged = stagePerson(who, { ...plan, camera });
    const next = look({ ...plan, camera }, staged, person, crop);
    if (next === null) return null;
    // a crop that asks for a longer lens asks for a nearer camera
    const to = Math.min(wall.away, Math.max(NEAREST_M, away + (1 / next.wider - 1) * next.depth));
    const moved = Math.abs(to - away);
    away = to;
    camera = { ...camera, direction: next.direction, position: [x + ux * away, y + uy * away, from[2]] };
    if (moved < ENOUGH && next.off < ENOUGH) break;
  }
  return { ...framed(plan, person, camera), stoppedBy: away >= wall.away ? wall.wall : null };
}

/** A camera that looks elsewhere is first turned to the person, so that a crop can be seen at all. */
function facing(plan: Plan, person: number): Camera {
  const { camera } = plan;
  const [x, y] = plan.people[person].position;
  const { earHeight } = stagePerson(plan.people[person], plan).shape;
  return { ...camera, direction: { at: [x, y, earHeight] } };
}

/** Which way to look, and how much longer the lens has to be. */
function look(plan: Plan, staged: StagedPerson, person: number, crop: Crop) {
  const { camera } = plan;
  const view = viewfinder(camera, 1);
  const box = cropTangents(plan, staged, person, crop, view);
  if (box === null) return null;
  const used = usedPart(plan);
  const [across, up] = [(box.left + box.right) / 2, (box.low + box.high) / 2];
  const way = [0, 1, 2].map((k) => view.forward[k] + across * view.right[k] + up * view.up[k]);
  const mark = plan.people[person].position;
  const depth = Math.hypot(camera.position[0] - mark[0], camera.position[1] - mark[1]);
  const reach = depth / Math.max(0.1, Math.hypot(way[0], way[1]));
  const at = camera.position.map((c, k) => c + reach * way[k]) as Vec3;
  return {
    direction: { at },
    wider: (2 * view.tanX * (used.right - used.left)) / (box.right - box.left),
    off: Math.max(Math.abs(across), Math.abs(up)),
    depth,
  };
}

/** In the plan's own form and digits: a tenth of a millimetre of aim and a millimetre of place move a crop's edge by
 * less than a thousandth of the picture. */
function framed(plan: Plan, person: number, camera: Camera): Framed {
  const round = (digits: number) => (v: number) => Number(v.toFixed(digits));
  const position = camera.position.map(round(3)) as Vec3;
  const { bearing_deg, tilt_deg } = directionOf(camera.direction, camera.position);
  const direction =
    "at" in plan.camera.direction && "at" in camera.direction
      ? { at: camera.direction.at.map(round(4)) as Vec3 }
      : { bearing: round(3)(bearing_deg), tilt: round(3)(tilt_deg) };
  const [x, y] = plan.people[person].position;
  return {
    position,
    direction,
    focalLength: round(2)(camera.focalLength),
    distance_m: Math.hypot(position[0] - x, position[1] - y),
  };
}

/** How far one can step back from (x, y) along (ux, uy), and the wall that ends it. */
function wallOn(
  plan: Plan,
  x: number,
  y: number,
  ux: number,
  uy: number,
): { away: number; wall: Wall | null } {
  if (plan.room === null) return { away: Infinity, wall: null };
  const { width, depth } = plan.room;
  const sides: [number, Wall][] = [
    [ux < 0 ? (OFF_WALL_M - x) / ux : Infinity, "left wall"],
    [ux > 0 ? (width - OFF_WALL_M - x) / ux : Infinity, "right wall"],
    [uy < 0 ? (OFF_WALL_M - y) / uy : Infinity, "near wall"],
    [uy > 0 ? (depth - OFF_WALL_M - y) / uy : Infinity, "far wall"],
  ];
  const [away, wall] = sides.reduce((least, side) => (side[0] < least[0] ? side : least));
  return { away: Math.max(away, NEAREST_M), wall };
}
