/** The light in the picture, as shares per light. What the camera sees is traced once (frame-samples.ts); the light of
 * each lamp on it is kept apart, so that moving one lamp that is not in the picture traces that lamp alone. */
import { cutFace, directFlat, HIT, reach, SUBSETS, scatterFace, shareSeen } from "../engine/index.ts";
import { schlickReflectance } from "../photometry/index.ts";
import { type Viewfinder, writeCameraRay } from "./camera-rays.ts";
import { recallDirect } from "./direct-memory.ts";
import { evenOut } from "./frame-filter.ts";
import { EXTRA, type FrameSamples, POINT, placeOf, platesInView, traceSamples } from "./frame-samples.ts";
import type { Lighting } from "./lighting.ts";
import { type KeepGoing, step, within } from "./progress.ts";
import { behindPanel, frontLuminance } from "./spot.ts";
import { newSeenPoint, SurfaceLight } from "./surface-light.ts";

/** Per pixel, top row first. */
export interface FrameShares {
  readonly width: number;
  readonly height: number;
  /** per light, on or off: pi x luminance x time for a white light, rgb; per lm.s */
  readonly perLight: readonly Float32Array[];
  /** rgb reflectance of what is seen (0 where nothing is): ambient light is weighed with it */
  readonly albedo: Float32Array;
  readonly seen: Uint8Array;
  /** values that were not finite and count as 0: shown, never hidden */
  readonly badSamples: number;
}

/** Neighbouring pixels take different sixteenths of a light's face; `evenOut` then shares them within 4 x 4. */
const POINTS = { coarse: 64, fine: 256 } as const;
/** 64 parts: within 0.3 % of the closed form from half a diameter off (measured). */
const WHOLE_RINGS = 4;
/** From so many radii on a quarter of the parts does as well. */
const DISTANT_RINGS = 2;
const DISTANT = 4;
const FAR = 1e6;
/** Refractive index of a cornea, published-checks section 10. */
const CORNEA_INDEX = 1.376;
/** Numbers kept per sample and light: exposure if all of the face were seen, share of it that is, glow of a panel. */
const WIDTH = 3;

export function traceFrame(lighting: Lighting, view: Viewfinder, keepGoing: KeepGoing): FrameShares {
  const { memory, stage, stillKey, plateKeys } = lighting;
  const inView = platesInView(lighting, view).map((i) => [i, plateKeys[i]]);
  const name = JSON.stringify([lighting.quality, view, inView]);
  const samples = memory.recall("frame samples", stillKey + name, () =>
    traceSamples(lighting, view, within(keepGoing, 0, 0.2)),
  );
  const surface = new SurfaceLight(lighting, lighting.quality === "fine");
  const lights = stage.lights.length;
  const bad = { samples: 0 };
  const perLight = stage.lights.map((_, l) => {
    const part = within(keepGoing, 0.2 + (0.8 * l) / lights, 0.2 + (0.8 * (l + 1)) / lights);
    return lightOnSamples(lighting, samples, name, l, surface, bad, part);
  });
  addFronts(lighting, view, samples, perLight, bad);
  const n = 3 * samples.width * samples.height;
  return {
    width: samples.width,
    height: samples.height,
    perLight: perLight.map((all) => meanOnOutlines(samples, all)),
    albedo: samples.albedo.slice(0, n),
    seen: samples.seen.slice(0, n / 3),
    badSamples: bad.samples,
  };
}

/** rgb per sample: what the surface sends back of one light, and what a lit panel glows. */
function lightOnSamples(
  lighting: Lighting,
  s: FrameSamples,
  name: string,
  light: number,
  surface: SurfaceLight,
  bad: { samples: number },
  keepGoing: KeepGoing,
): Float32Array {
  const direct = directOnSamples(lighting, s, name, light, keepGoing);
  const share = new Float32Array(s.count);
  for (let i = 0; i < s.count; i++) share[i] = direct[WIDTH * i + 1];
  const even = evenOut(share, s);
  const out = new Float32Array(3 * s.count);
  const arriving = new Float64Array(3);
  const hit = { kind: 0, index: 0, triangle: 0, u: 0, v: 0, fromFront: false };
  for (let i = 0; i < s.count; i++) {
    if (s.kind[i] === HIT.nothing || s.kind[i] === HIT.emitter) continue;
    hit.kind = s.kind[i];
    hit.index = s.index[i];
    hit.triangle = s.triangle[i];
    hit.u = s.uv[2 * i];
    hit.v = s.uv[2 * i + 1];
    hit.fromFront = s.fromFront[i] === 1;
    surface.write(light, hit, arriving);
    const straight = even[i] * direct[WIDTH * i];
    const glow = direct[WIDTH * i + 2];
    for (let c = 0; c < 3; c++) {
      const value = s.albedo[3 * i + c] * (straight + arriving[c]) + glow;
      if (Number.isFinite(value)) out[3 * i + c] = value;
      else bad.samples++;
    }
  }
  return out;
}

/** The light that comes straight from one lamp. Only the share that is seen carries grain, and only it is evened out
 * afterwards, so that light without shadows is as exact as its sum. */
function directOnSamples(
  lighting: Lighting,
  s: FrameSamples,
  name: string,
  light: number,
  keepGoing: KeepGoing,
): Float64Array {
  const { stage, memory, quality } = lighting;
  const { tracer } = stage;
  return recallDirect(memory, lighting, stage, light, "frame direct", {
    name,
    count: s.count,
    width: WIDTH,
    points: s.points,
    stride: POINT,
    prepare: () => {
      const emitter = stage.scene.emitters[light];
      const point = emitter.shape === "point";
      const parts = scatterFace(emitter, POINTS[quality]);
      const whole = cutFace(emitter, point ? 1 : WHOLE_RINGS);
      const distant = cutFace(emitter, point ? 1 : DISTANT_RINGS);
      const far2 = (DISTANT * reach(emitter)) ** 2;
      const [cx, cy, cz] = emitter.centre;
      const stepBy = point ? 1 : SUBSETS;
      const panel = newSeenPoint();
      return (i, out) => {
        if ((i & 4095) === 0) step(keepGoing, i / s.count);
        const k = WIDTH * i;
        out[k] = 0;
        out[k + 1] = 0;
        out[k + 2] = 0;
        if (s.kind[i] === HIT.nothing || s.kind[i] === HIT.emitter) return;
        const p = POINT * i;
        const [x, y, z] = [s.points[p], s.points[p + 1], s.points[p + 2]];
        const [nx, ny, nz] = [s.points[p + 3], s.points[p + 4], s.points[p + 5]];
        const cut = (x - cx) ** 2 + (y - cy) ** 2 + (z - cz) ** 2 > far2 ? distant : whole;
        out[k] = directFlat(tracer, light, cut, 0, 1, x, y, z, nx, ny, nz, false);
        if (out[k] > 0) {
          const first = stepBy === 1 ? 0 : placeOf(s, i).subset;
          out[k + 1] = shareSeen(tracer, light, parts, first, stepBy, x, y, z, nx, ny, nz);
        }
        if (s.transmittance[i] > 0) {
          Object.assign(panel, { x, y, z, nx, ny, nz });
          out[k + 2] = s.transmittance[i] * behindPanel(tracer, light, lighting.parts[light], panel);
        }
      };
    },
  });
}

/** Lights' own fronts in view, and mirrored in the wet surface of eyes (Fresnel by Schlick 1994): pi L, so that they
 * weigh as surfaces do. */
function addFronts(
  lighting: Lighting,
  view: Viewfinder,
  s: FrameSamples,
  perLight: readonly Float32Array[],
  bad: { samples: number },
) {
  const { tracer } = lighting.stage;
  const [ox, oy, oz] = view.position;
  const ray = new Float64Array(3);
  const add = (i: number, value: number) => {
    if (!Number.isFinite(value)) bad.samples++;
    else for (let c = 0; c < 3; c++) perLight[tracer.index][3 * i + c] += value;
  };
  for (let i = 0; i < s.count; i++) {
    if (s.kind[i] !== HIT.emitter) continue;
    const { x, y } = placeOf(s, i);
    writeCameraRay(view, x, y, ray);
    const [dx, dy, dz] = ray;
    if (tracer.closest(ox, oy, oz, dx, dy, dz, FAR, true) && tracer.kind === HIT.emitter)
      add(i, Math.PI * frontLuminance(tracer, dx, dy, dz, ox, oy, oz));
  }
  for (const i of s.wet) {
    const { x, y } = placeOf(s, i);
    writeCameraRay(view, x, y, ray);
    const [dx, dy, dz] = ray;
    const p = POINT * i;
    const [px, py, pz, nx, ny, nz] = s.points.subarray(p, p + POINT);
    const along = dx * nx + dy * ny + dz * nz;
    if (!(along < 0)) continue;
    const rx = dx - 2 * along * nx;
    const ry = dy - 2 * along * ny;
    const rz = dz - 2 * along * nz;
    if (!tracer.closest(px, py, pz, rx, ry, rz, FAR, true) || tracer.kind !== HIT.emitter) continue;
    const fresnel = schlickReflectance(Math.acos(Math.min(1, -along)), CORNEA_INDEX);
    add(i, fresnel * Math.PI * frontLuminance(tracer, rx, ry, rz, px, py, pz));
  }
}

/** Pixels on an outline become the mean of their four samples; the rest stay as they are. */
function meanOnOutlines(s: FrameSamples, all: Float32Array): Float32Array {
  const n = s.width * s.height;
  const out = all.slice(0, 3 * n);
  s.edges.forEach((pixel, e) => {
    for (let c = 0; c < 3; c++) {
      let sum = 0;
      for (let k = 0; k < EXTRA; k++) sum += all[3 * (n + EXTRA * e + k) + c];
      out[3 * pixel + c] = sum / EXTRA;
    }
  });
  return out;
}
