/** What a photograph shows, in the words that screen and shell share. */
import { clockWords, fromNoseWords, patternName, patternWord } from "../reading/index.ts";
import { formatFStops, formatShutter } from "../units/index.ts";
import type { Angles, PhotoCatchlight, PhotoExif, PhotoFace } from "./types.ts";

export const CANNOT_TELL = "cannot tell";

export function stopsText(stops: number): string {
  const text = Math.abs(stops).toFixed(1);
  return `${text} ${text === "1.0" ? "stop" : "stops"}`;
}

/** "2.1 ± 0.4 stops" */
export function ratioText({ ratioStops, ratioUncertaintyStops: by }: PhotoFace): string {
  if (ratioStops === null) return CANNOT_TELL;
  return by === null ? stopsText(ratioStops) : `${Math.abs(ratioStops).toFixed(1)} ± ${by.toFixed(1)} stops`;
}

/** "32° to own left, 33° up, ± 5°" */
export function lightText({ light, uncertaintyDegrees: by }: PhotoFace): string {
  if (light === null) return CANNOT_TELL;
  return `${fromNoseWords(light.azimuth, light.elevation)}${by === null ? "" : `, ± ${Math.round(by)}°`}`;
}

/** "40° to picture right, 31° up from the lens" */
export function fromLensText(angles: Angles | null): string {
  if (angles === null) return CANNOT_TELL;
  const [aside, up] = [Math.round(angles.azimuth), Math.round(angles.elevation)];
  const side =
    aside === 0
      ? "straight from the camera"
      : `${Math.abs(aside)}° to picture ${aside > 0 ? "right" : "left"}`;
  return `${side}, ${up === 0 ? "level" : `${Math.abs(up)}° ${up > 0 ? "up" : "down"}`} from the lens`;
}

export function patternText({ pattern, between }: PhotoFace): string {
  if (pattern === null) return CANNOT_TELL;
  return between === null
    ? patternName(pattern)
    : `${patternName(pattern)}, close to ${patternWord(between)}`;
}

export function litText({ litSide }: PhotoFace): string {
  if (litSide === null) return CANNOT_TELL;
  return litSide === "even" ? "both cheeks alike" : `own ${litSide} lit`;
}

/** "1:30, round in both eyes" */
export function catchlightsText(catchlights: readonly PhotoCatchlight[]): string {
  if (catchlights.length === 0) return "none that can be told";
  const [left, right] = (["left", "right"] as const).map((eye) =>
    catchlights
      .filter((each) => each.eye === eye)
      .map(({ clock, shape }) => `${clockWords(clock)}${shape === "unclear" ? "" : `, ${shape}`}`)
      .join(" and "),
  );
  if (left === right) return `${left} in both eyes`;
  return [
    left === "" ? [] : [`${left} in the own left eye`],
    right === "" ? [] : [`${right} in the own right eye`],
  ]
    .flat()
    .join("; ");
}

/** "nothing clips on the skin; 0.6 stops to clipping" */
export function skinText({ clippedSkin, skinHeadroomStops }: PhotoFace): { text: string; over: boolean } {
  const over = clippedSkin > 0;
  const state = over ? `${shareText(clippedSkin)} of the skin clips` : "nothing clips on the skin";
  if (over || skinHeadroomStops === null) return { text: state, over };
  return { text: `${state}; ${stopsText(skinHeadroomStops)} to clipping`, over };
}

/** "1.2 %"; what is there and rounds to nothing is under a tenth. */
export function shareText(share: number): string {
  if (share > 0 && share < 0.0005) return "under 0.1 %";
  return `${(100 * share).toFixed(1)} %`;
}

/** "135 mm, f/8 + 0.0, 1/160, ISO 100", as far as the file says; null where it says nothing. */
export function exifLine({ focalLength, fNumber, iso, shutter }: PhotoExif): string | null {
  const parts = [
    focalLength === null ? null : `${Number(focalLength.toFixed(1))} mm`,
    fNumber === null ? null : formatFStops(fNumber),
    shutter === null ? null : formatShutter(shutter),
    iso === null ? null : `ISO ${Math.round(iso)}`,
  ].filter((part) => part !== null);
  return parts.length === 0 ? null : parts.join(", ");
}
