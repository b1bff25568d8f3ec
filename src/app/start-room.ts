import { applyEdit, checkPlan, FORMAT, type Plan, type Problem, setField, VERSION } from "../plan/index.ts";
import { type Addable, addEdit } from "./adding.ts";
import { bridgeOf } from "./layer-height.ts";

export interface RoomSize {
  readonly width: number;
  readonly depth: number;
  readonly height: number;
}

/** As `newPlan`: a common size. */
export const USUAL_ROOM: RoomSize = { width: 5, depth: 6, height: 3 };

export type Began =
  | { readonly ok: true; readonly plan: Plan }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** An empty room with its camera; where it is asked for, with somebody in it, one light, a meter before the face, and
 * the camera aimed at it. */
export function beginRoom(room: RoomSize, isFurnished: boolean): Began {
  const empty = checkPlan({ format: FORMAT, version: VERSION, title: "New plan", room });
  if (!empty.ok || !isFurnished) return empty;
  let plan = empty.plan;
  for (const kind of ["person", "light", "meter"] as const satisfies readonly Addable[]) {
    const added = applyEdit(plan, addEdit(plan, kind, 0).edit);
    if (!added.ok) return added;
    plan = added.plan;
  }
  const face = bridgeOf(plan, 0);
  if (face === null) return { ok: true, plan };
  // a hand's breadth under the eyes: the head stands in the upper half of the frame
  const at = [face[0], face[1], Math.round((face[2] - 0.15) * 100) / 100];
  return applyEdit(plan, setField("camera aimed", ["camera", "direction"], { at }));
}
