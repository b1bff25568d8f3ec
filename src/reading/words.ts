/** What a face shows, in the words that screen and paper share. */
import type { FaceReading, Pattern } from "./types.ts";

const PATTERN_NAME: Record<Pattern, string> = {
  flat: "Flat",
  butterfly: "Butterfly",
  loop: "Loop",
  rembrandt: "Rembrandt",
  split: "Split",
  rim: "Rim",
  under: "Under",
  dark: "Dark",
};

export function patternName(pattern: Pattern): string {
  return PATTERN_NAME[pattern];
}

/** In the middle of a sentence only the painter keeps his capital. */
export function patternWord(pattern: Pattern): string {
  return pattern === "rembrandt" ? PATTERN_NAME.rembrandt : pattern;
}

export function litSideWords(face: FaceReading): string {
  const lit = face.litSide === "even" ? "both cheeks alike" : `own ${face.litSide} lit`;
  if (face.side === "square") return `${lit}, square to the lens`;
  return face.litSide === "even" ? lit : `${lit}, ${face.side}`;
}
