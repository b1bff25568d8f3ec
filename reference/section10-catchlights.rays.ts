/** One front before one eye, read from a whole plan and met by plain rays that share no code with the reading. */
import { type Catchlight, readPlan } from "../src/reading/index.ts";
import { stage } from "../src/staging/index.ts";
import { once, type Point, planOf } from "./plans.ts";

const SITTER = { name: "sitter", position: [3, 3], stature: 1.7, facing: 180 };

/** The own left eye of the sitter, who looks toward -y: its cornea's centre and apex in the world, metres. */
export const eye = once(() => {
  const [person] = stage(planOf({ people: [SITTER], lights: [], camera: { position: [3, 1, 1.6] } })).people;
  const { corneaCentre, corneaRadius, irisRadius } = person.shape.head.leftEye;
  const [ahead, left, up] = corneaCentre;
  const [x, y, z] = person.headOffset;
  const centre: Point = [x + left, y - ahead, z + up];
  const deep = Math.sqrt(corneaRadius ** 2 - irisRadius ** 2);
  return {
    centre,
    radius: corneaRadius,
    irisRadius,
    irisAt: centre[1] - deep,
    apex: centre[1] - corneaRadius,
  };
});

/** A front before the eye: `distance` along the eye's axis from its apex, `aside` (picture right) and `upward` across
 * it, looking at the eye or square to the axis. The camera stands on the axis. Millimetres. */
export interface Place {
  readonly distance: number;
  readonly aside: number;
  readonly upward: number;
  readonly face: object;
  readonly square?: true;
}

const CAMERA = 900;

export interface Seen {
  readonly light: Catchlight;
  readonly camera: Point;
  readonly front: Point;
  /** where the front faces */
  readonly normal: Point;
}

export function read(p: Place): Seen {
  const { centre, apex } = eye();
  const camera: Point = [centre[0], apex - CAMERA / 1000, centre[2]];
  const front: Point = [centre[0] + p.aside / 1000, apex - p.distance / 1000, centre[2] + p.upward / 1000];
  const direction = p.square ? { bearing: 0, tilt: 0 } : { at: [centre[0], apex, centre[2]] };
  const light = { name: "key", position: front, direction, face: p.face, output: { lumenSeconds: 1000 } };
  const plan = planOf({
    people: [SITTER],
    lights: [light],
    camera: { position: camera, direction: { bearing: 0, tilt: 0 } },
  });
  const all = readPlan(plan, "coarse").people[0].face.catchlights;
  const found = all.find((c) => c.eye === "left");
  if (!found) throw new Error("the key is not mirrored");
  const way: Point = [centre[0] - front[0], apex - front[1], centre[2] - front[2]];
  return { light: found, camera, front, normal: p.square ? [0, 1, 0] : unit(way) };
}

export interface Rays {
  readonly width: number;
  readonly height: number;
  readonly middle: [number, number];
}

const ACROSS = 600;

/** Rays over the window that the reading's outline fills, and a tenth more: size and middle of what meets the front. */
export function plainRays(seen: Seen, radius: number): Rays {
  const { light } = seen;
  const scale = 1000 * eye().irisRadius;
  const xs = light.outline.map((p) => p[0] * scale);
  const ys = light.outline.map((p) => p[1] * scale);
  // an uneven share, so that the grid does not fall in step with the outline
  const half = 0.6137 * Math.max(light.widthMillimetres, light.heightMillimetres);
  const x0 = (Math.min(...xs) + Math.max(...xs)) / 2;
  const y0 = (Math.min(...ys) + Math.max(...ys)) / 2;
  const step = (2 * half) / ACROSS;
  let count = 0;
  const sum = [0, 0];
  const low = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let j = 0; j < ACROSS; j++)
    for (let i = 0; i < ACROSS; i++) {
      const at = [x0 - half + (i + 0.5) * step, y0 - half + (j + 0.5) * step];
      if (!(rimDistance(seen, at[0], at[1]) <= radius)) continue;
      count++;
      for (const k of [0, 1]) {
        sum[k] += at[k];
        low[k] = Math.min(low[k], at[k] - step / 2);
        high[k] = Math.max(high[k], at[k] + step / 2);
      }
    }
  return { width: high[0] - low[0], height: high[1] - low[1], middle: [sum[0] / count, sum[1] / count] };
}

export function worstOnRim(seen: Seen, radius: number): number {
  const scale = 1000 * eye().irisRadius;
  let worst = 1;
  for (const [x, y] of seen.light.outline) {
    const share = rimDistance(seen, x * scale, y * scale) / radius;
    if (Math.abs(share - 1) > Math.abs(worst - 1)) worst = share;
  }
  return worst;
}

/** How far from the front's middle the ray arrives that the camera sees at (x, y) mm from the middle of the iris. */
function rimDistance({ camera, front, normal }: Seen, x: number, y: number): number {
  const { centre, radius, irisAt } = eye();
  const d = unit([centre[0] + x / 1000 - camera[0], irisAt - camera[1], centre[2] + y / 1000 - camera[2]]);
  const m = minus(camera, centre);
  const b = dot(m, d);
  const under = b * b - (dot(m, m) - radius * radius);
  if (under < 0) return Number.NaN;
  const t = -b - Math.sqrt(under);
  const p: Point = [camera[0] + t * d[0], camera[1] + t * d[1], camera[2] + t * d[2]];
  const n = unit(minus(p, centre));
  const turn = 2 * dot(d, n);
  const r: Point = [d[0] - turn * n[0], d[1] - turn * n[1], d[2] - turn * n[2]];
  const far = dot(minus(front, p), normal) / dot(r, normal);
  return Math.hypot(...[0, 1, 2].map((k) => p[k] + far * r[k] - front[k]));
}

export function middleOf(p: readonly (readonly [number, number])[]): [number, number] {
  let area = 0;
  let x = 0;
  let y = 0;
  p.forEach(([a, b], i) => {
    const [u, v] = p[(i + 1) % p.length];
    const w = a * v - u * b;
    area += w / 2;
    x += (w * (a + u)) / 6;
    y += (w * (b + v)) / 6;
  });
  return [x / area, y / area];
}

function dot(a: Point, b: Point): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function minus(a: Point, b: Point): Point {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

function unit(v: Point): Point {
  const length = Math.hypot(...v);
  return [v[0] / length, v[1] / length, v[2] / length];
}
