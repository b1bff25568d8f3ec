/** The picture: shares weighed by power and colour, then exposed as the camera is set. */
import {
  clippingExposure,
  focalPlaneExposure,
  LUMINANCE,
  MIDDLE_LEVEL,
  pictureLevel,
} from "../photometry/index.ts";
import type { Camera, Plan } from "../plan/index.ts";
import { viewfinder, WHOLE_PICTURE } from "./camera-rays.ts";
import { SEEN } from "./frame-samples.ts";
import { type FrameShares, traceFrame } from "./frame-shares.ts";
import { finishKey } from "./frame-skin.ts";
import { type Lighting, lightUp, type Quality } from "./lighting.ts";
import type { Memory } from "./memory.ts";
import { type KeepGoing, within } from "./progress.ts";
import type { PictureRegion } from "./types.ts";

export interface Frame {
  readonly width: number;
  readonly height: number;
  /** luminance x time of the light that reaches the lens, cd.s/m2, rgb as the camera's white balance sees it; top row first */
  readonly luminance: Float32Array;
  /** what each pixel shows: see SEEN */
  readonly seen: Uint8Array;
  /** pixels of skin, ascending, and the part of each one's luminance that its glints add to matt skin, rgb */
  readonly shine: { readonly pixels: Uint32Array; readonly luminance: Float32Array };
  readonly badSamples: number;
}

export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8ClampedArray;
  /** per pixel: 0 not clipped, 1 clipped, 2 clipped and skin */
  readonly clipped: Uint8Array;
  /** per pixel: tenths of a stop from the middle level, by luminance; -128 where nothing arrives or more than 12.7 stops
   * under it */
  readonly tenths: Int8Array;
  /** sRGB as `rgba`, 16 bits, 3 numbers a pixel; null where it was not asked for */
  readonly deep: Uint16Array | null;
}

export function renderFrame(
  plan: Plan,
  request: { width: number; quality: Quality; region?: PictureRegion },
  memory: Memory,
  keepGoing: KeepGoing = () => true,
): Frame {
  const lighting = lightUp(plan, request.quality, memory, -1, within(keepGoing, 0, 0.1));
  return weighFrame(
    lighting,
    frameShares(lighting, request.width, within(keepGoing, 0.1, 1), request.region),
  );
}

/** Traced once for a place of camera, lights and things; power, colour and exposure then only weigh. */
export function frameShares(
  lighting: Lighting,
  width: number,
  keepGoing: KeepGoing = () => true,
  region = WHOLE_PICTURE,
): FrameShares {
  const { plan } = lighting.stage;
  const { position, direction, roll, sensor, orientation, focalLength } = plan.camera;
  // the quality again: a small coarse frame is also taken for a fine reading
  const seen = [lighting.quality, width, region, position, direction, roll, sensor, orientation, focalLength];
  const key = lighting.lightKey + JSON.stringify(seen) + finishKey(lighting);
  return lighting.memory.recall("frame", key, () =>
    traceFrame(lighting, viewfinder(plan.camera, width, region), keepGoing),
  );
}

export function weighFrame(lighting: Lighting, shares: FrameShares): Frame {
  const { width, height, seen, badSamples, shine } = shares;
  return {
    width,
    height,
    luminance: weigh(lighting, shares.albedo, shares.perLight),
    seen,
    shine: { pixels: shine.pixels, luminance: weigh(lighting, shine.albedo, shine.perLight) },
    badSamples,
  };
}

function weigh(lighting: Lighting, albedo: Float32Array, perLight: readonly Float32Array[]): Float32Array {
  const { lights, ambient } = lighting.stage;
  const out = albedo.map((a) => (a * ambient) / Math.PI);
  lights.forEach((light, l) => {
    if (!light.on) return;
    const share = perLight[l];
    const weights = light.cameraWeights.map((w) => (w * light.lumenSeconds) / Math.PI);
    for (let i = 0; i < out.length; i++) out[i] += weights[i % 3] * share[i];
  });
  return out;
}

/** sRGB by the picture rule of the plan format. */
export function developFrame(frame: Frame, camera: Camera, isDeep = false): Picture {
  const n = frame.width * frame.height;
  const rgba = new Uint8ClampedArray(4 * n);
  const clipped = new Uint8Array(n);
  const tenths = new Int8Array(n);
  const deep = isDeep ? new Uint16Array(3 * n) : null;
  const { iso, headroom, fNumber } = camera;
  const limit = clippingExposure(iso, headroom);
  for (let i = 0; i < n; i++) {
    let over = false;
    let luminous = 0;
    for (let c = 0; c < 3; c++) {
      const exposure = focalPlaneExposure(frame.luminance[3 * i + c], fNumber);
      if (exposure >= limit) over = true;
      luminous += LUMINANCE[c] * exposure;
      rgba[4 * i + c] = pictureLevel(exposure, iso, headroom);
      if (deep) deep[3 * i + c] = pictureLevel(exposure, iso, headroom, 65535);
    }
    rgba[4 * i + 3] = 255;
    tenths[i] = tenthsFromMiddle(luminous, iso);
    if (over) clipped[i] = frame.seen[i] === SEEN.skin ? 2 : 1;
  }
  return { width: frame.width, height: frame.height, rgba, clipped, tenths, deep };
}

function tenthsFromMiddle(exposure: number, iso: number): number {
  if (!(exposure > 0)) return -128;
  return Math.max(-128, Math.min(127, Math.round(10 * Math.log2((exposure * iso) / MIDDLE_LEVEL))));
}
