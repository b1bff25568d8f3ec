/** What camera, lens and body have to do with what a light can do. */
import { circleOfConfusion, depthOfField } from "../photometry/index.ts";
import type { Camera, Plan } from "../plan/index.ts";
import { formatFStops } from "../units/index.ts";
import { distanceOf, nearestNose } from "./at-face.ts";
import type { Shelf, ShelfBody, ShelfLens } from "./schema.ts";

const MM = 1000;

/** From the camera to the nearest nose; null where nobody is in the plan. */
export function cameraToFace(plan: Plan): number | null {
  const { position } = plan.camera;
  const nose = nearestNose(plan, position);
  return nose === null ? null : distanceOf(position, nose);
}

/** How much is sharp round a face, near limit to far one, m: Infinity where there is no far one, null where no lens focuses.
 * Source  photometry, depthOfField with the circle of 1/1500 of the diagonal */
export function sharpDepth({ focalLength, sensor }: Camera, fNumber: number, focus_m: number): number | null {
  if (!(focus_m * MM > focalLength)) return null;
  const circle = circleOfConfusion(sensor.width, sensor.height);
  const { far_mm, near_mm } = depthOfField(focalLength, fNumber, circle, focus_m * MM);
  return (far_mm - near_mm) / MM;
}

/** "at f/2 + 0.0 and 1.50 m from the camera 3.5 cm are sharp"; "", where nobody is there to be sharp. */
export function sharpWords(plan: Plan, fNumber: number): string {
  const { camera } = plan;
  const focus_m = cameraToFace(plan);
  if (focus_m === null) return "";
  const depth_m = sharpDepth(camera, fNumber, focus_m);
  const at = `at ${formatFStops(fNumber)} and ${focus_m.toFixed(2)} m from the camera`;
  if (depth_m === null) return `; ${at} no lens focuses`;
  return `; ${at} ${depthText(depth_m)} sharp`;
}

function depthText(depth_m: number): string {
  if (!Number.isFinite(depth_m)) return "all to the far end is";
  return depth_m < 1 ? `${(100 * depth_m).toFixed(1)} cm are` : `${depth_m.toFixed(2)} m are`;
}

/** The shelf's body that has the plan's sensor, and its pixels where the plan names them; null where there is none. */
export function bodyFor({ camera }: Pick<Plan, "camera">, shelf: Shelf | null | undefined): ShelfBody | null {
  const isSame = (a: { width: number; height: number }, b: { width: number; height: number }) =>
    a.width === b.width && a.height === b.height;
  const fits = ({ pixels, sensor }: ShelfBody) =>
    isSame(sensor, camera.sensor) &&
    (pixels === null || camera.pixels === null || isSame(pixels, camera.pixels));
  return shelf?.bodies.find(fits) ?? null;
}

/** The shelf's lens of this focal length that opens widest; null where there is none. */
export function lensFor({ camera }: Pick<Plan, "camera">, shelf: Shelf | null | undefined): ShelfLens | null {
  const reaching = (shelf?.lenses ?? []).filter(
    ({ longest, shortest }) => camera.focalLength >= shortest && camera.focalLength <= longest,
  );
  return reaching.reduce<ShelfLens | null>(
    (best, lens) => (best === null || lens.widest < best.widest ? lens : best),
    null,
  );
}

/** Speeds as cameras have them, thirds of a stop apart. */
const SPEEDS = [
  25, 32, 40, 50, 64, 80, 100, 125, 160, 200, 250, 320, 400, 500, 640, 800, 1000, 1250, 1600, 2000, 2500,
  3200, 4000, 5000, 6400, 8000, 10000, 12800, 16000, 20000, 25600, 32000, 40000, 51200, 64000, 80000, 102400,
] as const;
/** Marked speeds are rounded: by so much one may be off and still be it. */
const ROUNDED = 1.02;

/** The marked speed that is at least this, or at most; the number itself beyond those. */
export function markedSpeed(iso: number, way: "at least" | "at most"): number {
  const marked =
    way === "at least"
      ? SPEEDS.find((speed) => speed * ROUNDED >= iso)
      : SPEEDS.findLast((speed) => speed <= iso * ROUNDED);
  return marked ?? Number(iso.toPrecision(2));
}
