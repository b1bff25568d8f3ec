/** What may stand between a light and a face. */
import { type Emitter, type MeshInstance, type Quad, reach } from "../engine/index.ts";
import type { Lighting } from "./lighting.ts";

/** No part of a face lies further from the middle between the ears, metres. */
const FACE_REACH = 0.16;

export interface Between {
  /** nothing but the person's own body */
  readonly isNone: boolean;
  readonly meshes: readonly MeshInstance[];
  readonly quads: readonly Quad[];
  /** names the others and where they stand */
  readonly key: string;
}

/** What may stand between a light and a face: the person's own body, and what comes near the way. */
export function thingsBetween({ stage }: Lighting, person: number, light: number): Between {
  const { scene, owners } = stage;
  const e = scene.emitters[light];
  const from = stage.people[person].headOffset;
  const tube = { from, to: e.centre, radius: Math.max(FACE_REACH, reach(e)) };
  const isOwn = (i: number) => {
    const owner = owners[i];
    return "person" in owner && owner.person === person;
  };
  const other = scene.meshes.map(
    (mesh, i) =>
      !isOwn(i) &&
      comesNear(tube, mesh.sphere, mesh.sphere[3]) &&
      (owners[i].kind !== "backdrop" || reachesInto(tube, mesh)),
  );
  const quads = scene.quads.filter(
    (q) => comesNear(tube, q.centre, Math.hypot(q.halfWidth, q.halfHeight)) && partsThem(q, from, e),
  );
  const plates = scene.emitters.filter(
    (p, i) => i !== light && p.shape !== "point" && comesNear(tube, p.centre, reach(p)),
  );
  const meshes = scene.meshes.filter((_, i) => isOwn(i) || other[i]);
  const others = scene.meshes.filter((_, i) => other[i]);
  return {
    isNone: others.length + quads.length + plates.length === 0,
    meshes,
    quads,
    key: JSON.stringify([
      others.map((m) => [m.triangles.length, [...m.offset], [...m.rotation]]),
      quads.map((q) => [[...q.centre], [...q.forward], [...q.right], q.halfWidth, q.halfHeight]),
      plates.map((p) => [p.shape, [...p.centre], [...p.forward], [...p.right], p.halfWidth, p.halfHeight]),
    ]),
  };
}

interface Tube {
  readonly from: Float64Array;
  readonly to: Float64Array;
  readonly radius: number;
}

function comesNear({ from, to, radius }: Tube, centre: ArrayLike<number>, ball: number): boolean {
  const way = [0, 1, 2].map((k) => to[k] - from[k]);
  const d = [0, 1, 2].map((k) => centre[k] - from[k]);
  const length2 = way[0] ** 2 + way[1] ** 2 + way[2] ** 2;
  const t = Math.max(0, Math.min(1, (d[0] * way[0] + d[1] * way[1] + d[2] * way[2]) / length2));
  return Math.hypot(d[0] - t * way[0], d[1] - t * way[1], d[2] - t * way[2]) < ball + radius;
}

/** Whether the upright box round a sheet, which is flat for the most part, meets the box round the way. */
function reachesInto({ from, to, radius }: Tube, { positions, offset }: MeshInstance): boolean {
  for (let k = 0; k < 3; k++) {
    let least = Number.POSITIVE_INFINITY;
    let most = Number.NEGATIVE_INFINITY;
    for (let i = k; i < positions.length; i += 3) {
      least = Math.min(least, positions[i] + offset[k]);
      most = Math.max(most, positions[i] + offset[k]);
    }
    if (most < Math.min(from[k], to[k]) - radius || least > Math.max(from[k], to[k]) + radius) return false;
  }
  return true;
}

/** Whether face and light do not both lie wholly on one side of a panel. */
function partsThem(q: Quad, face: Float64Array, e: Emitter): boolean {
  const over = (p: ArrayLike<number>) =>
    [0, 1, 2].reduce((sum, k) => sum + (p[k] - q.centre[k]) * q.forward[k], 0);
  const a = over(face);
  const b = over(e.centre);
  return !((a > FACE_REACH && b > reach(e)) || (a < -FACE_REACH && b < -reach(e)));
}
