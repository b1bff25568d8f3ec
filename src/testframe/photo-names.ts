/** Which files are photographs, by the endings of their names; what is inside is the reader's to say. */

/** What the page's file button, the files dropped on it and a watched folder all go by. */
export const PICTURE_ENDINGS: readonly string[] = "jpg jpeg jpe png tif tiff webp heic heif hif".split(" ");

/** As camera makers use them. */
export const RAW_ENDINGS: readonly string[] =
  "3fr arw cr2 cr3 crw dcr dng erf fff iiq kdc mef mos mrw nef nrw orf pef raf raw rw2 rwl sr2 srf srw x3f".split(
    " ",
  );

/** "jpg" of "IMG_1.JPG"; nothing where the name has none. */
export function endingOf(name: string): string {
  return /[^/\\]\.([^./\\]+)$/.exec(name)?.[1]?.toLowerCase() ?? "";
}
