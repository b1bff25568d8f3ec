/** A small picture of a photograph, for the page. */
import { encodeSrgb } from "../photometry/index.ts";
import type { Photograph } from "../testframe/index.ts";
import { sharpLibrary } from "./photo-head.ts";

const STEPS = 4096;

/** Levels of the sRGB curve over the root of linear light. */
const LEVELS = Uint8Array.from({ length: STEPS + 1 }, (_, i) =>
  Math.round(255 * encodeSrgb((i / STEPS) ** 2)),
);

/** JPEG, sRGB, at most so many pixels on its longer side; what lies outside the gamut is cut. */
export async function thumbnail(photo: Photograph, longSide: number): Promise<Uint8Array> {
  const sharp = await sharpLibrary();
  const { picture, width, height } = photo;
  const isSmall = Math.max(picture.width, picture.height) <= longSide;
  const shown = isSmall ? picture : photo.crop({ left: 0, top: 0, width, height }, longSide);
  const levels = new Uint8Array(shown.rgb.length);
  for (let i = 0; i < levels.length; i++)
    levels[i] = LEVELS[Math.round(STEPS * Math.sqrt(Math.min(1, Math.max(0, shown.rgb[i]))))];
  const raw = { width: shown.width, height: shown.height, channels: 3 as const };
  return new Uint8Array(await sharp(levels, { raw }).jpeg({ quality: 85 }).toBuffer());
}
