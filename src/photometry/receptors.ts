/** How a meter's receptor answers to light from an angle off its axis. */

/** Flat: the cosine law, nothing from behind.
 * Units   rad -> share of what the same light does from straight ahead
 * Source  ISO 2720:1974, incident light, flat receptor */
export function flatResponse(angle_rad: number): number {
  return Math.max(0, Math.cos(angle_rad));
}

/** Dome: the cardioid that an ideal hemispherical receptor has, half of it still at right angles.
 * Units   rad -> share
 * Source  ISO 2720:1974, hemispherical receptor */
export function domeResponse(angle_rad: number): number {
  return (1 + Math.cos(angle_rad)) / 2;
}
