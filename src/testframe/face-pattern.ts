/** The pattern on a photographed face: the plan's own rule, on the light that the picture shows. */
import { type Pattern, readPattern } from "../reading/index.ts";
import type { FaceExposure } from "./face-exposure.ts";

/** So much of the front of the face must be seen, by area. */
const LEAST_SEEN = 0.3;
/** The rule knows light under a thousandth of a lux-second as dark: levels are lifted well over that. */
const LIFT = 1000;

export function readFacePattern(e: FaceExposure): { pattern: Pattern | null; between: Pattern | null } {
  const { samples, marks } = e.mask;
  let seen = 0;
  let all = 0;
  for (let s = 0; s < samples.count; s++) {
    all += samples.area[s];
    if (e.measured[s] > 0 || e.atLeast[s] > 0) seen += samples.area[s];
  }
  if (e.arriving === null || !(seen >= LEAST_SEEN * all)) return { pattern: null, between: null };
  const lifted = e.leaning.map((x) => LIFT * x);
  const { pattern, between } = readPattern(samples, lifted, marks, LIFT * e.arriving);
  return pattern === "dark" ? { pattern: null, between: null } : { pattern, between };
}
