/** The placement sheet of a plan: read finely, with the picture beside it. */
import type { Plan } from "../plan/index.ts";
import { placementSheet, type SheetOptions } from "../sheet/index.ts";
import { encodePng } from "./png.ts";
import type { Computer, WorkOptions } from "./ports.ts";

/** Enough for the size at which it is printed, 45 mm wide at 200 pixels an inch. */
const PICTURE_WIDTH = 360;

export async function makeSheet(
  computer: Computer,
  plan: Plan,
  options: Omit<SheetOptions, "picture">,
  work?: WorkOptions,
): Promise<string[]> {
  const reading = await computer.read(plan, "fine", work);
  const picture = await computer.frame(plan, { width: PICTURE_WIDTH, quality: "fine" }, work);
  return placementSheet(plan, reading, {
    ...options,
    picture: {
      data: base64(encodePng(picture)),
      width: picture.width,
      height: picture.height,
    },
  });
}

const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/** RFC 4648; neither the browser's nor Node's own is in both. */
export function base64(bytes: Uint8Array): string {
  const out: string[] = [];
  for (let i = 0; i < bytes.length; i += 3) {
    const [a, b, c] = [bytes[i], bytes[i + 1], bytes[i + 2]];
    out.push(LETTERS[a >> 2], LETTERS[((a & 3) << 4) | ((b ?? 0) >> 4)]);
    out.push(b === undefined ? "=" : LETTERS[((b & 15) << 2) | ((c ?? 0) >> 6)]);
    out.push(c === undefined ? "=" : LETTERS[c & 63]);
  }
  return out.join("");
}
