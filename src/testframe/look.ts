/** The light of a reference picture as a brief: every number a range as wide as it is known, and what a still cannot show. */
import type { Span, Want } from "../plan/index.ts";
import { patternWord } from "../reading/index.ts";
import type { PhotoFace, PhotoReading } from "./types.ts";

export interface Look {
  readonly want: Want;
  /** what was taken from the picture, and what could not be */
  readonly notes: readonly string[];
  /** said whatever the picture */
  readonly unseen: readonly string[];
}

/** Every range is at least so wide to each side: as finely as a set-up meets it. */
const LEAST = { ratioStops: 0.25, degrees: 8, backgroundStops: 0.5, clockHours: 0.5 };
/** Times 1 to each side, for an edge. */
const EDGE_FACTOR = 1.5;

/** What no single picture tells, however it was taken. */
const UNSEEN = [
  "how strong the lights were, and how far they stood: a large light far off looks like a small one near by",
  "which lights do not reach the face: background, hair and rim are yours to add",
  "what was done to the picture afterwards: ratio and background are those of the finished picture",
] as const;

export function lookFrom({ image }: PhotoReading, face: PhotoFace): Look {
  const notes: string[] = [];
  const missing = (what: string) => notes.push(`${what}: cannot be told from this picture`);
  const unsure = face.uncertaintyDegrees ?? 0;
  const round = Math.max(LEAST.degrees, unsure);
  if (face.light === null) missing("where the light comes from");
  if (face.ratioStops === null) missing("the ratio");
  if (face.pattern === null) missing("the pattern");
  if (face.backgroundStops === null) missing("the background");
  if (face.catchlights.length === 0) notes.push("catchlights: none that is large enough to be read");
  if (face.between !== null && face.pattern !== null)
    notes.push(
      `the pattern lies between ${patternWord(face.pattern)} and ${patternWord(face.between)}: left open`,
    );
  if (image.response === null && face.ratioStops !== null)
    notes.push(
      "tones are taken as the file's standard says: the camera's own curve may make the ratio larger",
    );
  const catchlight = face.catchlights.toSorted((a, b) => b.widthDegrees - a.widthDegrees)[0];
  return {
    want: {
      pattern: face.between === null && face.pattern !== "dark" ? face.pattern : null,
      litSide: face.litSide === "even" ? null : face.litSide,
      side: null,
      ratioStops: within(face.ratioStops, Math.max(LEAST.ratioStops, face.ratioUncertaintyStops ?? 0), 0, 10),
      shadowEdgeMillimetres: edgeSpan(face.edgeMillimetres),
      backgroundStops: within(face.backgroundStops, LEAST.backgroundStops, -12, 8),
      fNumber: null,
      headroomStops: 0.3,
      catchlight:
        catchlight === undefined ? null : { clock: tidy(catchlight.clock % 12), within: LEAST.clockHours },
      azimuth: within(face.light?.azimuth ?? null, round, -180, 180, Math.round),
      elevation: within(face.light?.elevation ?? null, round, -90, 90, Math.round),
      spreadStops: null,
      crop: null,
    },
    notes,
    unseen: UNSEEN,
  };
}

/** Plans keep decimals that people can read. */
function tidy(x: number): number {
  return Math.round(10 * x) / 10;
}

function within(value: number | null, by: number, least: number, most: number, as = tidy): Span | null {
  if (value === null) return null;
  return { from: as(Math.max(least, value - by)), to: as(Math.min(most, value + by)) };
}

function edgeSpan(edge: number | null): Span | null {
  return edge === null
    ? null
    : { from: tidy(edge / EDGE_FACTOR), to: tidy(Math.min(60, edge * EDGE_FACTOR)) };
}
