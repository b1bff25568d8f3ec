/** What the camera makes of it: clipping, headroom on skin, and the tone of the background. */
import { clippingExposure, focalPlaneExposure, LUMINANCE } from "../photometry/index.ts";
import type { Camera, Plan } from "../plan/index.ts";
import { skinRgb } from "../staging/index.ts";
import { project, viewfinder } from "./camera-rays.ts";
import type { Frame } from "./frame.ts";
import { SEEN } from "./frame-samples.ts";
import { toWorld } from "./head-axes.ts";
import type { Lighting } from "./lighting.ts";
import type { CameraReading, PersonReading, SkinRoom } from "./types.ts";

/** Headroom is taken from this share of visible skin upward: a few grains do not decide. */
export const SKIN_PERCENTILE = 0.995;
/** The background is read this far round the head, in head heights. */
export const ROUND_HEAD = 0.9;

export function readCamera(
  lighting: Lighting,
  frame: Frame,
  people: readonly PersonReading[],
): CameraReading {
  const plan = lighting.stage.plan;
  const { camera } = plan;
  const limit = clippingExposure(camera.iso, camera.headroom);
  const n = frame.width * frame.height;
  let over = 0;
  for (let i = 0; i < n; i++) if (brightestOf(frame.luminance, i, camera) >= limit) over++;
  const { pixels, luminance } = frame.shine;
  const whole = new Float64Array(pixels.length);
  const matt = new Float64Array(pixels.length);
  const own = new Float64Array(3);
  for (let k = 0; k < pixels.length; k++) {
    whole[k] = brightestOf(frame.luminance, pixels[k], camera);
    for (let c = 0; c < 3; c++) own[c] = frame.luminance[3 * pixels[k] + c] - luminance[3 * k + c];
    matt[k] = brightestOf(own, 0, camera);
  }
  const shown = roomOnSkin(whole, limit);
  const channel = (c: number) =>
    roomOnSkin(
      Float64Array.from(pixels, (pixel) =>
        focalPlaneExposure(frame.luminance[3 * pixel + c], camera.fNumber),
      ),
      limit,
    );
  return {
    clipped: { skin: shown.clippedSkin, frame: over / n },
    headroomStops: shown.headroomStops,
    withoutShine: roomOnSkin(matt, limit),
    channels: { red: channel(0), green: channel(1), blue: channel(2) },
    backgroundStops: backgroundStops(lighting, plan, frame, people),
  };
}

/** Focal-plane exposure of a pixel's brightest channel. */
function brightestOf(luminance: ArrayLike<number>, pixel: number, { fNumber }: Camera): number {
  const k = 3 * pixel;
  return focalPlaneExposure(Math.max(luminance[k], luminance[k + 1], luminance[k + 2]), fNumber);
}

function roomOnSkin(exposures: Float64Array, limit: number): SkinRoom {
  const sorted = exposures.toSorted();
  const n = sorted.length;
  const brightest = sorted[Math.min(n - 1, Math.floor(SKIN_PERCENTILE * n))];
  const below = sorted.findIndex((exposure) => exposure >= limit);
  return {
    clippedSkin: below < 0 ? 0 : (n - below) / n,
    headroomStops: brightest > 0 ? Math.log2(limit / brightest) : null,
  };
}

/** Backdrop round the first person's head against that person's lit cheek, as luminances. */
function backgroundStops(
  lighting: Lighting,
  plan: Plan,
  frame: Frame,
  people: readonly PersonReading[],
): number | null {
  if (people.length === 0) return null;
  const person = lighting.stage.people[0];
  const view = viewfinder(plan.camera, frame.width);
  const chin = project(view, toWorld(person, person.shape.head.landmarks.chin));
  const crown = project(view, toWorld(person, person.shape.head.landmarks.crown));
  if (!chin || !crown) return null;
  const height = Math.hypot(crown[0] - chin[0], crown[1] - chin[1]);
  const middle = [(chin[0] + crown[0]) / 2, (chin[1] + crown[1]) / 2];
  let sum = 0;
  let count = 0;
  for (let y = 0; y < frame.height; y++) {
    for (let x = 0; x < frame.width; x++) {
      const i = y * frame.width + x;
      if (frame.seen[i] !== SEEN.backdrop && frame.seen[i] !== SEEN.room) continue;
      if (Math.hypot(x - middle[0], y - middle[1]) > ROUND_HEAD * height) continue;
      for (let c = 0; c < 3; c++) sum += LUMINANCE[c] * frame.luminance[3 * i + c];
      count++;
    }
  }
  const skin = skinRgb(plan.people[0].skin.reflectance);
  const reflectance = LUMINANCE[0] * skin[0] + LUMINANCE[1] * skin[1] + LUMINANCE[2] * skin[2];
  const cheek = (people[0].face.litCheek * reflectance) / Math.PI;
  return count > 0 && sum > 0 && cheek > 0 ? Math.log2(sum / count / cheek) : null;
}
