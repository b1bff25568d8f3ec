/** Why a photograph is not read, in words, with the cure. */
import { plainText } from "../testframe/index.ts";
import { WorkError } from "../workbench/index.ts";

/** Largest file that is looked at, bytes: medium-format raw files are just under it. */
export const LARGEST_FILE = 256 * 1024 * 1024;
/** Most pixels that are read, and with three channels of 16 bits: 360 MB of levels each way. */
export const MOST_PIXELS = 120e6;
export const MOST_DEEP_PIXELS = 60e6;
/** Longest side that is read: the largest that a JPEG can have (ITU-T T.81, B.2.2). A longer one is a damaged header. */
const LONGEST_SIDE = 65535;

/** A file's name as it is put in a sentence. */
export function calledName(name: string): string {
  return plainText(name, 100) || "the file";
}

export function photoProblem(name: string, problem: string, cure: string): WorkError {
  return new WorkError(`${calledName(name)} ${problem}`, cure);
}

/** 900,000,000 as "900". */
export function megapixels(pixels: number): string {
  return grouped(pixels / 1e6, pixels < 10e6 ? 1 : 0);
}

/** 6000 × 4000, 30,000 × 30,000 */
export function sizeWords(width: number, height: number): string {
  return `${grouped(width)} × ${grouped(height)}`;
}

function grouped(value: number, digits = 0): string {
  const text = value.toFixed(digits);
  return value < 10_000 ? text : text.replace(/\B(?=(\d{3})+(?!\d))/g, ",");
}

/** Errors  WorkError where a header claims more than is read; before anything of that size is allocated */
export function checkSize(name: string, width: number, height: number, isDeepColour: boolean): void {
  if (!(width >= 1 && height >= 1))
    throw photoProblem(name, "claims a picture of no size", "copy it again from the card, or export it anew");
  if (Math.max(width, height) > LONGEST_SIDE)
    throw photoProblem(
      name,
      `claims ${sizeWords(width, height)} pixels; sides of at most ${grouped(LONGEST_SIDE)} are read`,
      "copy it again from the card, or export a smaller copy",
    );
  const most = isDeepColour ? MOST_DEEP_PIXELS : MOST_PIXELS;
  if (width * height <= most) return;
  const limit = `at most ${megapixels(most)} megapixels are read${isDeepColour ? " at 16 bits a channel" : ""}`;
  throw photoProblem(
    name,
    `claims ${sizeWords(width, height)} pixels, ${megapixels(width * height)} megapixels; ${limit}`,
    "export a smaller copy",
  );
}

/** Seconds after which a decoder that gets nowhere is stopped. */
export const LONGEST_SECONDS = 30;

/** A decoder's own words, short. */
export function reasonOf(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error);
  return plainText(text.split("\n")[0], 120);
}

/** Whether it says that the file ends too early. */
export function isCutOff(error: unknown): boolean {
  return /premature end|truncat|end of (file|stream|image)|not enough data|unexpected end/i.test(
    reasonOf(error),
  );
}

/** A decoder's failure in words: incomplete, too slow or damaged. */
export function notReadable(name: string, error: unknown): WorkError {
  const reason = reasonOf(error);
  if (isCutOff(error))
    return photoProblem(
      name,
      `is incomplete (${reason}): part of the picture is missing`,
      "wait until it is written whole, or copy it again from the card",
    );
  if (/timeout/i.test(reason))
    return photoProblem(
      name,
      `was not decoded within ${LONGEST_SECONDS} s`,
      "export it anew as a plain JPEG",
    );
  return photoProblem(
    name,
    `is damaged or incomplete (${reason})`,
    "copy it again from the card, or export it anew",
  );
}
