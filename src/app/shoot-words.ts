/** What the list and the page say of a frame beside the words that screen and shell share. */

import { patternName } from "../reading/index.ts";
import type { FrameRow } from "../shoots/index.ts";
import {
  CANNOT_TELL,
  type ComparedLine,
  catchlightsText,
  lightText,
  litText,
  type PhotoExif,
  type PhotoFace,
  patternText,
  ratioText,
  stopsText,
} from "../testframe/index.ts";
import type { TestFrame } from "../workbench/index.ts";
import { count, signedStops } from "./wording.ts";

/** The largest, or the one that was chosen. */
export function faceOf(frame: TestFrame, chosen: Readonly<Record<string, number>>): PhotoFace | null {
  const { faces } = frame.reading;
  return faces[chosen[frame.id] ?? 0] ?? faces[0] ?? null;
}

/** One line for the list: "Rembrandt, 2.1 stops". */
export function frameLine(face: PhotoFace | null): string {
  if (face === null) return "no face found";
  const pattern = face.pattern === null ? "pattern unclear" : patternName(face.pattern);
  return face.ratioStops === null ? pattern : `${pattern}, ${stopsText(face.ratioStops)}`;
}

/** What is lost where a frame is taken out of the library: "has 4 stars and is a select"; null where nobody said anything of it. */
export function lostWords({ isSelect, stars }: Pick<FrameRow, "isSelect" | "stars">): string | null {
  const said = [
    ...(stars === 0 ? [] : [`has ${count(stars, "star")}`]),
    ...(isSelect ? ["is a select"] : []),
  ];
  return said.length === 0 ? null : said.join(" and ");
}

export interface SeenLine {
  readonly what: ComparedLine["what"];
  readonly seen: string;
}

/** What one frame says by itself, in the order and the words in which it is put beside a plan. */
export function seenLines(face: PhotoFace): SeenLine[] {
  const { backgroundStops, litCheekStops } = face;
  return [
    {
      what: "exposure",
      seen: litCheekStops === null ? CANNOT_TELL : `lit cheek ${stopsText(litCheekStops)} under clipping`,
    },
    { what: "ratio", seen: ratioText(face) },
    {
      what: "background",
      seen:
        backgroundStops === null
          ? CANNOT_TELL
          : `${signedStops(backgroundStops)} stops against the lit cheek`,
    },
    { what: "direction", seen: lightText(face) },
    { what: "side", seen: litText(face) },
    { what: "pattern", seen: patternText(face) },
    { what: "catchlights", seen: catchlightsText(face.catchlights) },
  ];
}

/** "10:12:30" of a camera's local time; null where it is not there */
export function takenText({ takenAt }: PhotoExif): string | null {
  return /T(\d\d:\d\d:\d\d)/.exec(takenAt ?? "")?.[1] ?? null;
}
