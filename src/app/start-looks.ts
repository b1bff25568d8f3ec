/** The three answers that a set-up is found by, and the plan that asks for it. */
import { KITS, type Kit } from "../gear/index.ts";
import { applyEdit, emptyBrief, type Plan, type Span, setField } from "../plan/index.ts";
import type { Pattern } from "../reading/index.ts";
import { wantLine } from "./find-words.ts";
import { type Began, beginRoom, type RoomSize } from "./start-room.ts";

export type Look = Exclude<Pattern, "dark" | "under">;
/** From the mildest to the most dramatic. */
export const LOOKS: readonly Look[] = ["flat", "butterfly", "loop", "rembrandt", "split", "rim"];

export type Side = "left" | "right" | "either";

export interface Contrast {
  readonly name: string;
  /** lit cheek over shadow cheek; null is free */
  readonly ratioStops: Span | null;
}

/** Names of this house for ranges that join; the numbers beside them say what is meant. */
export const CONTRASTS: readonly Contrast[] = [
  { name: "as it comes", ratioStops: null },
  { name: "even", ratioStops: { from: 0, to: 0.7 } },
  { name: "gentle", ratioStops: { from: 0.7, to: 1.4 } },
  { name: "clear", ratioStops: { from: 1.4, to: 2.2 } },
  { name: "strong", ratioStops: { from: 2.2, to: 3.5 } },
];

export interface ThreeAnswers {
  readonly look: Look;
  readonly side: Side;
  readonly contrast: string;
  readonly kit: string;
}

export const FIRST_ANSWERS: ThreeAnswers = {
  look: "loop",
  side: "left",
  contrast: "as it comes",
  kit: KITS[0].name,
};

export const contrastOf = (name: string): Contrast =>
  CONTRASTS.find((each) => each.name === name) ?? (CONTRASTS[0] as Contrast);
export const kitOf = (name: string): Kit => KITS.find((each) => each.name === name) ?? KITS[0];

/** Looks that are the same on both sides have none to be lit. */
export const hasSide = (look: Look) => look !== "flat" && look !== "butterfly";

/** The room with somebody in it, what is on hand and what is asked; no light yet. Head and shoulders by the lens that is
 * on, and all else free. */
export function askedRoom(room: RoomSize, { contrast, kit, look, side }: ThreeAnswers): Began {
  const began = beginRoom(room, true);
  if (!began.ok) return began;
  const { plan } = began;
  const empty = emptyBrief();
  const want: typeof empty.want = {
    ...empty.want,
    pattern: look,
    litSide: hasSide(look) && side !== "either" ? side : null,
    ratioStops: contrastOf(contrast).ratioStops,
    crop: "head and shoulders",
  };
  const brief: Plan["brief"] = {
    ...empty,
    want,
    lenses: [plan.camera.focalLength],
    gear: kitOf(kit).gear,
  };
  return applyEdit(plan, {
    kind: "several",
    label: "what is asked",
    edits: [
      setField("no light", ["lights"], []),
      setField("title", ["title"], wantLine({ ...empty.want, pattern: look, litSide: want.litSide }) ?? look),
      setField("brief", ["brief"], brief),
    ],
  });
}
