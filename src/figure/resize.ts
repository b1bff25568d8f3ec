/** Larger and smaller heads: the mean head scaled, with eyes of their own size and a neck that still fits its collar. */
import { COLLAR_LEVEL, COLLAR_NORMAL } from "./collar.ts";
import { BEND_HEIGHT } from "./neck.ts";
import { vertexAreas, withNormals } from "./solids.ts";
import type { Eye, Head, LandmarkName } from "./types.ts";

type P3 = readonly [number, number, number];

/** Adult eyes hardly differ: round a globe lids are carried along whole to here, and scaled in full from there. */
const EYE_WHOLE = 0.0145;
const EYE_LEFT = 0.03;

/** What a place of the mean head becomes, eyes left aside. The neck is scaled less and less down to the collar.
 * Shape   x, y, z head axes in and out, metres
 * Accuracy from BEND_HEIGHT over the collar's plane upward exactly `scale`; at the plane and under it exactly 1 */
export function scaleAt(x: number, z: number, scale: number): number {
  const height = (COLLAR_NORMAL[0] * x + COLLAR_NORMAL[1] * z - COLLAR_LEVEL) / BEND_HEIGHT;
  const h = Math.min(1, Math.max(0, height));
  return 1 + (scale - 1) * h * h * (3 - 2 * h);
}

export function resized(mean: Head, scale: number): Head {
  if (scale === 1) return mean;
  const { mesh } = mean;
  const eyes = [mean.leftEye, mean.rightEye];
  const put = (p: P3): P3 => {
    const k = scaleAt(p[0], p[2], scale);
    const at: [number, number, number] = [k * p[0], k * p[1], k * p[2]];
    for (const { centre: c } of eyes) {
      const away = Math.hypot(p[0] - c[0], p[1] - c[1], p[2] - c[2]);
      const t = Math.min(1, Math.max(0, (EYE_LEFT - away) / (EYE_LEFT - EYE_WHOLE)));
      const share = (1 - k) * t * t * (3 - 2 * t);
      for (let axis = 0; axis < 3; axis++) at[axis] += share * (p[axis] - c[axis]);
    }
    return at;
  };
  const positions = mesh.positions.slice();
  for (let v = 0; v < positions.length; v += 3)
    positions.set(put([positions[v], positions[v + 1], positions[v + 2]]), v);
  const bare = withNormals(positions, mesh.triangles, mesh.materials);
  const landmarks = Object.fromEntries(
    Object.entries(mean.landmarks).map(([name, p]) => [name, put(p)]),
  ) as Record<LandmarkName, P3>;
  return {
    ...mean,
    mesh: bare,
    scale,
    vertexAreas: vertexAreas(bare),
    landmarks,
    leftEye: moved(mean.leftEye, scale),
    rightEye: moved(mean.rightEye, scale),
  };
}

function moved(eye: Eye, scale: number): Eye {
  const centre: P3 = [scale * eye.centre[0], scale * eye.centre[1], scale * eye.centre[2]];
  const ahead = eye.corneaCentre[0] - eye.centre[0];
  return { ...eye, centre, corneaCentre: [centre[0] + ahead, centre[1], centre[2]] };
}
