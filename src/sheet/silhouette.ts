/** The outline of a person as seen square on, from the same figure that light falls on. */
import type { Mesh, PersonShape } from "../figure/index.ts";
import type { StagedPerson } from "../staging/index.ts";
import type { PaperPoint, View } from "./drawing.ts";

/** Rays of a round outline: 5° apart, wider than the spacing of the head's points seen from its middle. */
const RAYS = 72;
/** Slices of a standing outline: about 4 cm apart on a grown person. */
const SLICES = 44;

export interface PersonOutline {
  readonly head: PaperPoint[];
  readonly body: PaperPoint[];
  readonly noseTip: readonly [number, number, number];
  /** unit vector straight ahead of the nose, in the world */
  readonly ahead: readonly [number, number, number];
}

/** The last outlines of each shape: a drag draws everybody again who has not moved. */
const drawn = new WeakMap<PersonShape, { key: string; outline: PersonOutline }[]>();
const KEPT = 8;

export function personOutline(person: StagedPerson, view: View): PersonOutline {
  const { headRotation, headOffset, bodyRotation, bodyOffset } = person;
  const key = [view, ...headRotation, ...headOffset, ...bodyRotation, ...bodyOffset].join();
  let kept = drawn.get(person.shape);
  if (!kept) {
    kept = [];
    drawn.set(person.shape, kept);
  }
  let found = kept.find((each) => each.key === key);
  if (!found) {
    found = { key, outline: outlineOf(person, view) };
    kept.unshift(found);
    if (kept.length > KEPT) kept.pop();
  }
  return found.outline;
}

function outlineOf(person: StagedPerson, view: View): PersonOutline {
  const { shape, headRotation: h, headOffset, bodyRotation, bodyOffset } = person;
  const head = onPaper(shape.head.mesh, h, headOffset, view);
  const body = onPaper(shape.body, bodyRotation, bodyOffset, view);
  const tip = shape.head.landmarks.noseTip;
  const noseTip = [0, 1, 2].map(
    (k) => headOffset[k] + h[3 * k] * tip[0] + h[3 * k + 1] * tip[1] + h[3 * k + 2] * tip[2],
  );
  return {
    head: roundOutline(head),
    body: view === "floor" ? roundOutline(body) : slicedOutline(body, shape.body.triangles),
    noseTip: [noseTip[0], noseTip[1], noseTip[2]],
    ahead: [h[0], h[3], h[6]],
  };
}

function onPaper(mesh: Mesh, turn: Float64Array, offset: Float64Array, view: View): Float64Array {
  const [a, u] = view === "floor" ? [0, 1] : [1, 2];
  const p = mesh.positions;
  const out = new Float64Array((p.length / 3) * 2);
  for (let i = 0, o = 0; i < p.length; i += 3, o += 2) {
    out[o] = offset[a] + turn[3 * a] * p[i] + turn[3 * a + 1] * p[i + 1] + turn[3 * a + 2] * p[i + 2];
    out[o + 1] = offset[u] + turn[3 * u] * p[i] + turn[3 * u + 1] * p[i + 1] + turn[3 * u + 2] * p[i + 2];
  }
  return out;
}

/** The farthest point in every direction from the middle: exact for shapes that can be seen whole from there. */
function roundOutline(points: Float64Array): PaperPoint[] {
  let [a0, a1, u0, u1] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < points.length; i += 2) {
    a0 = Math.min(a0, points[i]);
    a1 = Math.max(a1, points[i]);
    u0 = Math.min(u0, points[i + 1]);
    u1 = Math.max(u1, points[i + 1]);
  }
  const middle = [(a0 + a1) / 2, (u0 + u1) / 2];
  const farthest = new Float64Array(RAYS);
  const at = new Int32Array(RAYS).fill(-1);
  for (let i = 0; i < points.length; i += 2) {
    const [a, u] = [points[i] - middle[0], points[i + 1] - middle[1]];
    const ray = Math.floor(((Math.atan2(u, a) / (2 * Math.PI) + 1) % 1) * RAYS);
    const r = a * a + u * u;
    if (r > farthest[ray]) {
      farthest[ray] = r;
      at[ray] = i;
    }
  }
  return [...at].filter((i) => i >= 0).map((i) => [points[i], points[i + 1]]);
}

/** Leftmost and rightmost point at every height. */
function slicedOutline(points: Float64Array, triangles: Uint32Array): PaperPoint[] {
  let [bottom, top] = [Infinity, -Infinity];
  for (let i = 1; i < points.length; i += 2) {
    bottom = Math.min(bottom, points[i]);
    top = Math.max(top, points[i]);
  }
  const step = (top - bottom) / SLICES;
  const left = new Float64Array(SLICES + 1).fill(Infinity);
  const right = new Float64Array(SLICES + 1).fill(-Infinity);
  for (let t = 0; t < triangles.length; t++) {
    const a = 2 * triangles[t];
    const b = 2 * triangles[t - (t % 3) + ((t + 1) % 3)];
    const [lo, hi] = points[a + 1] < points[b + 1] ? [a, b] : [b, a];
    const first = Math.ceil((points[lo + 1] - bottom) / step - 1e-9);
    const last = Math.floor((points[hi + 1] - bottom) / step + 1e-9);
    for (let k = Math.max(0, first); k <= Math.min(SLICES, last); k++) {
      const rise = points[hi + 1] - points[lo + 1];
      const share = rise > 1e-9 ? Math.min(1, Math.max(0, (bottom + k * step - points[lo + 1]) / rise)) : 0;
      const across = points[lo] + share * (points[hi] - points[lo]);
      left[k] = Math.min(left[k], across);
      right[k] = Math.max(right[k], across);
    }
  }
  const up: PaperPoint[] = [];
  const down: PaperPoint[] = [];
  for (let k = 0; k <= SLICES; k++) {
    if (left[k] > right[k]) continue;
    up.push([right[k], bottom + k * step]);
    down.push([left[k], bottom + k * step]);
  }
  return [...up, ...down.reverse()];
}
