/** Which files of a folder are photographs, and which of them are one exposure. */
import { basename, dirname, extname, join } from "node:path";
import { endingOf, PICTURE_ENDINGS, RAW_ENDINGS } from "../testframe/index.ts";

const PICTURES = new Set(PICTURE_ENDINGS);
const RAWS = new Set(RAW_ENDINGS);

export const isRaw = (path: string) => RAWS.has(endingOf(path));

export function isPhotoName(path: string): boolean {
  // what begins with a dot is somebody's half-done work
  return !basename(path).startsWith(".") && (PICTURES.has(endingOf(path)) || isRaw(path));
}

/** The same for a raw file and the picture that the camera wrote beside it. */
export function exposureOf(path: string): string {
  return join(dirname(path), basename(path, extname(path))).toLowerCase();
}
