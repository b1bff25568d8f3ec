/** What a frame of the plan should show of one person, in the terms in which a photographed face is read. */
import { focalPlaneExposure, luminanceAt, MIDDLE_LEVEL } from "../photometry/index.ts";
import type { Plan } from "../plan/index.ts";
import { project, type TryReading, viewfinder } from "../reading/index.ts";
import { type StagedPerson, skinRgb, stagePerson } from "../staging/index.ts";
import { headAngles } from "./face-head.ts";
import type { PhotoFace } from "./types.ts";

/** Where a face lies in a picture: middle between the eyes' outer edges and mouth, shares of the picture's width from the left
 * and of its height from the top; and the face's height as a share of the picture's. */
export interface FacePlace {
  readonly x: number;
  readonly y: number;
  readonly size: number;
}

export interface PlannedFace {
  /** luminance of the lit cheek in the file, stops from the middle level (10 / S) */
  readonly litCheekStops: number;
  readonly head: PhotoFace["head"];
  /** null where some of the face is behind the camera */
  readonly place: FacePlace | null;
}

/** `reading` is that of the same plan and person. */
export function plannedFace(plan: Plan, person: number, reading: TryReading): PlannedFace {
  const staged = stagePerson(plan.people[person], plan);
  return {
    litCheekStops: litCheekStops(plan, person, reading.litCheek),
    head: headAngles(cameraFromHead(plan, staged)),
    place: placeOf(plan, staged),
  };
}

/** Skin as the plan has it, lit by so many lx.s, at the sensor. */
export function litCheekStops({ people, camera }: Plan, person: number, litCheek: number): number {
  const skin = skinRgb(people[person].skin.reflectance);
  const reflectance = luminanceAt(skin);
  const level = focalPlaneExposure((litCheek * reflectance) / Math.PI, camera.fNumber);
  return Math.log2((level * camera.iso) / MIDDLE_LEVEL);
}

/** Camera axes from head axes, row-major. */
function cameraFromHead({ camera }: Plan, { headRotation: r }: StagedPerson): number[] {
  const { right, up, forward } = viewfinder(camera, 1);
  const back = forward.map((x) => -x);
  return [right, up, back].flatMap((axis) =>
    [0, 1, 2].map((k) => axis[0] * r[k] + axis[1] * r[3 + k] + axis[2] * r[6 + k]),
  );
}

/** Box of the measured mask, as a landmark model sees it. */
export function placeOf(
  { camera }: Plan,
  { shape, headRotation: r, headOffset }: StagedPerson,
): FacePlace | null {
  const { mesh, front } = shape.head;
  const view = viewfinder(camera, 1000);
  const low = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let v = 0; v < front.length; v++) {
    if (!front[v]) continue;
    const p = mesh.positions.subarray(3 * v, 3 * v + 3);
    const at = project(
      view,
      [0, 1, 2].map((k) => headOffset[k] + r[3 * k] * p[0] + r[3 * k + 1] * p[1] + r[3 * k + 2] * p[2]),
    );
    if (at === null) return null;
    for (let k = 0; k < 2; k++) {
      low[k] = Math.min(low[k], at[k]);
      high[k] = Math.max(high[k], at[k]);
    }
  }
  return {
    x: (low[0] + high[0]) / 2 / view.width,
    y: (low[1] + high[1]) / 2 / view.height,
    size: (high[1] - low[1]) / view.height,
  };
}
