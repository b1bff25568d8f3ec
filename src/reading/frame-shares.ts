/** The light in the picture, as shares per light. What the camera sees is traced once (frame-samples.ts); the light of
 * each lamp on it is kept apart, so that moving one lamp that is not in the picture traces that lamp alone. */
import { HIT } from "../engine/index.ts";
import { schlickReflectance } from "../photometry/index.ts";
import { type Viewfinder, writeCameraRay } from "./camera-rays.ts";
import { directOnSamples, WIDTH } from "./frame-direct.ts";
import { evenOut } from "./frame-filter.ts";
import {
  acrossOf,
  downOf,
  EXTRA,
  type FrameSamples,
  POINT,
  platesInView,
  traceSamples,
} from "./frame-samples.ts";
import type { Lighting } from "./lighting.ts";
import { type KeepGoing, within } from "./progress.ts";
import { frontLuminance } from "./spot.ts";
import { SurfaceLight } from "./surface-light.ts";

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

const FAR = 1e6;
/** Refractive index of a cornea, published-checks section 10. */
const CORNEA_INDEX = 1.376;

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
  // only the share that is seen carries grain, and only it is evened out, so that light without shadows is as exact
  // as its sum
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
    writeCameraRay(view, acrossOf(s, i), downOf(s, i), ray);
    const [dx, dy, dz] = ray;
    if (tracer.closest(ox, oy, oz, dx, dy, dz, FAR, true) && tracer.kind === HIT.emitter)
      add(i, Math.PI * frontLuminance(tracer, dx, dy, dz, ox, oy, oz));
  }
  for (const i of s.wet) {
    writeCameraRay(view, acrossOf(s, i), downOf(s, i), ray);
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
