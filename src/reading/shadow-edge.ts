/** How wide the nose's shadow fades on the cheek. */
import { type MeshInstance, rotate, scatterFace, shareSeen, type Tracer } from "../engine/index.ts";
import type { StagedPerson } from "../staging/index.ts";
import { toWorld } from "./head-axes.ts";
import type { Lighting } from "./lighting.ts";

/** The cheek is crossed from the nose outward in steps of a millimetre at several heights. */
const STEP = 0.001;
const REACH = 0.06;
export const HEIGHTS = [0.012, 0.006, 0, -0.006, -0.012, -0.018] as const;
/** Rays to the face per step: 256 resolve a tenth of the fade. */
const POINTS = 256;
/** A fade counts where the light rises by at least this share of its full strength. */
const LEAST_RISE = 0.5;
const LOW = 0.1;
const HIGH = 0.9;

/** 10 % to 90 % width in millimetres along the skin, of the light that gives the face most; null where there is none.
 * `litSign` is +1 where the person's own left is lit. */
export function shadowEdgeMillimetres(
  lighting: Pick<Lighting, "stage">,
  person: number,
  light: number,
  litSign: 1 | -1,
): number | null {
  let best: Fade | null = null;
  const headMesh = lighting.stage.owners.findIndex((o) => o.kind === "head" && o.person === person);
  for (const height of HEIGHTS) {
    const staged = lighting.stage.people[person];
    const line = skinLine(lighting.stage.tracer, headMesh, staged, height, -litSign as 1 | -1);
    best = darker(best, fadeAlong(lighting, light, line));
  }
  return best ? best.width * 1000 : null;
}

/** From how dark a place a shadow fades, and over what width, metres. */
export interface Fade {
  readonly low: number;
  readonly width: number;
}

export function darker(a: Fade | null, b: Fade | null): Fade | null {
  return b && (!a || b.low < a.low) ? b : a;
}

/** Points on the skin and their normals (6 numbers each, world) along a horizontal line from beside the nose outward. */
export function skinLine(
  tracer: Tracer,
  headMesh: number,
  staged: Pick<StagedPerson, "headRotation" | "headOffset" | "shape">,
  height: number,
  side: 1 | -1,
): number[][] {
  const tip = staged.shape.head.landmarks.noseTip;
  const mesh: MeshInstance = tracer.scene.meshes[headMesh];
  const back = new Float64Array(3);
  rotate(staged.headRotation, Float64Array.of(-1, 0, 0), 0, back, 0);
  const line: number[][] = [];
  for (let out = 0.004; out < REACH; out += STEP) {
    const start = toWorld(staged, [tip[0] + 0.05, tip[1] + side * out, tip[2] + height]);
    const t = tracer;
    if (!t.closest(start[0], start[1], start[2], back[0], back[1], back[2], 0.2, false)) continue;
    if (t.index !== headMesh) continue;
    const n = new Float64Array(3);
    const turned = new Float64Array(3);
    for (let k = 0; k < 3; k++) {
      const v = 3 * mesh.triangles[3 * t.triangle + k];
      const w = k === 0 ? 1 - t.u - t.v : k === 1 ? t.u : t.v;
      for (let c = 0; c < 3; c++) n[c] += w * mesh.normals[v + c];
    }
    rotate(mesh.rotation, n, 0, turned, 0);
    const length = Math.hypot(turned[0], turned[1], turned[2]);
    line.push([
      start[0] + t.t * back[0],
      start[1] + t.t * back[1],
      start[2] + t.t * back[2],
      turned[0] / length,
      turned[1] / length,
      turned[2] / length,
    ]);
  }
  return line;
}

/** Share of the light that is not cut off, along the line; the first rise from shadow to light that is a shadow's edge. */
function fadeAlong(lighting: Pick<Lighting, "stage">, light: number, line: readonly number[][]): Fade | null {
  const { scene, tracer } = lighting.stage;
  const parts = scatterFace(scene.emitters[light], POINTS);
  const { centre } = scene.emitters[light];
  const clear = new Float64Array(line.length);
  for (let i = 0; i < line.length; i++) {
    const [x, y, z, nx, ny, nz] = line[i];
    const px = x + LINE_LIFT * nx;
    const py = y + LINE_LIFT * ny;
    const pz = z + LINE_LIFT * nz;
    // as a receptor turned to the light sees it: where the skin itself turns away the light is cut off as well, and
    // what little of it is left must not count for the whole
    const to = [centre[0] - px, centre[1] - py, centre[2] - pz];
    const far = Math.hypot(to[0], to[1], to[2]);
    clear[i] = shareSeen(tracer, light, parts, 0, 1, px, py, pz, to[0] / far, to[1] / far, to[2] / far);
  }
  return fadeOf(clear, alongLine(line));
}

/** Rays start so far off the skin. */
export const LINE_LIFT = 5e-4;

/** Metres along the skin from the first point of a line. */
export function alongLine(line: readonly number[][]): Float64Array {
  const along = new Float64Array(line.length);
  for (let i = 1; i < line.length; i++) {
    const [x, y, z] = line[i];
    along[i] = along[i - 1] + Math.hypot(x - line[i - 1][0], y - line[i - 1][1], z - line[i - 1][2]);
  }
  return along;
}

export function fadeOf(clear: Float64Array, along: Float64Array): Fade | null {
  let low = 0;
  for (let i = 1; i < clear.length; i++) {
    if (clear[i] < clear[low]) low = i;
    // past the shadow: the first crest after the darkest place so far
    if (clear[i] - clear[low] > LEAST_RISE && (i + 1 === clear.length || clear[i + 1] <= clear[i] + 1e-3)) {
      const at = (share: number) => {
        const level = clear[low] + share * (clear[i] - clear[low]);
        for (let k = low; k < i; k++) {
          if (clear[k + 1] < level) continue;
          const f = (level - clear[k]) / (clear[k + 1] - clear[k]);
          return along[k] + Math.max(0, Math.min(1, f)) * (along[k + 1] - along[k]);
        }
        return along[i];
      };
      return { low: clear[low], width: at(HIGH) - at(LOW) };
    }
  }
  return null;
}
