/** What a record sheet is made from, in words already: photographs and libraries lie beyond this room. */
import type { SheetPicture } from "./beside.ts";

export interface RecordGiven {
  readonly title: string;
  /** when, where, for whom */
  readonly about: readonly string[];
  readonly notes: string;
  /** the frame as the plan exposes it */
  readonly picture: SheetPicture;
  readonly exposure: string;
  /** photographs, the pick first */
  readonly frames: readonly RecordFrame[];
  readonly readings: readonly RecordReading[];
  /** against which state of the plan changes are told: "version 1, the evening before"; null where there is no other */
  readonly plannedAs: string | null;
  readonly changes: readonly RecordChange[];
}

export interface RecordFrame {
  readonly name: string;
  /** "10:12:30"; "" where it is not known */
  readonly when: string;
  /** "4 stars, select"; "" where nothing was said of it */
  readonly marks: string;
  /** as the camera wrote it into the file; null where it did not */
  readonly exposure: string | null;
  /** read off it: "Rembrandt, 2.1 stops" */
  readonly light: string;
  readonly picture: SheetPicture | null;
  /** beside the plan; only of the pick */
  readonly compared: readonly RecordLine[];
}

export interface RecordLine {
  /** whose face; "" for the camera's own numbers, or where there is one person */
  readonly whose: string;
  readonly what: string;
  readonly part: RecordPart;
  readonly planned: string;
  readonly taken: string;
  /** "0.3 stop more", "as planned", "cannot tell" */
  readonly difference: string;
}

/** What a line is about: where light comes from, how much there is of it, or neither. */
export type RecordPart = "direction" | "power" | "camera" | "other";

export interface RecordReading {
  readonly name: string;
  /** "key alone", "all on" */
  readonly of: string;
  /** "chin: flat, pointed at key; 1.50 m high, 0.03 m from the nose" */
  readonly where: string;
  /** null where nothing arrives there in the plan */
  readonly planned: string | null;
  readonly read: string;
  readonly difference: string;
  readonly note: string;
}

export interface RecordChange {
  readonly what: string;
  readonly which: string;
  readonly part: RecordPart;
  /** "" where the thing was not there */
  readonly planned: string;
  readonly set: string;
  readonly change: string;
}
