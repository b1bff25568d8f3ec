import type { Plan } from "../plan/index.ts";
import { CROPS, type Crop, cropBoxes, type PictureRegion } from "../reading/index.ts";

/** A box that reaches the picture's edge is in it: a camera framed for it is rounded to a thousandth. */
const SLACK = 0.002;

/** The crops that can be cut out of the picture, the largest first, and those that reach beyond it. */
export function sortCrops(plan: Plan, person: number) {
  const within: { readonly crop: Crop; readonly box: PictureRegion }[] = [];
  const beyond: Crop[] = [];
  if (plan.people[person] === undefined) return { within, beyond };
  const boxes = cropBoxes(plan, person);
  for (const crop of CROPS) {
    const box = boxes[crop];
    if (box !== null && isWithin(box)) within.unshift({ crop, box });
    else beyond.push(crop);
  }
  return { within, beyond };
}

function isWithin({ left, top, right, bottom }: PictureRegion): boolean {
  return Math.min(left, top) >= -SLACK && Math.max(right, bottom) <= 1 + SLACK;
}
