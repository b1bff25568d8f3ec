/** Where lights and panels lie on somebody's glasses, as the camera sees them. */
import type { Eye } from "../figure/index.ts";
import { viewfinder } from "./camera-rays.ts";
import { irisLuminanceOf, luminanceOf, NOTICEABLE_GAIN } from "./catchlights.ts";
import { corneaOf } from "./cornea.ts";
import { smallestClearing } from "./glasses-clear.ts";
import { type LensPlace, lensInWorld, throughLens } from "./glasses-lens.ts";
import { LensRays, type OnLens } from "./glasses-rays.ts";
import type { Lighting } from "./lighting.ts";
import type { GlassesReading } from "./types.ts";

/** A coated lens reflects an eighth of what a bare one does: 1 % against 8 (plan format, coated). */
const COATED = 1 / 8;
/** Radius of a pupil in studio light, metres, and points round it. */
const PUPIL = 0.0019;
const ROUND_PUPIL = 6;

/** Null for somebody without glasses. A reflection counts where it lightens a dark iris behind it by a tenth of a stop,
 * as catchlights do. `clears` is searched for in a fine reading alone.
 * Units   shares of the lens as the camera sees it; degrees, centimetres
 * Accuracy shares to one of 24 x 16 places; borders to a quarter of a degree and a centimetre; glasses.test.ts
 * Source  law of reflection on the lens's front; docs/spec/catchlights.md */
export function readGlasses(lighting: Lighting, person: number): GlassesReading | null {
  const { stage, memory, lightKey } = lighting;
  const { camera } = stage.plan;
  const staged = stage.people[person];
  const { glasses, head } = staged.shape;
  if (!glasses) return null;
  const coated = stage.plan.people[person].glasses?.coated ?? true;
  const view = viewfinder(camera, 1000);
  const key = lightKey + JSON.stringify(view);
  const reflections: GlassesReading["reflections"] = [];
  const offending = new Set<number>();
  for (const lens of glasses.lenses) {
    const shape = lens.eye === "left" ? head.leftEye : head.rightEye;
    const shown = memory.recall(`${lens.eye} lens ${person}`, key, () => {
      const here = lensInWorld(lens, staged);
      const rays = new LensRays(stage.tracer, here, camera.position);
      return rays.all(pupilOn(here, lighting, person, shape));
    });
    const least = NOTICEABLE_GAIN * irisLuminanceOf(lighting, person, lens.eye, view);
    for (const m of shown) {
      if (m.kind === "light" && !stage.lights[m.index].on) continue;
      const bright = (coated ? COATED : 1) * luminanceOf(lighting, { ...m, light: lightOf(m) });
      if (!(bright > 0 && bright >= least)) continue;
      if (m.kind === "light") offending.add(m.index);
      const name = m.kind === "light" ? stage.lights[m.index].name : stage.plan.panels[m.index].name;
      reflections.push({
        eye: lens.eye,
        light: name,
        kind: m.kind,
        share: m.share,
        overPupil: m.overPupil,
      });
    }
  }
  const lights = [...offending].sort((a, b) => a - b);
  const wanted = lighting.quality === "fine" && lights.length > 0;
  const clears = wanted
    ? memory.recall(
        `glasses clear ${person}`,
        key + JSON.stringify(lights.map((l) => [l, stage.lights[l].name])),
        () => smallestClearing(lighting, person, lights),
      )
    : null;
  return { reflections, clears };
}

function lightOf(m: OnLens): number {
  return m.kind === "light" ? m.index : -1;
}

/** Where on a lens the camera sees the pupil: its middle and points round it. */
function pupilOn(
  lens: Parameters<typeof throughLens>[0],
  { stage }: Lighting,
  person: number,
  eye: Eye,
): LensPlace[] {
  const c = corneaOf(stage.people[person], eye, viewfinder(stage.plan.camera, 1000));
  const at = (x: number, y: number) =>
    throughLens(
      lens,
      c.camera,
      c.iris.map((p, k) => p + x * c.right[k] + y * c.up[k]),
    );
  const round = Array.from({ length: ROUND_PUPIL }, (_, i) => {
    const a = (2 * Math.PI * i) / ROUND_PUPIL;
    return at(PUPIL * Math.cos(a), PUPIL * Math.sin(a));
  });
  return [at(0, 0), ...round];
}
