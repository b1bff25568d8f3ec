/** A photograph in words, for people at a terminal: a paragraph for the picture, one for each face. */
import {
  catchlightsText,
  exifLine,
  fromLensText,
  lightText,
  litText,
  type PhotoFace,
  type PhotoReading,
  patternText,
  ratioText,
  shareText,
  skinText,
} from "../testframe/index.ts";

export function photoText({ image, faces, warnings }: PhotoReading): string {
  const lines = [`${image.name}: ${image.width} × ${image.height}${exifText(image.exif)}`];
  lines.push(`  ${clippedText(image)}`);
  if (faces.length === 0) lines.push("  No face was found; a larger or lighter picture of it may help.");
  faces.forEach((face, i) => {
    lines.push("", ...faceLines(face, faces.length === 1 ? "the face" : `face ${i + 1} of ${faces.length}`));
  });
  if (faces.some((face) => face.ratioStops !== null) && image.response === null)
    lines.push(
      "",
      "  This camera's curve is not known: the ratio is wide. A bracket of a grey card makes it sure",
      "  (tapemark photo --help).",
    );
  for (const warning of warnings) lines.push("", `! ${warning}`);
  return `${lines.join("\n")}\n`;
}

function exifText(exif: PhotoReading["image"]["exif"]): string {
  const line = exifLine(exif);
  return line === null ? "" : `, ${line}`;
}

function clippedText({ clipped, near }: PhotoReading["image"]): string {
  if (clipped.any === 0)
    return `nothing clips${near.any > 0 ? `; ${shareText(near.any)} of it is within a third of a stop` : ""}`;
  const { red, green, blue } = clipped;
  return `${shareText(clipped.any)} of it clips (red ${shareText(red)}, green ${shareText(green)}, blue ${shareText(blue)})`;
}

function faceLines(face: PhotoFace, which: string): string[] {
  const sure = { good: "", low: ", not sure", none: ", cannot be told" }[face.confidence];
  const lines = [`  ${which}${sure}: ${patternText(face)}, ${litText(face)}`];
  const add = (line: string) => lines.push(`    ${line}`);
  if (face.light !== null) {
    add(`light from ${lightText(face)}`);
    add(`  as the camera sees it, ${fromLensText(face.lightFromCamera)}`);
  }
  if (face.second !== null) add(`and a second light, ${fromLensText(face.second.fromCamera)}`);
  add(`${ratioText(face)} cheek to cheek`);
  if (face.edgeMillimetres !== null)
    add(`the nose's shadow fades over ${face.edgeMillimetres.toFixed(0)} mm`);
  add(`catchlights: ${catchlightsText(face.catchlights)}`);
  const skin = skinText(face);
  add(skin.over ? `${skin.text}: close the lens, or take power off, until it does not` : skin.text);
  const eyes = eyesText(face);
  if (eyes !== null) add(eyes);
  for (const doubt of face.doubts) add(`less sure: ${doubt}`);
  return lines;
}

/** Under the first an eye is shut, under the second half shut: for choosing among frames. */
const SHUT = 0.15;
const HALF_SHUT = 0.45;

function eyesText({ eyes }: PhotoFace): string | null {
  const state = (open: number) => (open < SHUT ? "shut" : open < HALF_SHUT ? "half shut" : "open");
  const told = (["left", "right"] as const).flatMap((eye) => {
    const open = eyes.open[eye];
    return open === null ? [] : [{ eye, is: state(open) }];
  });
  const [first, second] = told;
  if (first === undefined) return null;
  const both = second !== undefined && first.is === second.is;
  const parts = both ? [`eyes ${first.is}`] : told.map(({ eye, is }) => `own ${eye} eye ${is}`);
  if (eyes.edgePixels !== null) parts.push(`finest edges there ${eyes.edgePixels.toFixed(1)} pixels wide`);
  if (eyes.motion !== null) parts.push(`smeared by ${eyes.motion.pixels.toFixed(1)} pixels`);
  return parts.join(", ");
}
