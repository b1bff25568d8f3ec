/** What makes a point of the scene wide in the finished picture: the file's grid, focus, motion, diffraction. */
import {
  defocusBlur,
  diffractionApart,
  eyeResolves,
  flashTenth,
  motionBlur,
  smearedTogether,
  unseenFrom,
} from "../photometry/index.ts";
import { type Plan, subjectSpeed } from "../plan/index.ts";
import type { FocusPoint, FocusPoints } from "../reading/index.ts";
import type { Size, Smear, SmearCure, SmearKind } from "./types.ts";

/** Apertures that lenses have (common practice, no source); beyond them no cure is offered. */
const WIDEST = 1;
const SMALLEST = 32;

/** The finished picture, and the sensor that it comes from. */
export interface Finished {
  readonly size: Size;
  readonly away_m: number;
  /** width of the sensor that is used, and how many of the file's pixels that is; null where they are not known */
  readonly sensor_mm: number;
  readonly filePixels: number | null;
}

/** Every smear that can be told, the file's own grid first, all together last; focus and motion where somebody is focused on. */
export function smearsOf(plan: Plan, at: Finished, focusOn: number, found: FocusPoints | null): Smear[] {
  const { fNumber, focalLength } = plan.camera;
  const grid_mm = at.filePixels === null ? null : at.sensor_mm / at.filePixels;
  const pixel = grid_mm === null ? [] : [smearOf(at, "pixel", "a pixel of the file", grid_mm)];
  const apart_mm = diffractionApart(fNumber);
  const diffraction = opened(smearOf(at, "diffraction", "diffraction", apart_mm), fNumber);
  if (found === null) return [...pixel, diffraction];
  const focus_mm = 1000 * found.focus_m;
  const focus = found.points
    .filter((point) => isJudged(point, focusOn))
    .map((point) => {
      const { at: where, depth_m, person, place } = point;
      const blur = defocusBlur(focalLength, fNumber, focus_mm, 1000 * depth_m);
      const one = smearOf(at, "focus", focusWhat(plan, point), blur);
      return closed({ ...one, at: { place, person, x: where[0], y: where[1] } }, fNumber, apart_mm, at);
    });
  const motion = exposures(plan).map(({ what, of, seconds }) => {
    const path = motionBlur(subjectSpeed(plan), seconds, focalLength, focus_mm);
    return shortened(smearOf(at, "motion", what, path), of, seconds);
  });
  const longest_mm = Math.max(0, ...motion.map(({ sensor_mm }) => sensor_mm));
  const all_mm = smearedTogether(grid_mm ?? 0, longest_mm, apart_mm);
  const together = smearOf(at, "together", "all together, at the eye that is focused on", all_mm);
  return [...pixel, ...focus, ...motion, diffraction, together];
}

function smearOf(at: Finished, kind: SmearKind, what: string, sensor_mm: number): Smear {
  const { away_m, filePixels, size } = at;
  const mm = (sensor_mm * 1000 * size.width_m) / at.sensor_mm;
  const timesEye = mm / eyeResolves(1000 * away_m);
  return {
    kind,
    what,
    mm,
    sensor_mm,
    filePixels: filePixels === null ? null : (sensor_mm * filePixels) / at.sensor_mm,
    timesEye,
    unseenFrom_m: unseenFrom(mm) / 1000,
    largest: timesEye > 0 ? { width_m: size.width_m / timesEye, height_m: size.height_m / timesEye } : null,
    at: null,
    cure: null,
  };
}

/** Of whom is focused on, all that is seen but the eye in focus, which is smeared by nothing of this kind; of others, the
 * nearer eye. */
function isJudged({ isHidden, person, place }: FocusPoint, focusOn: number): boolean {
  return !isHidden && (person === focusOn) !== (place === "nearer eye");
}

function focusWhat({ people }: Plan, { person, place }: FocusPoint): string {
  return people.length === 1 ? `focus at the ${place}` : `focus at ${people[person]?.name}’s ${place}`;
}

/** Blur of focus goes with one over the f-number: the aperture that brings it down to what is told apart, unless diffraction
 * is then seen instead. */
function closed(one: Smear, fNumber: number, apart_mm: number, at: Finished): Smear {
  if (one.timesEye <= 1) return one;
  const to = fNumber * one.timesEye;
  const diffracted = smearOf(at, "diffraction", "", apart_mm * one.timesEye);
  return to > SMALLEST || diffracted.timesEye > 1 ? one : { ...one, cure: aperture(fNumber, to) };
}

/** Diffraction goes with the f-number. */
function opened(one: Smear, fNumber: number): Smear {
  if (one.timesEye <= 1) return one;
  const to = fNumber / one.timesEye;
  return to < WIDEST ? one : { ...one, cure: aperture(fNumber, to) };
}

function shortened(one: Smear, of: Exposed["of"], seconds: number): Smear {
  return one.timesEye <= 1 ? one : { ...one, cure: { kind: "time", of, seconds: seconds / one.timesEye } };
}

const aperture = (from: number, to: number): SmearCure => ({
  kind: "aperture",
  fNumber: to,
  stops: 2 * Math.log2(to / from),
});

interface Exposed {
  readonly what: string;
  /** what ends it: the flash dies away, or the shutter shuts */
  readonly of: "flash" | "shutter";
  readonly seconds: number;
}

/** For how long light falls on who moves: each flash as long as it is over a tenth of its peak, at most the shutter's time;
 * the shutter's time where there is light that stays, or where no flash is known any better. */
function exposures({ ambient, camera, lights }: Plan): Exposed[] {
  const { shutter } = camera;
  const flashes = lights.flatMap(({ head, name, on }): Exposed[] => {
    const duration = head?.duration;
    if (!on || !duration) return [];
    const tenth = duration.measured === "t0.1" ? duration.seconds : flashTenth(duration.seconds);
    return [{ what: `motion in the flash of “${name}”`, of: "flash", seconds: Math.min(tenth, shutter) }];
  });
  const isUnknown = lights.some(({ head, on }) => on && !head?.duration);
  if (ambient.lux > 0)
    flashes.push({ what: "motion in light that stays on", of: "shutter", seconds: shutter });
  else if (isUnknown || flashes.length === 0)
    flashes.push({
      what: "motion while the shutter is open",
      of: isUnknown ? "flash" : "shutter",
      seconds: shutter,
    });
  return flashes;
}
