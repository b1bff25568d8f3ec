/** Where sitter and camera may be while lights are looked for. */
import { aimCarriedRound, type Camera, carriedRound, type Plan } from "../plan/index.ts";
import { fitDistance } from "../reading/index.ts";
import { personAt, wallBefore } from "./obstacles.ts";
import type { Search } from "./search-brief.ts";
import { Clearances, placedAt } from "./search-place.ts";
import { sitterIn } from "./turning.ts";
import type { SearchTask } from "./types.ts";

/** Degrees round the sitter that the camera is tried at. */
const CAMERA_ROUND_DEG = [-40, -20, 20, 40] as const;

/** The plans that a kind is searched in: as it stands, or changed as the kind says. */
export function stanceFor(search: Search, { kind, lights }: SearchTask): Plan[] {
  const { person } = search;
  if (kind === "the camera moved")
    return CAMERA_ROUND_DEG.flatMap((by) => cameraRound(search, by) ?? []).map((plan) =>
      framed(search, plan),
    );
  if (kind === "seated") {
    const [first] = lights;
    // somebody who sits gains height over the head, and nothing else
    if (first !== undefined && !isLow(search, first)) return [];
    const people = search.plan.people.map((who, i) =>
      i === person ? { ...who, pose: "seated" as const } : who,
    );
    return [framed(search, { ...search.plan, people })];
  }
  return [framed(search, search.plan)];
}

/** Light so steep is what a ceiling takes away first. */
const STEEP_DEG = 45;
const STEEP_FAR_M = 1.3;

/** Whether ceiling or stand keep a steep light from a standing face. */
function isLow({ plan, person, heads }: Search, { light, front }: SearchTask["lights"][number]): boolean {
  const sitter = sitterIn(plan, person);
  const head = heads[light];
  if (sitter === null || head === undefined) return false;
  const clear = new Clearances(plan);
  const steep = { azimuth_deg: 40, elevation_deg: STEEP_DEG, distance_m: STEEP_FAR_M, past_m: 0 };
  const sides = [steep, { ...steep, azimuth_deg: -steep.azimuth_deg }];
  return sides.every((spot) => {
    const obstacle = clear.obstacle(placedAt(sitter.staged, head.fronts[front], spot), head.stand);
    return obstacle === "ceiling" || obstacle === "stand";
  });
}

export function cameraRound(search: Search, by_deg: number): Plan | null {
  const { plan, person } = search;
  const sitter = sitterIn(plan, person);
  if (sitter === null) return null;
  const position = carriedRound(plan.camera.position, sitter.head, by_deg).map(
    (x) => Math.round(100 * x) / 100,
  ) as Camera["position"];
  if (wallBefore(plan, position) !== null || personAt(plan, position) !== null) return null;
  const direction = aimCarriedRound(plan.camera.direction, sitter.head, by_deg);
  return { ...plan, camera: { ...plan.camera, position, direction } };
}

/** The camera as the crop asks, with the lens on hand that comes nearest to where it stands now. */
export function framed({ brief, want, person }: Search, plan: Plan): Plan {
  const { camera } = plan;
  if (camera.pinned || want.crop === null) return plan;
  const { from, to } = brief.cameraDistance ?? { from: null, to: null };
  const [x, y] = plan.people[person].position;
  const now = Math.hypot(camera.position[0] - x, camera.position[1] - y);
  const lenses = brief.lenses.length > 0 ? brief.lenses : [camera.focalLength];
  let best: { camera: Camera; off: number } | null = null;
  for (const focalLength of lenses) {
    const with_ = { ...plan, camera: { ...camera, focalLength } };
    const fit = fitDistance(with_, person, want.crop);
    if (fit === null) continue;
    const { position, direction, distance_m } = fit;
    const outside = Math.max(0, (from ?? 0) - distance_m, distance_m - (to ?? Number.POSITIVE_INFINITY));
    const off = (fit.stoppedBy === null ? 0 : 100) + 10 * outside + Math.abs(Math.log2(distance_m / now));
    if (best === null || off < best.off) best = { camera: { ...with_.camera, position, direction }, off };
  }
  return best === null ? plan : { ...plan, camera: best.camera };
}
