/** Which lights' plates could stand between a light and a receiver: only those need asking again when they move. */
import type { Emitter } from "./scene.ts";

/** One bit a plate that could cut the way from the light to a ball; plates 32 apart share a bit, so a set bit may be one
 * too many, never one too few.
 * Units   metres
 * Source  a plate lies in its own ball; all ways from ball to ball lie in the tube round the line between their centres */
export function platesBetween(
  emitters: readonly Emitter[],
  light: number,
  x: number,
  y: number,
  z: number,
  radius: number,
): number {
  const own = emitters[light];
  const tube = Math.max(radius, reach(own));
  const ax = own.centre[0];
  const ay = own.centre[1];
  const az = own.centre[2];
  const dx = x - ax;
  const dy = y - ay;
  const dz = z - az;
  const d2 = dx * dx + dy * dy + dz * dz;
  let bits = 0;
  for (let i = 0; i < emitters.length; i++) {
    const e = emitters[i];
    if (i === light || e.shape === "point") continue;
    const px = e.centre[0] - ax;
    const py = e.centre[1] - ay;
    const pz = e.centre[2] - az;
    const s = d2 > 0 ? Math.max(0, Math.min(1, (px * dx + py * dy + pz * dz) / d2)) : 0;
    const away2 = (px - s * dx) ** 2 + (py - s * dy) ** 2 + (pz - s * dz) ** 2;
    if (away2 <= (tube + reach(e)) ** 2) bits |= 1 << (i & 31);
  }
  return bits;
}

/** Radius of the ball round the centre that holds the whole face. */
export function reach(e: Emitter): number {
  if (e.shape === "rectangle") return Math.sqrt(e.halfWidth * e.halfWidth + e.halfHeight * e.halfHeight);
  if (e.shape === "polygon") return e.halfWidth / Math.cos(Math.PI / e.sides);
  return e.halfWidth;
}
