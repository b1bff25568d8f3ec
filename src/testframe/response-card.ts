/** A grey card in a photograph, and the exposure it was given. */
import { LUMINANCE } from "../photometry/index.ts";
import type { PhotoExif, Photograph, PixelBox } from "./types.ts";

export interface CardLevel {
  /** linear luminance as decoded, 0 to 1 */
  readonly level: number;
  /** share of its pixels with any channel clipped */
  readonly clippedShare: number;
  /** between its quarter marks, stops: a card lit evenly is within a tenth */
  readonly spreadStops: number;
}

/** Longest side of the patch as it is looked at: noise is averaged, glints and fingers are still single. */
const LOOKED_AT = 200;
/** Of the picture's shorter side. */
const MIDDLE_PART = 0.2;

/** Mean of the middle half of the card's values, so that a glint, a clip or a finger does not count.
 * `box` in full-size pixels; without it the middle of the picture */
export function cardLevel(photo: Photograph, box: PixelBox = middleBox(photo)): CardLevel {
  const { rgb } = photo.crop(box, LOOKED_AT);
  const luminance = new Float64Array(rgb.length / 3);
  for (let i = 0; i < luminance.length; i++)
    luminance[i] = LUMINANCE[0] * rgb[3 * i] + LUMINANCE[1] * rgb[3 * i + 1] + LUMINANCE[2] * rgb[3 * i + 2];
  luminance.sort();
  const from = Math.floor(luminance.length / 4);
  const to = Math.max(from + 1, Math.ceil(luminance.length * 0.75));
  const middle = luminance.subarray(from, to);
  const level = middle.reduce((sum, value) => sum + value, 0) / middle.length;
  const darkest = Math.max(1e-6, luminance[from]);
  return {
    level: Math.max(0, level),
    clippedShare: clippedIn(photo, box),
    spreadStops: Math.log2(Math.max(darkest, luminance[to - 1]) / darkest),
  };
}

function middleBox({ width, height }: Photograph): PixelBox {
  const side = Math.max(1, Math.round(MIDDLE_PART * Math.min(width, height)));
  return {
    left: Math.floor((width - side) / 2),
    top: Math.floor((height - side) / 2),
    width: side,
    height: side,
  };
}

function clippedIn({ picture, clippedShare, width }: Photograph, box: PixelBox): number {
  const scale = picture.width / width;
  const [left, top] = [box.left, box.top].map((value) => Math.max(0, Math.floor(value * scale)));
  const right = Math.max(left + 1, Math.ceil((box.left + box.width) * scale));
  const bottom = Math.max(top + 1, Math.ceil((box.top + box.height) * scale));
  let [sum, count] = [0, 0];
  for (let y = top; y < Math.min(bottom, picture.height); y++)
    for (let x = left; x < Math.min(right, picture.width); x++, count++)
      sum += clippedShare[y * picture.width + x];
  return count > 0 ? sum / count / 255 : 0;
}

/** Exposure as set, in stops over 1 s, f/1 and ISO 100: differences of it are what a bracket needs. Marks are taken for the
 * exact steps they stand for (1/125 is 1/128, f/11 is f/11.31). With flash the shutter does not count: bracket by aperture.
 * Null where Exif lacks one of the three. */
export function exposureStops({ shutter, fNumber, iso }: PhotoExif): number | null {
  if (shutter === null || fNumber === null || iso === null) return null;
  return exactStep(Math.log2(shutter)) - exactStep(2 * Math.log2(fNumber)) + exactStep(Math.log2(iso / 100));
}

/** Dials have thirds or halves. */
function exactStep(stops: number): number {
  const whole = Math.floor(stops);
  const steps = [0, 1 / 3, 1 / 2, 2 / 3, 1].map((part) => whole + part);
  return steps.reduce((best, step) => (Math.abs(step - stops) < Math.abs(best - stops) ? step : best));
}
