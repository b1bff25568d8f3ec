/** How wide a light spreads, as people say it: the full angle at half intensity. */
import type { Light, Output } from "./schema.ts";

const DEGREE = Math.PI / 180;
/** A perfect diffuser; half of cos is at 60 degrees to either side. */
export const DIFFUSER_DEG = 120;

/** Full angle at half of the axial intensity of a cos^m lobe: 2 acos(0.5^(1/m)).
 * Units   exponent -> degrees
 * Domain  m = 0 (the same all over the half-space) is 180
 * @example 1 -> 120 */
export function beamAngle(exponent: number): number {
  return (2 * Math.acos(0.5 ** (1 / exponent))) / DEGREE;
}

/** The exponent of a beam angle, ln 0.5 / ln cos(angle / 2).
 * Units   degrees, above 0 to 180 -> exponent
 * @example 60 -> 4.8188 */
export function exponentOfAngle(angle_deg: number): number {
  if (angle_deg >= 180) return 0;
  // 120 degrees is 1 exactly; the cosine of 60 degrees is not quite a half
  if (angle_deg === DIFFUSER_DEG) return 1;
  return Math.log(0.5) / Math.log(Math.cos((angle_deg * DEGREE) / 2));
}

/** Energy that leaves a front of the same luminance on its axis, as a share: 2 pi / (m + 1) times the axial intensity
 * is what a cos^m lobe holds.
 * @example 1 to 3 -> 0.5 */
export function energyShareOnGrid(from_exponent: number, to_exponent: number): number {
  return (from_exponent + 1) / (to_exponent + 1);
}

/** The output that keeps the luminance on the axis when a grid goes on or comes off: what leaves falls, the axis stays.
 * Outputs that are measured on the axis stay as they are. Where a head would have to send out more than its tube makes,
 * all of it goes out, and the axis loses `axisStops`. */
export function outputOnGrid(light: Light, exponent: number): { output: Output; axisStops: number } {
  const { output } = light;
  const share = energyShareOnGrid(light.beam.exponent, exponent);
  if ("lumenSeconds" in output) {
    return { output: { lumenSeconds: output.lumenSeconds * share }, axisStops: 0 };
  }
  if (!("wattSeconds" in output)) return { output, axisStops: 0 };
  const wanted = output.efficiency * share;
  const efficiency = Math.min(1, wanted);
  return {
    output: { ...output, efficiency },
    axisStops: wanted > 1 ? -Math.log2(wanted) : 0,
  };
}
