/** How far an eye is open, by its lids. */
import { EYE_CORNERS } from "./find-points.ts";
import type { HeadFit } from "./head-fit.ts";
import type { FoundFace } from "./types.ts";

/** Pairs of the upper and the lower lid's edge, a third, half and two thirds of the way along. */
const LIDS = {
  right: [
    [160, 144],
    [159, 145],
    [158, 153],
  ],
  left: [
    [387, 373],
    [386, 374],
    [385, 380],
  ],
} as const;
/** Height over width of the opening at which it is shut and wide: the eye network's answers to shut and to rendered wide eyes
 * (docs/decisions/0008-finding-faces.md). */
const SHUT = 0.12;
const WIDE = 0.34;
/** Turned so far away, the eye is seen too much from the side. */
const MOST_TURN = 50;
/** Pixels of the picture that the network saw: an eye smaller than this is not judged. */
const LEAST_WIDTH = 8;
const RADIANS = Math.PI / 180;

/** 0 shut, 1 wide open; null where it cannot be told.
 * Source  Soukupova and Cech 2016, Real-time eye blink detection using facial landmarks (the ratio), here for a turned head
 * with the foreshortening taken out */
export function opennessOf(face: FoundFace, head: HeadFit, eye: "left" | "right"): number | null {
  const { points } = face;
  const [outer, inner] = EYE_CORNERS[eye];
  const across = [0, 1].map((k) => points[3 * inner + k] - points[3 * outer + k]);
  const width = Math.sqrt(across[0] * across[0] + across[1] * across[1]);
  // the eye that looks away lies round the curve of the head by about as much again
  const away = eye === "left" ? head.turn : -head.turn;
  if (!(width >= LEAST_WIDTH) || away > MOST_TURN) return null;
  const heights = LIDS[eye].map(([upper, lower]) => {
    const [dx, dy] = [0, 1].map((k) => points[3 * lower + k] - points[3 * upper + k]);
    return Math.abs(across[0] * dy - across[1] * dx) / width;
  });
  const height = heights.reduce((sum, h) => sum + h, 0) / heights.length / Math.cos(head.tip * RADIANS);
  const ratio = (height * Math.cos(head.turn * RADIANS)) / width;
  return Math.min(1, Math.max(0, (ratio - SHUT) / (WIDE - SHUT)));
}
