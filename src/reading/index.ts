/** What a photographer reads off a plan. */
import { HIT } from "../engine/index.ts";
import type { Plan } from "../plan/index.ts";
import { stage } from "../staging/index.ts";
import { readCamera } from "./camera.ts";
import { readFace } from "./face.ts";
import { frameShares, weighFrame } from "./frame.ts";
import { lightAtGlance } from "./glance.ts";
import { GLANCE_WIDTH } from "./glance-frame.ts";
import { readGroup } from "./group.ts";
import { type Effort, lightUp } from "./lighting.ts";
import { Memory } from "./memory.ts";
import { readMeters } from "./meters.ts";
import { type KeepGoing, step as stepOf, within } from "./progress.ts";
import type { PlanReading } from "./types.ts";
import { warningsFor } from "./warnings.ts";

/** Width of the small frame that clipping and headroom are read from; a share of pixels is good to 1 % of it. */
const METERING_WIDTH = { glance: GLANCE_WIDTH, coarse: 48, fine: 120 } as const;

/** Everything that `tapemark read` prints.
 * Shape   studied: whose ways to other patterns and shadow edge a fine reading looks for; everybody's where it is left out,
 *         and of the others those two are null and empty
 * Errors  Stopped where `keepGoing` returns false; never NaN: what is not there is null */
export function readPlan(
  plan: Plan,
  effort: Effort,
  memory: Memory = new Memory(),
  keepGoing: KeepGoing = () => true,
  studied: readonly number[] | null = null,
): PlanReading {
  const step = (done: number) => stepOf(keepGoing, done);
  step(0);
  const lighting =
    effort === "glance"
      ? lightAtGlance(plan, memory)
      : lightUp(plan, effort, memory, -1, within(keepGoing, 0, 0.2));
  step(0.2);
  const meters = readMeters(lighting);
  step(0.35);
  const people = plan.people.map((person, i) => {
    const face = readFace(lighting, i, studied?.includes(i) ?? true);
    step(0.35 + (0.45 * (i + 1)) / plan.people.length);
    return { name: person.name, face };
  });
  const small = weighFrame(
    lighting,
    frameShares({ ...lighting, quality: "coarse" }, METERING_WIDTH[effort], within(keepGoing, 0.8, 1)),
  );
  const camera = readCamera(lighting, small, people);
  const group = readGroup(lighting, people);
  return { meters, people, group, camera, warnings: warningsFor(plan, camera, people) };
}

/** Meters that stand inside a body: a plan error that only the figure can tell. */
export function metersInsideBodies(plan: Plan): { path: string; what: string }[] {
  const { tracer } = stage({ ...plan, lights: [], room: null, backdrop: null, panels: [] });
  const out: { path: string; what: string }[] = [];
  plan.meters.forEach((meter, i) => {
    const [x, y, z] = meter.position;
    // from inside a closed body every way out meets its back first
    let backs = 0;
    for (const [dx, dy, dz] of WAYS_OUT)
      if (tracer.closest(x, y, z, dx, dy, dz, 100, false) && tracer.kind === HIT.mesh && !tracer.fromFront)
        backs++;
    if (backs >= 4) {
      out.push({
        path: `meters[${i}].position`,
        what: `"${meter.name}" is inside a person; hold it in front of them`,
      });
    }
  });
  return out;
}

const WAYS_OUT = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
] as const;

export { project, viewfinder, WHOLE_PICTURE } from "./camera-rays.ts";
export { catchlightWords, clockWords } from "./catchlight-words.ts";
export { CATCHLIGHT_FRAME_WIDTH } from "./catchlights.ts";
export { goodToWords, notCalibratedWords } from "./certainty.ts";
export type { CheekShares } from "./cheek-shares.ts";
export { type Cornea, writeNormalAt } from "./cornea.ts";
export { patternOf } from "./face.ts";
export type { FaceMarks } from "./face-parts.ts";
export { type FaceSamples, faceSamples } from "./face-samples.ts";
export { type FocusPlace, type FocusPoint, type FocusPoints, focusPoints } from "./focus-points.ts";
export { developFrame, type Frame, type Picture, renderFrame } from "./frame.ts";
export { SEEN } from "./frame-samples.ts";
export { CROPS, type Crop, cropBoxes, frameAspect, usedPart } from "./framing.ts";
export { type Framed, type FramedFrom, fitDistance, fitLens } from "./framing-fit.ts";
export { GLANCE_WIDTH, glanceFrame } from "./glance-frame.ts";
export type { Effort, Quality } from "./lighting.ts";
export { computeMap } from "./map.ts";
export { Memory } from "./memory.ts";
export { type Moved, type MovedCheeks, MovedFace, type MovedReading, STAYED } from "./moved-face.ts";
export { readCheeks, readPattern } from "./pattern.ts";
export { type KeepGoing, Stopped } from "./progress.ts";
export type { PlacedPanel } from "./quick-panel.ts";
export { LOOK, LOOK_LENGTH, QuickSet, ROW_TAIL } from "./quick-set.ts";
export { quickTrier } from "./quick-trier.ts";
export { type Gauged, gauge } from "./readings-only.ts";
export { eyesPart, type Sharpness, sharpness } from "./sharpness.ts";
export { fullTrier, type Trier, type TryReading, tryReadingOf } from "./try-reading.ts";
export * from "./types.ts";
export * from "./words.ts";
