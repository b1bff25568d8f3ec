/** Named crops: which part of a person each takes in, and where it lies in the picture. Where each cuts and how much air
 * it leaves is common practice, no source; the person it is laid on is the figure as it stands. */
import type { Camera, Plan } from "../plan/index.ts";
import { type StagedPerson, stagePerson } from "../staging/index.ts";
import { type Viewfinder, viewfinder, WHOLE_PICTURE } from "./camera-rays.ts";
import type { PictureRegion } from "./types.ts";

export const CROPS = ["head", "head and shoulders", "half", "three-quarter", "full"] as const;
export type Crop = (typeof CROPS)[number];

interface CropRule {
  /** where the body is cut, under the ears, as a share of stature: armpits, navel, middle of the thighs */
  readonly cut: number | "chin" | "soles";
  /** somebody who sits is not cut through the lap, but under the seat */
  readonly lap?: true;
  /** over the crown and under the cut, as shares of the crop's height */
  readonly over: number;
  readonly under: number;
  /** how much wider than the crop the person may be: over 1, the outer arms are cut */
  readonly width: number;
}

const RULES: Readonly<Record<Crop, CropRule>> = {
  head: { cut: "chin", over: 0.1, under: 0.1, width: 0.8 },
  "head and shoulders": { cut: 0.21, over: 0.1, under: 0, width: 1.25 },
  half: { cut: 0.335, over: 0.08, under: 0, width: 1.15 },
  "three-quarter": { cut: 0.54, lap: true, over: 0.07, under: 0, width: 1 },
  full: { cut: "soles", over: 0.06, under: 0.06, width: 0.94 },
};
const UNDER_SEAT_M = 0.06;

/** Bounds of the part of a person that a crop takes in, as tangents right and up from the axis. */
interface Bounds {
  left: number;
  right: number;
  low: number;
  high: number;
}

/** The part of the picture that is used: all of it, or the largest of the print's proportions in its middle; of a closer crop,
 * as much of the width as that one takes. */
export function usedPart({ camera, print }: Pick<Plan, "camera" | "print">): PictureRegion {
  if (print === null) return WHOLE_PICTURE;
  const narrower = print.width / print.height / frameAspect(camera);
  const width = Math.min(1, narrower, print.cropWidth ?? 1);
  const [x, y] = [(1 - width) / 2, (1 - width / narrower) / 2];
  return { left: x, top: y, right: 1 - x, bottom: 1 - y };
}

/** Width over height of the whole picture. */
export function frameAspect({ sensor, orientation }: Pick<Camera, "sensor" | "orientation">): number {
  return orientation === "portrait" ? sensor.height / sensor.width : sensor.width / sensor.height;
}

/** Where the crops of a person lie in the picture: as shares of its width and height, of the proportions of what is used,
 * and beyond 0 and 1 where the picture is too narrow. Null where some of the person is beside or behind the camera.
 * The person takes exactly the rule's share of the crop's height, or of its width where that asks for more. */
export function cropBoxes(plan: Plan, person: number): Readonly<Record<Crop, PictureRegion | null>> {
  const staged = stagePerson(plan.people[person], plan);
  const view = viewfinder(plan.camera, 1);
  const share = (right: number) => (1 + right / view.tanX) / 2;
  const down = (up: number) => (1 - up / view.tanY) / 2;
  const boxes = CROPS.map((crop) => {
    const box = cropTangents(plan, staged, person, crop, view);
    return (
      box && { left: share(box.left), right: share(box.right), top: down(box.high), bottom: down(box.low) }
    );
  });
  return Object.fromEntries(CROPS.map((crop, i) => [crop, boxes[i]])) as Record<Crop, PictureRegion | null>;
}

/** One of them as tangents from the axis. */
export function cropTangents(
  plan: Plan,
  staged: StagedPerson,
  person: number,
  crop: Crop,
  view: Viewfinder,
): Bounds | null {
  const rule = RULES[crop];
  const bounds = boundsOf(plan, staged, person, rule, view);
  if (bounds === null) return null;
  const used = usedPart(plan);
  const aspect = (frameAspect(plan.camera) * (used.right - used.left)) / (used.bottom - used.top);
  const tall = (bounds.high - bounds.low) / (1 - rule.over - rule.under);
  const height = Math.max(tall, (bounds.right - bounds.left) / rule.width / aspect);
  const high = bounds.high + rule.over * height;
  const middle = (bounds.left + bounds.right) / 2;
  const half = (height * aspect) / 2;
  return { left: middle - half, right: middle + half, low: high - height, high };
}

function boundsOf(
  plan: Plan,
  staged: StagedPerson,
  person: number,
  { cut, lap }: CropRule,
  view: Viewfinder,
): Bounds | null {
  const out: Bounds = { left: Infinity, right: -Infinity, low: Infinity, high: -Infinity };
  const { shape } = staged;
  const headFrom = cut === "chin" ? shape.head.landmarks.chin[2] : -Infinity;
  let isSeen = widen(out, staged.headMesh.positions, staged.headRotation, staged.headOffset, headFrom, view);
  if (staged.hairMesh !== null) {
    const { positions } = staged.hairMesh;
    isSeen = widen(out, positions, staged.headRotation, staged.headOffset, headFrom, view) && isSeen;
  }
  if (cut !== "chin") {
    const { pose, seatHeight, stature } = plan.people[person];
    const level = cut === "soles" ? -Infinity : shape.earHeight - cut * stature;
    const from = lap && pose === "seated" ? Math.min(level, seatHeight - UNDER_SEAT_M) : level;
    isSeen = widen(out, shape.body.positions, staged.bodyRotation, staged.bodyOffset, from, view) && isSeen;
  }
  return isSeen ? out : null;
}

/** Takes in what lies above `from` in the mesh's own axes; false where a point of it is beside or behind the camera. */
function widen(
  out: Bounds,
  positions: Float64Array,
  rotation: Float64Array,
  offset: Float64Array,
  from: number,
  { position, forward, right, up }: Viewfinder,
): boolean {
  // the camera's axes in the mesh's own, so that each point is only turned once
  const own = (axis: readonly number[]) =>
    [0, 1, 2].map((k) => axis[0] * rotation[k] + axis[1] * rotation[3 + k] + axis[2] * rotation[6 + k]);
  const away = [0, 1, 2].map((k) => offset[k] - position[k]);
  const shift = (axis: readonly number[]) => away[0] * axis[0] + away[1] * axis[1] + away[2] * axis[2];
  const [f, r, u] = [own(forward), own(right), own(up)];
  const [f0, r0, u0] = [shift(forward), shift(right), shift(up)];
  for (let i = 0; i < positions.length; i += 3) {
    const [x, y, z] = [positions[i], positions[i + 1], positions[i + 2]];
    if (z < from) continue;
    const depth = f0 + x * f[0] + y * f[1] + z * f[2];
    if (!(depth > 0)) return false;
    const a = (r0 + x * r[0] + y * r[1] + z * r[2]) / depth;
    const b = (u0 + x * u[0] + y * u[1] + z * u[2]) / depth;
    if (a < out.left) out.left = a;
    if (a > out.right) out.right = a;
    if (b < out.low) out.low = b;
    if (b > out.high) out.high = b;
  }
  return true;
}
