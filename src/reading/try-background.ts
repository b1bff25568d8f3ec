/** The tone of what is round somebody's head, from a few dozen points of it instead of a picture. */
import { askedFace, directByShare, HIT, TILE_BITS } from "../engine/index.ts";
import { LUMINANCE } from "../photometry/index.ts";
import { skinRgb } from "../staging/index.ts";
import { ROUND_HEAD } from "./camera.ts";
import { project, type Viewfinder, viewfinder, writeCameraRay } from "./camera-rays.ts";
import { platesInView } from "./frame-samples.ts";
import { toWorld } from "./head-axes.ts";
import type { Lighting } from "./lighting.ts";
import { newSeenPoint, writeSeenPoint } from "./surface-light.ts";

/** The width of a coarse reading's own picture. */
const WIDTH = 48;
const FAR = 1e6;

/** Every second pixel each way is looked at, and no more than so many points of background are lit. */
const APART = 2;
const MOST_POINTS = 64;
/** Points of a light's front that each of them asks. */
const ASKED = 4;
const RINGS = 2;

/** Places behind the head: 6 numbers each, rgb reflectance, and the patch that each lies on. */
interface Background {
  readonly points: readonly number[][];
  readonly albedo: readonly number[][];
  readonly patch: readonly number[];
}

/** Tone of what is round the first person's head against that person's lit cheek. */
export function triedBackground(lighting: Lighting, litCheek: number): number | null {
  const { stage, exitance, memory } = lighting;
  const { plan } = stage;
  const view = viewfinder(plan.camera, WIDTH);
  const plates = platesInView(lighting, view).map((i) => lighting.plateKeys[i]);
  const seen = memory.recall("background", lighting.stillKey + JSON.stringify([view, plates]), () =>
    lookBehind(lighting, view),
  );
  const count = seen.points.length;
  let sum = 0;
  stage.lights.forEach((light, l) => {
    if (!light.on) return;
    const direct = memory.recall(`background ${l}`, lighting.lightKey + JSON.stringify(view), () => {
      const face = askedFace(stage.scene.emitters[l], RINGS, ASKED);
      return seen.points.map(([x, y, z, nx, ny, nz]) =>
        directByShare(stage.tracer, l, face, x, y, z, nx, ny, nz),
      );
    });
    for (let i = 0; i < count; i++)
      for (let c = 0; c < 3; c++)
        sum +=
          LUMINANCE[c] *
          light.cameraWeights[c] *
          light.lumenSeconds *
          seen.albedo[i][c] *
          (direct[i] + exitance[l].arriving[3 * seen.patch[i] + c]);
  });
  for (const albedo of seen.albedo)
    for (let c = 0; c < 3; c++) sum += LUMINANCE[c] * stage.ambient * albedo[c];
  const skin = skinRgb(plan.people[0].skin.reflectance);
  const cheek = litCheek * (LUMINANCE[0] * skin[0] + LUMINANCE[1] * skin[1] + LUMINANCE[2] * skin[2]);
  return count > 0 && sum > 0 && cheek > 0 ? Math.log2(sum / count / cheek) : null;
}

function lookBehind(lighting: Lighting, view: Viewfinder): Background {
  const { stage } = lighting;
  const { tracer } = stage;
  const found = { points: [] as number[][], albedo: [] as number[][], patch: [] as number[] };
  const person = stage.people[0];
  const chin = project(view, toWorld(person, person.shape.head.landmarks.chin));
  const crown = project(view, toWorld(person, person.shape.head.landmarks.crown));
  if (!chin || !crown) return found;
  const round = ROUND_HEAD * Math.hypot(crown[0] - chin[0], crown[1] - chin[1]);
  const [mx, my] = [(chin[0] + crown[0]) / 2, (chin[1] + crown[1]) / 2];
  const ray = new Float64Array(3);
  const point = newSeenPoint();
  const [ox, oy, oz] = view.position;
  for (let y = 0; y < view.height; y += APART)
    for (let x = 0; x < view.width; x += APART) {
      if (Math.hypot(x - mx, y - my) > round) continue;
      writeCameraRay(view, x + 0.5, y + 0.5, ray);
      const [dx, dy, dz] = ray;
      if (!tracer.closest(ox, oy, oz, dx, dy, dz, FAR, true)) continue;
      const isBackdrop = tracer.kind === HIT.mesh && stage.owners[tracer.index].kind === "backdrop";
      if (!isBackdrop && tracer.kind !== HIT.room) continue;
      const { tile } = tracer;
      writeSeenPoint(lighting, tracer, ox, oy, oz, dx, dy, dz, point);
      found.points.push([point.x, point.y, point.z, point.nx, point.ny, point.nz]);
      found.albedo.push([...point.albedo]);
      found.patch.push(Math.max(0, tile >> TILE_BITS));
    }
  const every = Math.max(1, found.points.length / MOST_POINTS);
  const pick = <T>(list: readonly T[]): T[] =>
    Array.from({ length: Math.floor(list.length / every) }, (_, i) => list[Math.floor((i + 0.5) * every)]);
  return { points: pick(found.points), albedo: pick(found.albedo), patch: pick(found.patch) };
}
