/** A move: one small step of camera, sitter, light or panel, made ready to be tried and taken. */
import type { Edit, Plan } from "../plan/index.ts";
import type { Made } from "./step-made.ts";

export type MoveKey =
  | "light-up"
  | "light-round"
  | "camera-left"
  | "camera-right"
  | "head"
  | "panel"
  | "back"
  | "chin";

/** What has to be traced anew: nothing of the light, one light, or everything. */
export type Cost = "camera" | "light" | "person" | "panel";

export interface Move {
  readonly key: MoveKey;
  readonly cost: Cost;
  /** in a few words, for under its picture: "head turns 10° away" */
  readonly does: string;
  /** null where it cannot be made */
  readonly edit: Edit | null;
  /** the plan after it; null where it cannot be made */
  readonly after: Plan | null;
  /** why it cannot be made, in words; null where it can */
  readonly why: string | null;
  /** whether the nose goes along; null for moves that are none of the camera's */
  readonly nose: "stays" | "follows" | null;
  /** where it stands round the print: on the side it moves to, as the camera sees it; rows from the top */
  readonly side: Side;
  readonly row: number;
}

export type Side = "left" | "right";

/** A move before it has its place: how the thing goes, or what stands against it. `side` is null where it moves to
 * neither. */
export type Draft = Omit<Move, "side" | "row"> & { readonly side: Side | null };

interface Named {
  readonly key: MoveKey;
  readonly cost: Cost;
  readonly does: string;
  readonly side: Side | null;
  readonly nose?: Move["nose"];
}

export function blocked(named: Named, why: string): Draft {
  return { nose: null, ...named, edit: null, after: null, why };
}

export function drafted(named: Named, made: Made): Draft {
  if (!made.ok) return blocked(named, made.why);
  return { nose: null, ...named, edit: made.edit, after: made.after, why: null };
}
