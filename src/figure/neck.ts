/** The neck between a head that is turned and shoulders that are not. */
import { COLLAR_LEVEL, COLLAR_NORMAL } from "./collar.ts";
import { withNormals } from "./solids.ts";
import type { Head, Mesh } from "./types.ts";

/** From the collar's plane (0) to here (1) the neck of the mean head gives way, metres: no part of its face lies lower. */
export const BEND_HEIGHT = 0.06;
/** A head turned further than this off its shoulders is not bent but left whole, radians. */
const MOST = 2;
const LEAST = 1e-9;
const KEPT = 16;

const bentMeshes = new WeakMap<Mesh, Map<string, Mesh>>();
const bentHeads = new WeakMap<Mesh, Head>();

/** The same head, still in its own axes, with its neck bent so that its foot stays in the collar.
 * Shape   bodyFromHead: 3 x 3 row-major rotation, as `headRotation` gives it
 * Domain  up to 115 degrees off the shoulders; beyond, and at rest, the head itself is returned
 * Errors  none; face, regions, landmarks, eyes and vertex areas of the face are untouched
 * Accuracy each height of the neck turns by its share of the whole rotation, about the ears' mid-point [FG9] */
export function bendNeck(head: Head, bodyFromHead: Float64Array): Head {
  const mesh = bendWithNeck(head.mesh, head.scale, bodyFromHead);
  if (mesh === head.mesh) return head;
  let bent = bentHeads.get(mesh);
  if (!bent) {
    bent = { ...head, mesh };
    bentHeads.set(mesh, bent);
  }
  return bent;
}

/** Whatever else hangs from a head of that scale (long hair), bent as its neck is: what lay outside the neck stays so. */
export function bendWithNeck(mesh: Mesh, scale: number, bodyFromHead: Float64Array): Mesh {
  const { axis, angle } = axisOf(bodyFromHead);
  if (angle < LEAST || angle > MOST) return mesh;
  let kept = bentMeshes.get(mesh);
  if (!kept) {
    kept = new Map();
    bentMeshes.set(mesh, kept);
  }
  const key = bodyFromHead.join();
  let bent = kept.get(key);
  if (!bent) {
    if (kept.size >= KEPT) kept.clear();
    bent = bentMesh(mesh, scale, axis, angle);
    kept.set(key, bent);
  }
  return bent;
}

function bentMesh(mesh: Mesh, scale: number, axis: readonly number[], angle: number): Mesh {
  const positions = mesh.positions.slice();
  const [ax, ay, az] = axis;
  // a larger head's chin hangs lower by its scale, the collar stays
  const bending = scale * (COLLAR_LEVEL + BEND_HEIGHT) - COLLAR_LEVEL;
  for (let v = 0; v < positions.length; v += 3) {
    const x = positions[v];
    const y = positions[v + 1];
    const z = positions[v + 2];
    const height = (COLLAR_NORMAL[0] * x + COLLAR_NORMAL[1] * z - COLLAR_LEVEL) / bending;
    if (height >= 1) continue;
    const h = Math.max(0, height);
    // turned back by what it does not share of the head's rotation
    const back = angle * (h * h * (3 - 2 * h) - 1);
    const c = Math.cos(back);
    const s = Math.sin(back);
    const along = (ax * x + ay * y + az * z) * (1 - c);
    positions[v] = x * c + (ay * z - az * y) * s + ax * along;
    positions[v + 1] = y * c + (az * x - ax * z) * s + ay * along;
    positions[v + 2] = z * c + (ax * y - ay * x) * s + az * along;
  }
  return withNormals(positions, mesh.triangles, mesh.materials);
}

/** Axis (unit) and angle of a rotation short of half a turn. */
function axisOf(m: Float64Array): { axis: number[]; angle: number } {
  const d = [m[7] - m[5], m[2] - m[6], m[3] - m[1]];
  const sine = Math.hypot(d[0], d[1], d[2]);
  const angle = Math.atan2(sine, m[0] + m[4] + m[8] - 1);
  return { axis: d.map((x) => x / (sine || 1)), angle };
}
