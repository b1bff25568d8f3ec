/** Skin that no face is read from, thinned: ears, jaw, neck, hands; and how large points of skin are in the picture. */
import { MATERIAL, type Mesh } from "../figure/index.ts";
import { project, type Viewfinder } from "./camera-rays.ts";
import { POINT } from "./frame-samples.ts";
import type { Lighting } from "./lighting.ts";

/** Some vertices of a mesh, and the skin that each stands for, m2. */
export interface SkinPoints {
  readonly vertex: Uint32Array;
  readonly area: Float64Array;
}

/** One vertex for each so wide cell and each of eight ways that skin may face, metres. */
const CELL = 0.015;

const made = new WeakMap<Mesh, SkinPoints>();

/** `front` marks vertices to be left out. */
export function otherSkin(mesh: Mesh, front: Uint8Array | null): SkinPoints {
  let points = made.get(mesh);
  if (!points) {
    points = thin(mesh, front);
    made.set(mesh, points);
  }
  return points;
}

function thin(mesh: Mesh, front: Uint8Array | null): SkinPoints {
  const { positions: p, normals: n } = mesh;
  const areas = skinAreas(mesh);
  const taken = new Map<string, number>();
  const vertex: number[] = [];
  const area: number[] = [];
  for (let v = 0; v < areas.length; v++) {
    if (!(areas[v] > 0) || front?.[v] === 1) continue;
    const way = +(n[3 * v] > 0) + 2 * +(n[3 * v + 1] > 0) + 4 * +(n[3 * v + 2] > 0);
    const key = `${[0, 1, 2].map((k) => Math.floor(p[3 * v + k] / CELL)).join()} ${way}`;
    let at = taken.get(key);
    if (at === undefined) {
      at = vertex.length;
      taken.set(key, at);
      vertex.push(v);
      area.push(0);
    }
    area[at] += areas[v];
  }
  return { vertex: Uint32Array.from(vertex), area: Float64Array.from(area) };
}

/** Per vertex a third of the skin that meets there. */
function skinAreas({ positions: p, triangles, materials }: Mesh): Float64Array {
  const out = new Float64Array(p.length / 3);
  for (let t = 0; t < materials.length; t++) {
    if (materials[t] !== MATERIAL.skin) continue;
    const [a, b, c] = triangles.subarray(3 * t, 3 * t + 3);
    const u = [0, 1, 2].map((k) => p[3 * b + k] - p[3 * a + k]);
    const w = [0, 1, 2].map((k) => p[3 * c + k] - p[3 * a + k]);
    const twice = Math.hypot(u[1] * w[2] - u[2] * w[1], u[2] * w[0] - u[0] * w[2], u[0] * w[1] - u[1] * w[0]);
    for (const v of [a, b, c]) out[v] += twice / 6;
  }
  return out;
}

/** Skin that the camera sees flatter than this (cosine) is an outline, which pixels share with what is behind it. */
const LEAST_VIEW = 0.05;

/** How large each point is in the picture; 0 where it is not seen. `at` holds POINT numbers each, in the world. */
export function sizesInView(
  lighting: Lighting,
  view: Viewfinder,
  at: Float32Array,
  area: Float64Array,
): Float64Array {
  const { tracer } = lighting.stage;
  const [ox, oy, oz] = view.position;
  const out = new Float64Array(area.length);
  const asked: number[] = [];
  for (let s = 0; s < area.length; s++) {
    const p = POINT * s;
    const x = at[p] - ox;
    const y = at[p + 1] - oy;
    const z = at[p + 2] - oz;
    const far2 = x * x + y * y + z * z;
    const cosine = -(x * at[p + 3] + y * at[p + 4] + z * at[p + 5]) / Math.sqrt(far2);
    const place = project(view, at.subarray(p, p + 3));
    if (!(cosine > LEAST_VIEW) || !place) continue;
    if (!(place[0] >= 0 && place[0] <= view.width && place[1] >= 0 && place[1] <= view.height)) continue;
    out[s] = (area[s] * cosine) / far2;
    tracer.aim(asked.length, x, y, z);
    asked.push(s);
  }
  tracer.look(asked.length, ox, oy, oz, -1);
  asked.forEach((s, r) => {
    if (tracer.seen[r] === 0) out[s] = 0;
  });
  return out;
}
