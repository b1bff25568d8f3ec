/** The picture while somebody drags a light: a soft version of the coarse one of the same width. What the camera sees is
 * shared with that; every pixel asks one point of a light, 16 of them different ones, and neighbours on one surface
 * are evened out, so that the same plan always gives the same picture and nothing crawls. */
import type { Plan } from "../plan/index.ts";
import { type Frame, frameShares, weighFrame } from "./frame.ts";
import { lightAtGlance } from "./glance.ts";
import type { Memory } from "./memory.ts";
import type { PictureRegion } from "./types.ts";

/** A picture of this width is traced for the reading as well: whoever asks for both has it traced once. */
export const GLANCE_WIDTH = 60;

export function glanceFrame(
  plan: Plan,
  request: { width: number; region?: PictureRegion },
  memory: Memory,
): Frame {
  const lighting = lightAtGlance(plan, memory);
  return weighFrame(lighting, frameShares(lighting, request.width, undefined, request.region));
}
