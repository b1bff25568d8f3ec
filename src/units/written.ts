/** Angles, times and ratios as people read them. */

/** Whole degrees with a true minus. Not finite gives "no angle". */
export function formatDegrees(degrees: number): string {
  if (!Number.isFinite(degrees)) return "no angle";
  return `${Math.round(degrees)}°`.replace("-", "−");
}

/** Shutter time in the trade's fractions; from 0.3 s in seconds, as cameras mark it.
 * Domain  above 0; anything else gives "no time"
 * @example 0.00625 -> "1/160" */
export function formatShutter(seconds: number): string {
  if (!(seconds > 0) || !Number.isFinite(seconds)) return "no time";
  if (seconds >= 0.3) return `${Number(seconds.toFixed(1))} s`;
  return `1/${Math.round(1 / seconds)}`;
}

/** A lighting ratio, the larger side first unless it is below one: "3:1", "1:2.5". Tenths below ten, then whole.
 * Domain  above 0; anything else gives "no ratio" */
export function formatRatio(ratio: number): string {
  if (!(ratio > 0) || !Number.isFinite(ratio)) return "no ratio";
  const larger = Math.max(ratio, 1 / ratio);
  const text = String(Number(larger.toFixed(larger < 9.95 ? 1 : 0)));
  return ratio >= 1 || text === "1" ? `${text}:1` : `1:${text}`;
}
