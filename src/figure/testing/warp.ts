/** Heads of other shapes than the mean one's: a smooth warp of space carries skin, hair and landmarks along. */
import { scaleAt } from "../resize.ts";
import { vertexAreas, withNormals } from "../solids.ts";
import type { Eye, Head, LandmarkName, Mesh, PersonShape } from "../types.ts";

/** Writes by how much a place of the mean head moves, metres, head axes. */
export type Warp = (x: number, y: number, z: number, out: Float64Array) => void;

/** Round a globe, lids are carried along whole to here and move on their own from there, as where heads are resized. */
const EYE_WHOLE = 0.0145;
const EYE_LEFT = 0.03;

/** Somebody with the head warped: the same vertices, materials, regions and front; globes and corneas keep their size, and
 * the neck is moved less and less down to the collar. Without glasses.
 * Domain  warps that do not fold: neighbours a centimetre apart move by well under a centimetre against each other */
export function warpedPerson(mean: PersonShape, warp: Warp): PersonShape {
  const head = warpedHead(mean.head, warp);
  const hair = mean.hair && warpedMesh(mean.hair, (x, y, z, out) => writeFaded(warp, x, y, z, out));
  return { head, hair, glasses: null, body: mean.body, earHeight: mean.earHeight };
}

function warpedHead(mean: Head, warp: Warp): Head {
  const eyes = [mean.leftEye, mean.rightEye].map(({ centre: c }) => {
    const by = new Float64Array(3);
    warp(c[0], c[1], c[2], by);
    return { c, by };
  });
  const whole: Warp = (x, y, z, out) => {
    writeFaded(warp, x, y, z, out);
    for (const { c, by } of eyes) {
      const away = Math.sqrt((x - c[0]) ** 2 + (y - c[1]) ** 2 + (z - c[2]) ** 2);
      const t = Math.min(1, Math.max(0, (EYE_LEFT - away) / (EYE_LEFT - EYE_WHOLE)));
      const share = t * t * (3 - 2 * t);
      for (let k = 0; k < 3; k++) out[k] += share * (by[k] - out[k]);
    }
  };
  const mesh = warpedMesh(mean.mesh, whole);
  const put = ([x, y, z]: readonly [number, number, number]): [number, number, number] => {
    const by = new Float64Array(3);
    whole(x, y, z, by);
    return [x + by[0], y + by[1], z + by[2]];
  };
  const landmarks = Object.fromEntries(
    Object.entries(mean.landmarks).map(([name, p]) => [name, put(p)]),
  ) as Record<LandmarkName, [number, number, number]>;
  return {
    ...mean,
    mesh,
    vertexAreas: vertexAreas(mesh),
    landmarks,
    leftEye: moved(mean.leftEye, eyes[0].by),
    rightEye: moved(mean.rightEye, eyes[1].by),
  };
}

/** The warp, ending where the neck enters the collar. */
function writeFaded(warp: Warp, x: number, y: number, z: number, out: Float64Array) {
  warp(x, y, z, out);
  const share = scaleAt(x, z, 2) - 1;
  for (let k = 0; k < 3; k++) out[k] *= share;
}

function warpedMesh(mesh: Mesh, warp: Warp): Mesh {
  const positions = mesh.positions.slice();
  const by = new Float64Array(3);
  for (let v = 0; v < positions.length; v += 3) {
    warp(positions[v], positions[v + 1], positions[v + 2], by);
    for (let k = 0; k < 3; k++) positions[v + k] += by[k];
  }
  return withNormals(positions, mesh.triangles, mesh.materials);
}

function moved(eye: Eye, by: Float64Array): Eye {
  const put = (p: readonly [number, number, number]) => [p[0] + by[0], p[1] + by[1], p[2] + by[2]] as const;
  return { ...eye, centre: put(eye.centre), corneaCentre: put(eye.corneaCentre) };
}
