/** What a browser gives files of photographs away by. Whether they are any is for the desk to say. */
// by its file: every page asks it, and the room as a whole brings a solver
import { endingOf, PICTURE_ENDINGS, RAW_ENDINGS } from "../testframe/photo-names.ts";

/** A browser knows no type of raw files. */
const ENDINGS = [...PICTURE_ENDINGS, ...RAW_ENDINGS];

/** For a file button. */
export const PHOTOGRAPHS = ["image/*", ...ENDINGS.map((ending) => `.${ending}`)].join(",");

export function isPhotograph({ name, type }: { readonly name: string; readonly type: string }): boolean {
  if (type.startsWith("image/") && type !== "image/svg+xml") return true;
  return ENDINGS.includes(endingOf(name));
}
