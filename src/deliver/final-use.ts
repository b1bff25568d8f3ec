/** A plan's picture at its final size. Nothing is traced: where things stand, the lens and the file are enough. */
import { eyePixelsPerInch, eyeResolves, pixelsPerInch } from "../photometry/index.ts";
import { type Camera, type Plan, type Print, subjectSpeed } from "../plan/index.ts";
import { type FocusPoint, focusPoints, type PictureRegion, usedPart } from "../reading/index.ts";
import { METRES_PER_INCH } from "../units/index.ts";
import { smearsOf } from "./smears.ts";
import type { Asked, FinalUse, Pixels, Size } from "./types.ts";

/** The plan's picture at its final size, focused on the nearer eye of one person.
 * Domain  `focusOn` may be nobody: then there is neither focus nor motion to judge
 * Errors  none; null where the plan has no print
 * Accuracy thin lens and pinhole; reference/section13-print, situations-use */
export function finalUse(plan: Plan, focusOn: number): FinalUse | null {
  const { camera, print } = plan;
  if (print === null) return null;
  const used = usedPart(plan);
  const size: Size = { width_m: print.width, height_m: print.height };
  const width_mm = 1000 * print.width;
  const away_m = print.viewingDistance ?? Math.hypot(print.width, print.height);
  const sensor_mm = (used.right - used.left) * acrossOf(camera);
  const pixels = usedPixels(camera, used);
  const found = focusPoints(plan, focusOn);
  return {
    use: print.use,
    print: size,
    away_m,
    isAwayGiven: print.viewingDistance !== null,
    used,
    pixels,
    ppi: pixels && pixelsPerInch(pixels.width, width_mm),
    eyePpi: eyePixelsPerInch(1000 * away_m),
    eye_mm: eyeResolves(1000 * away_m),
    enlargement: width_mm / sensor_mm,
    asked: askedOf(print, pixels),
    smears: smearsOf(plan, { size, away_m, sensor_mm, filePixels: pixels?.width ?? null }, focusOn, found),
    speed_m_s: subjectSpeed(plan),
    isSpeedGiven: plan.shooting !== null,
    unknownFlashes: plan.lights.filter(({ on, head }) => on && !head?.duration).map(({ name }) => name),
    focusAt: found?.points.find(isInFocus(focusOn))?.at ?? null,
    focusOn: found === null ? null : (plan.people[focusOn]?.name ?? null),
  };
}

const isInFocus =
  (focusOn: number) =>
  ({ person, place }: FocusPoint) =>
    person === focusOn && place === "nearer eye";

/** The sensor's width as the camera is held, mm. */
function acrossOf({ orientation, sensor }: Camera): number {
  return orientation === "portrait" ? sensor.height : sensor.width;
}

/** How many of the file's pixels are used; it is named as the body is held level. */
function usedPixels({ orientation, pixels }: Camera, used: PictureRegion): Pixels | null {
  if (pixels === null) return null;
  const [across, up] =
    orientation === "portrait" ? [pixels.height, pixels.width] : [pixels.width, pixels.height];
  return { width: (used.right - used.left) * across, height: (used.bottom - used.top) * up };
}

function askedOf({ asksPpi, height, width }: Print, pixels: Pixels | null): Asked | null {
  if (asksPpi === null) return null;
  const perMetre = asksPpi / METRES_PER_INCH;
  const asked = { width: Math.round(width * perMetre), height: Math.round(height * perMetre) };
  return {
    ppi: asksPpi,
    pixels: asked,
    enlarge: pixels && (width * perMetre) / pixels.width,
    largest: pixels && { width_m: pixels.width / perMetre, height_m: pixels.height / perMetre },
  };
}
