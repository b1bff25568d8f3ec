/** How far levels in a file may be off while the camera's own curve is not known. */
import { decodeSrgb, encodeSrgb } from "../photometry/index.ts";

/** A camera's picture style bends the standard curve: encoded = v - (bend / 2 pi) sin(2 pi v), an S with a slope of
 * 1 + bend in the middle and 1 - bend at both ends. From a flat style to a hard one (common practice, no source). */
const BENDS = [-0.2, 0.25, 0.5] as const;

/** How far a ratio of two levels may be off for want of the curve, stops: the most that one of those styles moves it from
 * what the file's standard says. */
export function curveDoubtStops(lit: number, shadow: number): number {
  const standard = Math.log2(lit / Math.max(shadow, LEAST));
  return Math.max(
    ...BENDS.map((bend) => Math.abs(Math.log2(unbent(lit, bend) / unbent(shadow, bend)) - standard)),
  );
}

const ROUNDS = 30;
const LEAST = 1e-5;

/** Linear light whose bent curve gives this file level, by halving. */
function unbent(linear: number, bend: number): number {
  const level = encodeSrgb(Math.min(1, Math.max(LEAST, linear)));
  let low = 0;
  let high = 1;
  for (let round = 0; round < ROUNDS; round++) {
    const v = (low + high) / 2;
    if (v - (bend / (2 * Math.PI)) * Math.sin(2 * Math.PI * v) < level) low = v;
    else high = v;
  }
  return decodeSrgb((low + high) / 2);
}
