/** How far what is told of a face may be trusted, and why not farther. */
import type { FaceExposure } from "./face-exposure.ts";
import type { FoundFace, PhotoFace, PhotoLight } from "./types.ts";

export interface Trust {
  readonly confidence: PhotoFace["confidence"];
  readonly doubts: readonly string[];
}

/** Width of the face in pixels of the picture: under the first nothing is told, under the second with doubt. Shadows of a
 * nose are a tenth of a face wide, and landmarks good to a pixel or two. */
const TOO_SMALL = 36;
const SMALL = 80;
/** Of the landmark model's own score. */
const NO_FACE = 0.3;
const POOR_SCORE = 0.6;
/** Beyond this the far cheek is hidden. */
const TURNED = 45;
/** From the lens; beyond it lights are read badly (the bar of real portraits, docs/test-frames.md). */
const FAR_ROUND = 77;
/** A light told no better than this leaves pattern and side open. */
const UNSURE = 13;
/** Share of the arriving light from all round above which there is no direction to speak of. */
const EVEN = 0.75;
/** Share of the face that gets less than a quarter of what the best lit tenth gets. */
const MOSTLY_DARK = 0.6;
const DEGREE = Math.PI / 180;

export function trustIn(
  face: FoundFace,
  head: PhotoFace["head"],
  light: PhotoLight | null,
  exposure: FaceExposure,
): Trust {
  const none: string[] = [];
  const low: string[] = [];
  const wide = Math.max(face.box.width, 0.75 * face.box.height);
  if (wide < TOO_SMALL) none.push(`the face is only ${Math.round(wide)} pixels wide`);
  else if (wide < SMALL) low.push(`the face is only ${Math.round(wide)} pixels wide`);
  if (face.score < NO_FACE) none.push("it may be no face at all");
  else if (face.score < POOR_SCORE) low.push("the face is hard to make out");
  if (face.isLifted) low.push("the face was found only with its shadows lifted");
  if (Math.abs(head.turn) > TURNED) low.push("the head is turned far from the lens");
  if (!light) none.push("no light fits what the face shows");
  else {
    if (Math.acos(Math.max(-1, Math.min(1, light.from[2]))) / DEGREE > FAR_ROUND)
      low.push("the light stands far round, beside or behind the head");
    if (light.uncertaintyDegrees > UNSURE) low.push("the light's direction fits only roughly");
    if (light.ambientShare > EVEN) low.push("most of the light comes evenly from all round");
  }
  if (darkShare(exposure) > MOSTLY_DARK) low.push("most of the face lies in shadow");
  return {
    confidence: none.length > 0 ? "none" : low.length > 0 ? "low" : "good",
    doubts: [...none, ...low],
  };
}

function darkShare({ mask: { samples }, exposure }: FaceExposure): number {
  const known = [...exposure].filter((x) => !Number.isNaN(x)).sort((a, b) => a - b);
  const bright = known[Math.floor(0.95 * known.length)] ?? 0;
  let dark = 0;
  let all = 0;
  for (let s = 0; s < samples.count; s++) {
    all += samples.area[s];
    if (exposure[s] < bright / 4) dark += samples.area[s];
  }
  return dark / all;
}
