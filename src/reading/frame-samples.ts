/** What the camera sees, before any light: one ray a pixel, and four more where an outline runs through a pixel. */
import { HIT, hitEmitter, reach, Tracer } from "../engine/index.ts";
import { MATERIAL } from "../figure/index.ts";
import { partMesh } from "../staging/index.ts";
import { type Viewfinder, writeCameraRay } from "./camera-rays.ts";
import type { Lighting } from "./lighting.ts";
import { type KeepGoing, step } from "./progress.ts";
import { newSeenPoint, writeSeenPoint } from "./surface-light.ts";

/** Samples in flat buffers: first one a pixel, top row first, then EXTRA for each pixel of `edges` in turn. */
export interface FrameSamples {
  readonly width: number;
  readonly height: number;
  readonly count: number;
  readonly edges: Uint32Array;
  /** POINT numbers a sample: where shadow rays start, and the shading normal */
  readonly points: Float32Array;
  readonly albedo: Float32Array;
  readonly transmittance: Float32Array;
  readonly depth: Float32Array;
  /** what is seen: see SEEN */
  readonly seen: Uint8Array;
  /** names what was hit, for the filter and for outlines */
  readonly surfaceId: Uint16Array;
  /** the hit itself, as a Tracer describes it */
  readonly kind: Uint8Array;
  readonly index: Uint16Array;
  readonly triangle: Int32Array;
  readonly uv: Float32Array;
  readonly fromFront: Uint8Array;
  /** samples on the wet front of an eye */
  readonly wet: Uint32Array;
}

export const SEEN = { nothing: 0, room: 1, panel: 2, light: 3, skin: 4, person: 5, backdrop: 6 } as const;
export const POINT = 6;
export const EXTRA = 4;
const FAR = 1e6;

/** The pixel that a sample belongs to. */
function pixelOf(s: FrameSamples, sample: number): number {
  const extra = sample - s.width * s.height;
  return extra < 0 ? sample : s.edges[Math.floor(extra / EXTRA)];
}

/** Where a sample lies in the picture, pixels from the left: pixel centres, and the middles of a pixel's quarters. */
export function acrossOf(s: FrameSamples, sample: number): number {
  const extra = sample - s.width * s.height;
  return (pixelOf(s, sample) % s.width) + (extra < 0 ? 0.5 : 0.25 + 0.5 * (extra & 1));
}

/** The same, pixels from the top. */
export function downOf(s: FrameSamples, sample: number): number {
  const extra = sample - s.width * s.height;
  return Math.floor(pixelOf(s, sample) / s.width) + (extra < 0 ? 0.5 : 0.25 + 0.5 * ((extra >> 1) & 1));
}

/** Which sixteenth of a face's points a sample asks: another one for each pixel of 4 x 4, and for each of an outline's. */
export function subsetOf(s: FrameSamples, sample: number): number {
  const pixel = pixelOf(s, sample);
  const own = ((pixel % s.width) & 3) + 4 * (Math.floor(pixel / s.width) & 3);
  const extra = sample - s.width * s.height;
  return extra < 0 ? own : (5 * (extra % EXTRA) + own) % 16;
}

export function traceSamples(lighting: Lighting, view: Viewfinder, keepGoing: KeepGoing): FrameSamples {
  const pixels = view.width * view.height;
  const first = newSamples(view, pixels, new Uint32Array(0));
  castSamples(lighting, view, first, 0, keepGoing);
  const edges = outlines(first, (2 * view.tanX) / view.width);
  const all = newSamples(view, pixels + EXTRA * edges.length, edges);
  for (const name of COPIED) (all[name] as Float32Array).set(first[name] as Float32Array);
  castSamples(lighting, view, all, pixels, keepGoing);
  const wet: number[] = [];
  for (let i = 0; i < all.count; i++) if (isWet(all.surfaceId[i])) wet.push(i);
  return { ...all, wet: Uint32Array.from(wet) };
}

/** Samples of everything but the plates of lights: they hold wherever the lights stand. */
export function traceThings(lighting: Lighting, view: Viewfinder): FrameSamples {
  const { stage } = lighting;
  const tracer = new Tracer({ ...stage.scene, emitters: [] });
  return traceSamples({ ...lighting, stage: { ...stage, tracer } }, view, () => true);
}

/** The samples with the plates of some lights put before them, where any is seen: outlines of those stay jagged. */
export function withPlates(
  { stage }: Lighting,
  view: Viewfinder,
  things: FrameSamples,
  lights: readonly number[],
): FrameSamples {
  const [ox, oy, oz] = view.position;
  const ray = new Float64Array(3);
  const s = {
    ...things,
    albedo: things.albedo.slice(),
    transmittance: things.transmittance.slice(),
    depth: things.depth.slice(),
    seen: things.seen.slice(),
    surfaceId: things.surfaceId.slice(),
    kind: things.kind.slice(),
    index: things.index.slice(),
    fromFront: things.fromFront.slice(),
  };
  let covered = false;
  for (let i = 0; i < s.count; i++) {
    writeCameraRay(view, acrossOf(s, i), downOf(s, i), ray);
    const [dx, dy, dz] = ray;
    for (const light of lights) {
      const e = stage.scene.emitters[light];
      const far = s.kind[i] === HIT.nothing ? FAR : s.depth[i];
      const t = hitEmitter(e, ox, oy, oz, dx, dy, dz, far);
      if (!(t > 0)) continue;
      covered = true;
      s.albedo.fill(0, 3 * i, 3 * i + 3);
      s.transmittance[i] = 0;
      s.depth[i] = t;
      s.seen[i] = SEEN.light;
      s.surfaceId[i] = LIGHT + light;
      s.kind[i] = HIT.emitter;
      s.index[i] = light;
      s.fromFront[i] = dx * e.forward[0] + dy * e.forward[1] + dz * e.forward[2] < 0 ? 1 : 0;
    }
  }
  return covered ? { ...s, wet: s.wet.filter((i) => s.kind[i] !== HIT.emitter) } : things;
}

const COPIED = [
  "points",
  "albedo",
  "transmittance",
  "depth",
  "seen",
  "surfaceId",
  "kind",
  "index",
  "triangle",
  "uv",
  "fromFront",
] as const;

/** Surface numbers of lights: 1000 + number; of people: 2000 + 100 x mesh + material. */
const LIGHT = 1000;
const PERSON = 2000;
/** Behind the film of tears. */
const WET: ReadonlySet<number> = new Set([MATERIAL.sclera, MATERIAL.iris, MATERIAL.pupil]);

function newSamples(view: Viewfinder, count: number, edges: Uint32Array): FrameSamples {
  return {
    width: view.width,
    height: view.height,
    count,
    edges,
    points: new Float32Array(POINT * count),
    albedo: new Float32Array(3 * count),
    transmittance: new Float32Array(count),
    depth: new Float32Array(count),
    seen: new Uint8Array(count),
    surfaceId: new Uint16Array(count),
    kind: new Uint8Array(count),
    index: new Uint16Array(count),
    triangle: new Int32Array(count),
    uv: new Float32Array(2 * count),
    fromFront: new Uint8Array(count),
    wet: new Uint32Array(0),
  };
}

function castSamples(
  lighting: Lighting,
  view: Viewfinder,
  s: FrameSamples,
  from: number,
  keepGoing: KeepGoing,
) {
  const { tracer } = lighting.stage;
  const [ox, oy, oz] = view.position;
  const ray = new Float64Array(3);
  const point = newSeenPoint();
  for (let i = from; i < s.count; i++) {
    if ((i & 4095) === 0) step(keepGoing, i / s.count);
    writeCameraRay(view, acrossOf(s, i), downOf(s, i), ray);
    const dx = ray[0];
    const dy = ray[1];
    const dz = ray[2];
    if (!tracer.closest(ox, oy, oz, dx, dy, dz, FAR, true)) continue;
    s.depth[i] = tracer.t;
    s.kind[i] = tracer.kind;
    s.index[i] = tracer.index;
    s.triangle[i] = tracer.triangle;
    s.uv[2 * i] = tracer.u;
    s.uv[2 * i + 1] = tracer.v;
    s.fromFront[i] = tracer.fromFront ? 1 : 0;
    describe(lighting, tracer, s, i);
    if (tracer.kind === HIT.emitter) continue;
    writeSeenPoint(lighting, tracer, ox, oy, oz, dx, dy, dz, point);
    s.points[POINT * i] = point.x;
    s.points[POINT * i + 1] = point.y;
    s.points[POINT * i + 2] = point.z;
    s.points[POINT * i + 3] = point.nx;
    s.points[POINT * i + 4] = point.ny;
    s.points[POINT * i + 5] = point.nz;
    s.albedo.set(point.albedo, 3 * i);
    s.transmittance[i] = point.transmittance;
  }
}

function describe(lighting: Lighting, tracer: Tracer, s: FrameSamples, i: number) {
  s.surfaceId[i] = 100 * tracer.kind + tracer.index;
  if (tracer.kind === HIT.room) s.seen[i] = SEEN.room;
  else if (tracer.kind === HIT.quad) s.seen[i] = SEEN.panel;
  else if (tracer.kind === HIT.emitter) {
    s.seen[i] = SEEN.light;
    s.surfaceId[i] = LIGHT + tracer.index;
  } else {
    const { stage } = lighting;
    const owner = stage.owners[tracer.index];
    if (owner.kind === "backdrop") {
      s.seen[i] = SEEN.backdrop;
      return;
    }
    const mesh = partMesh(stage.people[owner.person], owner.kind);
    const material = mesh?.materials[tracer.triangle] ?? MATERIAL.clothing;
    s.surfaceId[i] = PERSON + 100 * tracer.index + material;
    s.seen[i] = material === MATERIAL.skin || material === MATERIAL.lip ? SEEN.skin : SEEN.person;
  }
}

/** Neighbours on one surface that lie this many pixels' widths behind each other: a nose before its cheek. */
const FOLD = 6;

/** Pixels with a neighbour that shows something else or lies far behind it, and the wet front of eyes, in which lights
 * are smaller than a pixel. `pixelWidth` is the width of a pixel at a distance of 1. */
function outlines({ width, height, surfaceId, depth }: FrameSamples, pixelWidth: number): Uint32Array {
  const out: number[] = [];
  const fold = FOLD * pixelWidth;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const id = surfaceId[i];
      const step = fold * depth[i];
      const apart = (j: number) =>
        surfaceId[j] !== id || (id >= PERSON && Math.abs(depth[j] - depth[i]) > step);
      if (
        isWet(id) ||
        (x > 0 && apart(i - 1)) ||
        (x + 1 < width && apart(i + 1)) ||
        (y > 0 && apart(i - width)) ||
        (y + 1 < height && apart(i + width))
      )
        out.push(i);
    }
  }
  return Uint32Array.from(out);
}

/** The MATERIAL of a person's surface by its number, -1 for what is nobody. */
export function materialOf(surfaceId: number): number {
  return surfaceId >= PERSON ? surfaceId % 100 : -1;
}

/** Whether a surface's number is that of the wet front of an eye. */
function isWet(surfaceId: number): boolean {
  return WET.has(materialOf(surfaceId));
}

/** Lights whose plate may stand in the picture: the samples depend on these alone. */
export function platesInView(lighting: Lighting, v: Viewfinder): number[] {
  const out: number[] = [];
  lighting.stage.scene.emitters.forEach((e, i) => {
    if (e.shape === "point") return;
    const d = [0, 1, 2].map((k) => e.centre[k] - v.position[k]);
    const along = (axis: readonly number[]) => d[0] * axis[0] + d[1] * axis[1] + d[2] * axis[2];
    const radius = reach(e);
    const depth = along(v.forward);
    // the widest angle from the axis on either side, so that a part of the picture is never narrower than it is
    const inside = (side: number, mid: number, half: number) => {
      const tan = Math.abs(mid) + half;
      return (Math.abs(side) - tan * depth) / Math.sqrt(1 + tan * tan) <= radius;
    };
    if (depth > -radius && inside(along(v.right), v.midX, v.tanX) && inside(along(v.up), v.midY, v.tanY))
      out.push(i);
  });
  return out;
}
