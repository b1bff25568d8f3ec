/** What the camera makes of it: clipping, headroom on skin, and the tone of the background. */
import { clippingExposure, focalPlaneExposure, LUMINANCE } from "../photometry/index.ts";
import type { Plan } from "../plan/index.ts";
import { project, viewfinder } from "./camera-rays.ts";
import { toWorld } from "./catchlights.ts";
import type { Frame } from "./frame.ts";
import { SEEN } from "./frame-samples.ts";
import type { Lighting } from "./lighting.ts";
import type { CameraReading, PersonReading } from "./types.ts";

/** Headroom is taken from this share of visible skin upward: a few grains do not decide. */
const SKIN_PERCENTILE = 0.995;
/** The background is read this far round the head, in head heights. */
const ROUND_HEAD = 0.9;

export function readCamera(
  lighting: Lighting,
  frame: Frame,
  people: readonly PersonReading[],
): CameraReading {
  const plan = lighting.stage.plan;
  const { camera } = plan;
  const limit = clippingExposure(camera.iso, camera.headroom);
  const n = frame.width * frame.height;
  const skin: number[] = [];
  let over = 0;
  let skinOver = 0;
  for (let i = 0; i < n; i++) {
    const worst = Math.max(frame.luminance[3 * i], frame.luminance[3 * i + 1], frame.luminance[3 * i + 2]);
    const exposure = focalPlaneExposure(worst, camera.fNumber);
    if (exposure >= limit) over++;
    if (frame.seen[i] !== SEEN.skin) continue;
    if (exposure >= limit) skinOver++;
    skin.push(exposure);
  }
  skin.sort((a, b) => a - b);
  const brightest = skin[Math.min(skin.length - 1, Math.floor(SKIN_PERCENTILE * skin.length))];
  return {
    clipped: { skin: skin.length > 0 ? skinOver / skin.length : 0, frame: over / n },
    headroomStops: brightest > 0 ? Math.log2(limit / brightest) : null,
    backgroundStops: backgroundStops(lighting, plan, frame, people),
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
  const skin = plan.people[0].skin.reflectance;
  const reflectance =
    typeof skin === "number"
      ? skin
      : LUMINANCE[0] * skin[0] + LUMINANCE[1] * skin[1] + LUMINANCE[2] * skin[2];
  const cheek = (people[0].face.litCheek * reflectance) / Math.PI;
  return count > 0 && sum > 0 && cheek > 0 ? Math.log2(sum / count / cheek) : null;
}
