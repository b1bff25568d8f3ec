/** The light in the picture, as shares per light. What the camera sees is traced once (frame-samples.ts); the light of
 * each lamp on it is kept apart, so that moving one lamp that is not in the picture traces that lamp alone. */
import { HIT } from "../engine/index.ts";
import type { Viewfinder } from "./camera-rays.ts";
import { directOnSamples, WIDTH } from "./frame-direct.ts";
import { evenOut, pixelsBeside } from "./frame-filter.ts";
import { addMirrored, addMirroredEven, traceMirrored } from "./frame-mirrors.ts";
import {
  EXTRA,
  type FrameSamples,
  platesInView,
  traceSamples,
  traceThings,
  withPlates,
} from "./frame-samples.ts";
import { ambientShine, glintsOnSkin, lightOnSkin } from "./frame-shine.ts";
import { type Finish, finishes, finishKey, type SkinSamples, skinSamples } from "./frame-skin.ts";
import type { Lighting } from "./lighting.ts";
import { type KeepGoing, within } from "./progress.ts";
import { SurfaceLight } from "./surface-light.ts";

/** Per pixel, top row first. */
export interface FrameShares {
  readonly width: number;
  readonly height: number;
  /** per light, on or off: pi x luminance x time for a white light, rgb; per lm.s */
  readonly perLight: readonly Float32Array[];
  /** rgb reflectance of what is seen as uniform light shows it (0 where nothing is): ambient light is weighed with it */
  readonly albedo: Float32Array;
  readonly seen: Uint8Array;
  /** of those, what the glints of skin add to matt skin, less what they take */
  readonly shine: Shine;
  /** values that were not finite and count as 0: shown, never hidden */
  readonly badSamples: number;
}

/** For some pixels only, those of skin: three numbers for each of `pixels`. */
export interface Shine {
  readonly pixels: Uint32Array;
  readonly perLight: readonly Float32Array[];
  readonly albedo: Float32Array;
}

export function traceFrame(lighting: Lighting, view: Viewfinder, keepGoing: KeepGoing): FrameShares {
  const { memory, stage, stillKey } = lighting;
  const plates = platesInView(lighting, view);
  const { name, samples } =
    lighting.effort === "glance"
      ? samplesAtGlance(lighting, view, plates)
      : samplesOf(lighting, view, plates, within(keepGoing, 0, 0.2));
  const skin = memory.recall("frame skin", stillKey + name, () => skinSamples(lighting, view, samples));
  const finish = finishes(lighting);
  const surface = new SurfaceLight(lighting, lighting.quality === "fine" ? { name, ...samples } : null);
  const mirrored = memory.recall("frame mirrored", lighting.lightKey + name, () =>
    traceMirrored(lighting, view, samples),
  );
  const lights = stage.lights.length;
  const bad = { samples: 0 };
  const n = 3 * samples.width * samples.height;
  const shown = samples.albedo.slice();
  addMirroredEven(lighting, mirrored, shown);
  const ambient = ambientShine(view, samples, skin, finish);
  addOnSkin(skin, ambient, shown);
  const pixels = skin.sample.subarray(0, skin.net.count);
  const outlined = newOutlined(samples, skin);
  const shinePerLight: Float32Array[] = [];
  const perLight = stage.lights.map((_, l) => {
    const part = within(keepGoing, 0.2 + (0.8 * l) / lights, 0.2 + (0.8 * (l + 1)) / lights);
    const all = new Float32Array(3 * samples.count);
    const shine = lightOnSamples(lighting, view, samples, skin, finish, name, l, surface, all, part);
    addMirrored(lighting, mirrored, l, all);
    for (let i = 0; i < all.length; i++) {
      if (Number.isFinite(all[i])) continue;
      bad.samples++;
      all[i] = 0;
    }
    shinePerLight.push(onPixels(outlined, skin, shine));
    return meanOnOutlines(samples, all);
  });
  return {
    width: samples.width,
    height: samples.height,
    perLight,
    albedo: meanOnOutlines(samples, shown),
    seen: samples.seen.slice(0, n / 3),
    shine: { pixels, perLight: shinePerLight, albedo: onPixels(outlined, skin, ambient) },
    badSamples: bad.samples,
  };
}

interface Named {
  /** tells samples from others, beyond what stands still */
  readonly name: string;
  readonly samples: FrameSamples;
}

function samplesOf(
  lighting: Lighting,
  view: Viewfinder,
  plates: readonly number[],
  keepGoing: KeepGoing,
): Named {
  const { memory, stillKey } = lighting;
  const name = nameOf(lighting, view, plates);
  const trace = () => traceSamples(lighting, view, keepGoing);
  return { name, samples: memory.recall("frame samples", stillKey + name, trace) };
}

/** A light that is dragged through the picture leaves all that stands behind it. */
function samplesAtGlance(lighting: Lighting, view: Viewfinder, plates: readonly number[]): Named {
  const { memory, stillKey } = lighting;
  const name = nameOf(lighting, view, []);
  const things = memory.recall("frame samples", stillKey + name, () => traceThings(lighting, view));
  const samples = plates.length > 0 ? withPlates(lighting, view, things, plates) : things;
  return { name: samples === things ? name : nameOf(lighting, view, plates), samples };
}

function nameOf(lighting: Lighting, view: Viewfinder, plates: readonly number[]): string {
  return JSON.stringify([lighting.quality, view, plates.map((i) => [i, lighting.plateKeys[i]])]);
}

/** rgb per sample into `all`: what the surface sends back of one light, and what a lit panel glows. Gives what glinting
 * adds to that on skin. */
function lightOnSamples(
  lighting: Lighting,
  view: Viewfinder,
  s: FrameSamples,
  skin: SkinSamples,
  finish: readonly (Finish | null)[],
  name: string,
  light: number,
  surface: SurfaceLight,
  all: Float32Array,
  keepGoing: KeepGoing,
): Float32Array {
  // only the share that is seen carries grain, and only it is evened out, so that light without shadows is as exact
  // as its sum
  const direct = directOnSamples(lighting, s, name, light, keepGoing);
  const share = new Float32Array(s.count);
  for (let i = 0; i < s.count; i++) share[i] = direct[WIDTH * i + 1];
  const even = evenOut(share, s);
  if (lighting.effort === "glance") {
    // samples of outlines go by the pixels beside them
    const pixels = s.width * s.height;
    pixelsBeside(s).forEach((pixel, k) => {
      if (pixel >= 0) even[pixels + k] = even[pixel];
    });
  }
  const count = skin.sample.length;
  const arrives = { straight: new Float32Array(count), bounced: new Float32Array(3 * count) };
  const arriving = new Float64Array(3);
  const hit = { kind: 0, index: 0, triangle: 0, u: 0, v: 0, fromFront: false };
  let onSkin = 0;
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
    if (skin.sample[onSkin] === i) {
      arrives.straight[onSkin] = straight;
      arrives.bounced.set(arriving, 3 * onSkin++);
      continue;
    }
    const glow = direct[WIDTH * i + 2];
    for (let c = 0; c < 3; c++) all[3 * i + c] = s.albedo[3 * i + c] * (straight + arriving[c]) + glow;
  }
  const dull = new Float32Array(3 * count);
  const shine = new Float32Array(3 * count);
  const { memory, stillKey, ownKeys } = lighting;
  const glints = memory.recall(
    `frame glints ${light}`,
    stillKey + name + ownKeys[light] + finishKey(lighting),
    () => glintsOnSkin(lighting, view, s, skin, finish, light),
  );
  lightOnSkin(s, skin, finish, glints, arrives, dull, shine);
  addOnSkin(skin, dull, all);
  addOnSkin(skin, shine, all);
  return shine;
}

function addOnSkin({ sample }: SkinSamples, values: Float32Array, all: Float32Array) {
  for (let k = 0; k < sample.length; k++)
    for (let c = 0; c < 3; c++) all[3 * sample[k] + c] += values[3 * k + c];
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

/** Per skin pixel whether it lies on an outline, and per sample of an outline which skin pixel that is, -1 for none. */
interface Outlined {
  readonly pixel: Uint8Array;
  readonly of: Int32Array;
}

function newOutlined(s: FrameSamples, skin: SkinSamples): Outlined {
  const { count } = skin.net;
  const n = s.width * s.height;
  const numberOf = new Map<number, number>();
  for (let k = 0; k < count; k++) numberOf.set(skin.sample[k], k);
  const pixel = new Uint8Array(count);
  for (const edge of s.edges) {
    const k = numberOf.get(edge);
    if (k !== undefined) pixel[k] = 1;
  }
  const of = new Int32Array(skin.sample.length - count);
  for (let k = 0; k < of.length; k++)
    of[k] = numberOf.get(s.edges[Math.floor((skin.sample[count + k] - n) / EXTRA)]) ?? -1;
  return { pixel, of };
}

/** Values of skin samples as their pixels show them. */
function onPixels({ pixel, of }: Outlined, { net }: SkinSamples, values: Float32Array): Float32Array {
  const out = values.slice(0, 3 * net.count);
  for (let k = 0; k < net.count; k++) if (pixel[k]) out.fill(0, 3 * k, 3 * k + 3);
  of.forEach((k, e) => {
    if (k < 0) return;
    for (let c = 0; c < 3; c++) out[3 * k + c] += values[3 * (net.count + e) + c] / EXTRA;
  });
  return out;
}
