/** What a sheet prints beside plan and reading: worked out elsewhere, given as plain data; each is left out where it is not known. */
import type { SheetHold } from "./hold.ts";

export interface SheetExtras {
  /** how far one of the people may drift */
  readonly hold?: SheetHold;
  /** why nothing of the kind is given, as a sentence */
  readonly noHold?: string;
  /** what falls on the backdrop behind the head and toward the corners of the picture */
  readonly background?: readonly SheetBackground[];
  /** small moves that are worth knowing, the weightiest first */
  readonly moves?: readonly SheetMove[];
  /** how a distance is found again without a tape */
  readonly reach?: readonly SheetReach[];
}

/** One point of the backdrop: a flat receptor held at it, looking out along its surface's normal. */
export interface SheetBackground {
  /** as the camera sees it: "behind the head", "top left" */
  readonly name: string;
  /** where the receptor is held, metres in the room */
  readonly position: readonly [number, number, number];
  /** "f/5.6 + 0.3" */
  readonly fStops: string;
  /** against the meter by which lights are set, all on; null where there is none or nothing arrives */
  readonly againstKeyStops: number | null;
}

export interface SheetMove {
  /** the thing that moves: "camera", a person's, a light's or a panel's name */
  readonly of: string;
  /** "up 15 cm" */
  readonly does: string;
  /** what it does to where the light comes from: "Loop to Rembrandt, light 6° higher"; "" where that stays */
  readonly direction: string;
  /** what it does to how strong it is, in stops: at the lit cheek, cheek to cheek, and behind the head against the lit
   * cheek; null where there is none */
  readonly faceStops: number | null;
  readonly ratioStops: number | null;
  readonly backgroundStops: number | null;
}

/** One distance found again with the sitter's own body. */
export interface SheetReach {
  /** path of what stands there: "lights[0]" */
  readonly owner: string;
  /** "raised fingertips just touch the near rim"; where the body cannot reach it says so */
  readonly text: string;
  /** one standard deviation of people of that stature, metres; 0 where there is no reach */
  readonly spread_m: number;
  /** what that spread does: "±0.2 stop, stays loop"; "" where there is no reach */
  readonly effect: string;
}
